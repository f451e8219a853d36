"""The program killed while a new edition is written, in a real terminal: nothing confirmed is lost.

Here it dies in three blocks; `python -m tests.bench.edition_kills` kills it in each of all.
"""

from __future__ import annotations

import signal
import sys
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from tests.terminal.forked import ForkedTerminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

Steps = tuple[tuple[str, str | Callable[[str], bool]], ...]
"""Keys, and what stands on the screen once they are taken."""


def _twice(words: str) -> Callable[[str], bool]:
    return lambda text: text.count(words) >= 2


def _marked(text: str) -> bool:
    return "recorded" in text


BLOCKS: dict[str, tuple[Steps, Callable[[dict[str, Any]], object]]] = {
    "head": (
        (("1", "The breed's name"), ("Fen Hound\r", "Who publishes"), ("A body\r", "Its number there")),
        lambda rules: (rules["breed"], rules["body"]) == ("Fen Hound", "A body"),
    ),
    "sizes": (
        (("3", "Which figure?"), ("1\r", "The least"), ("50\r", "The greatest"), ("55\r", "tolerated")),
        lambda rules: rules["limits"][0]["asked"] == {"from": 50, "to": 55},
    ),
    "proportions": (
        (("4", "Which figure?"), ("1\r", "The least"), ("1\r", "The greatest"), ("1.1\r", "tolerated")),
        lambda rules: rules["limits"][1]["asked"] == {"from": 1, "to": 1.1},
    ),
    "teeth": (
        (
            ("5", "What does the standard say of teeth"),
            ("2", "Which are not counted"),
            ("1", _twice("not counted")),
        ),
        lambda rules: rules["teeth"]["exempt"] == ["P1"],
    ),
    "regions": (
        (("6", "Which region?"), ("2\r", "What is asked for"), ("Long.\r", "go on")),
        lambda rules: [row["text"] for row in rules["asked"].values()] == ["Long."],
    ),
    "silences": (
        (("7", "say nothing of"), ("2\r", _marked)),
        lambda rules: len(rules["silent"]) == 1,
    ),
    "classes": (
        (("8", "Choose one to name it"), ("4", "own word for it"), ("Grave\r", "lead to?")),
        lambda rules: rules["classes"][-1]["label"].endswith("Grave"),
    ),
    "faults": (
        (
            ("9", "Which class?"),
            ("1", "Faults of this class"),
            ("light eyes\r", "take it"),
            ("1", "Faults of this"),
        ),
        lambda rules: rules["rulings"][0]["faults"] == ["eyes.light"],
    ),
    "law": (
        (
            ("0", "What?"),
            ("4", "law of some places"),
            ("3", "Which of these"),
            ("1", "in which class"),
            ("2", "take out"),
        ),
        lambda rules: "dewclaws-judged" in rules["switches"],
    ),
    "own points": (
        (
            ("0", "What?"),
            ("5", "no other"),
            ("1", "Where on the dog"),
            ("1\r", "is called"),
            ("Ridge\r", "examined?"),
        ),
        lambda rules: rules["points"][0]["label"] == "Ridge",
    ),
    "colours": (
        (
            ("0", "What?"),
            ("6", "decides rules"),
            ("1", "it is called"),
            ("Colour\r", "Its kinds"),
            ("red\r", "What of"),
        ),
        lambda rules: rules["attributes"]["colour"]["options"] == {"red": "red"},
    ),
    "another language": (
        (
            ("0", "What?"),
            ("8", "another language"),
            ("1", "Its code"),
            ("de\r", "Which texts"),
            ("1", "as it is"),
            ("Fehler\r", "(2 of"),
        ),
        lambda rules: rules["languages"]["de"]["labels"]["fault"] == "Fehler",
    ),
}


def killed(tmp_path: Path, blocks: Sequence[str]) -> None:
    """Kill the program in the middle of one block after another; all answered so far must be on disk."""
    own = tmp_path / "own"
    own.mkdir()
    file = own / "fen-hound.toml"
    arguments = ["--rulesets", str(own), "--sessions", str(tmp_path / "s"), "rulesets", "--new", "fen-hound"]
    for n, block in enumerate(blocks, 1):
        terminal = ForkedTerminal(arguments, tmp_path)
        terminal.wait("Which block?")
        for keys, then in BLOCKS[block][0]:
            terminal.press(keys, then)
        terminal.kill(signal.SIGKILL)
        rules = tomllib.loads(file.read_text(encoding="utf-8"))
        lost = [name for name in blocks[:n] if not BLOCKS[name][1](rules)]
        assert not lost, f"killed in {block}, lost: {lost}"
    assert Library([shipped_rulesets(), own]).load("fen-hound").edition.breed


def test_killed_in_the_middle_of_a_block_nothing_confirmed_is_lost(tmp_path: Path) -> None:
    killed(tmp_path, ("head", "sizes", "own points"))
