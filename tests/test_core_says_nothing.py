"""The core holds values; what is said of them is said in `hands_on/wording/`. Read from the source text.

Prose is a literal, or an f-string, in which two words of two letters or more stand side by side. What a
raised error tells (and what a local name holds that one is raised with) is allowed: it goes to whoever gave
the input, at once and as it stands. So are the modules that check or begin a file: their findings say what
is wrong with it and what would be right. Whatever else stands in `ALLOWED`, with the reason.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent / "hands_on"

CORE = ("ruleset", "measure", "evaluate", "compare", "figure")

ABOUT_FILES = re.compile(r"ruleset/(check|start)\.py|ruleset/checks/\w+\.py")
"""Modules that tell whoever writes a ruleset what is wrong with it, or begin one."""

ALLOWED: dict[tuple[str, str], str] = {
    (
        "ruleset/base.py",
        "",
    ): "sources that need no entry of their own, with the text that stands in its place",
    ("ruleset/dentition.py", ""): "the trade's names of the quadrants",
    ("measure/entry.py", ""): "spellings of units as they are typed",
    ("measure/asked_reading.py", "range_text"): "part of the errors raised for what is not possible",
    ("measure/geometry.py", "law_of_cosines"): "names in the errors raised of these sides",
    ("measure/geometry.py", "angle_from_lengths"): "names in the errors raised of these sides",
    ("measure/growth_curves.py", ""): "citations",
    ("measure/units.py", ""): "the name of a unit",
    ("evaluate/measures.py", "_rests_on"): "an id, in JSON among the bases",
    ("evaluate/result.py", ""): "an id, in JSON among the bases",
    ("compare/answer.py", ""): "an id, in JSON among the answers without an order",
    ("compare/examined.py", "dog"): "stands for a name where there is none",
    ("compare/agreement/board.py", "board_of"): "tells evaluators of one name, or of none, apart",
    ("compare/agreement/alpha.py", ""): "the name of a statistic, an id in JSON",
    ("compare/agreement/kappa.py", "weighted_kappa"): "the name of a statistic, an id in JSON",
}
"""Module and function (none: at the top of the module) that may hold words, and why."""

_TWO_WORDS = re.compile(r"[A-Za-z’']{2,}[,;:.]?\s+\(?[A-Za-z’]{2,}")


def prose(source: str) -> Iterator[tuple[str, str, int]]:
    """What a module says: the function around it, the text, the line."""
    tree = ast.parse(source)
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}

    def above(node: ast.AST) -> Iterator[ast.AST]:
        while node in parents:
            node = parents[node]
            yield node

    def text_of(node: ast.AST) -> str:
        if isinstance(node, ast.JoinedStr):
            return "".join(text_of(part) or "0" for part in node.values)
        return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""

    for node in ast.walk(tree):
        text = text_of(node)
        around = list(above(node))
        if not _TWO_WORDS.search(text) or isinstance(around[0], (ast.Expr, ast.JoinedStr)):
            continue
        inner = next((one for one in around if isinstance(one, ast.FunctionDef)), None)
        if not _raised(around, inner):
            yield inner.name if inner is not None else "", text, getattr(node, "lineno", 0)


def _raised(around: list[ast.AST], inner: ast.FunctionDef | None) -> bool:
    """Does this go into an error: within a raise, or by a name that one in the function is raised with?"""
    if any(isinstance(one, ast.Raise) for one in around):
        return True
    stored = next((one for one in around if isinstance(one, ast.Assign)), None)
    names = {one.id for one in stored.targets if isinstance(one, ast.Name)} if stored is not None else set()
    raises = [one for one in ast.walk(inner) if isinstance(one, ast.Raise)] if inner is not None else []
    used = {one.id for each in raises for one in ast.walk(each) if isinstance(one, ast.Name)}
    return bool(names & used)


@cache
def said() -> dict[tuple[str, str], list[str]]:
    """Everything the core says, by module and function."""
    found: dict[tuple[str, str], list[str]] = {}
    for package in CORE:
        for file in sorted((ROOT / package).rglob("*.py")):
            name = file.relative_to(ROOT).as_posix()
            if ABOUT_FILES.fullmatch(name):
                continue
            for function, text, line in prose(file.read_text(encoding="utf-8")):
                found.setdefault((name, function), []).append(f"{line}: {text}")
    return found


def test_the_core_says_nothing():
    assert {place: texts for place, texts in said().items() if place not in ALLOWED} == {}


def test_what_is_allowed_is_still_there():
    assert set(ALLOWED) - set(said()) == set()


@pytest.mark.parametrize(
    "source",
    [
        'def told(n):\n    return f"no fault in {n}"',
        'def told():\n    """What it is."""\n    words = "no fault"\n    return words',
        'WORDS = {"none": "no fault"}',
        'def told(x):\n    if x < 0:\n        raise ValueError("below nought")\n    return "no fault"',
    ],
)
def test_prose_is_seen(source):
    assert [text for _, text, _ in prose(source)] in (["no fault"], ["no fault in 0"])


@pytest.mark.parametrize(
    "source",
    [
        '"""A module of words."""\n\nX = 1\n"""The first number."""',
        'def read(x):\n    raise ValueError(f"{x} is no number")',
        'def read(x):\n    message = f"{x} is no number"\n    raise ValueError(message)',
        'def read(x):\n    return ", ".join(["not-yet", "outside", f"{x}/take {x}"])',
    ],
)
def test_docstrings_errors_and_ids_are_no_prose(source):
    assert list(prose(source)) == []
