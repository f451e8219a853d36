"""Do the tests notice a wrong line? Every mutant is one small mistake in a module (`tests.bench.mutants`).

    python -m tests.bench.mutation                     # the modules the verdicts rest on
    python -m tests.bench.mutation measure.takes --all # one of them, every mutant instead of a sample

The module's own tests run on each in a process of its own, until the first fails. What none notices has
survived; mutants that change nothing anybody can see are listed by their place, with the reason, in
tests/data/equivalent_mutants.toml and count as explained. The score is the share noticed or explained.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import importlib.abc
import importlib.util
import io
import os
import random
import signal
import sys
import time
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, FunctionType, ModuleType

from tests.bench.mutants import mutants, mutated

ROOT = Path(__file__).parents[2]
SAMPLE = 60
"""Mutants of a module that are tried unless all are wanted."""
PATIENCE = 120
"""Seconds of the processor after which a mutant counts as noticed: it never ends."""

DEFAULT = [
    "measure.conformity", "measure.further", "measure.takes",
    "evaluate.limits", "evaluate.holding", "evaluate.held", "evaluate.ladder", "evaluate.sorting",
    "evaluate.findings", "evaluate.merge", "evaluate.classes",
    "compare.dogs.order", "compare.dogs.order_found", "compare.dogs.basis", "compare.dogs.places",
    "compare.dogs.class_rank", "compare.dogs.chances", "compare.dogs.drawn_measures",
]  # fmt: skip
"""What the verdicts rest on."""

OF_LIMITS = [f"tests/evaluate/test_{name}.py" for name in ("limits", "hovawart", "verdicts", "sorting")]
OF_FINDINGS = [
    f"tests/evaluate/test_{name}.py" for name in ("findings", "classes", "verdicts", "whole", "teeth")
]
OF_ORDER = [f"tests/compare/test_{name}.py" for name in ("order", "order_basis", "young_in_an_order")]
OF_CONFORMITY = ["tests/measure/test_conformity.py", "tests/measure/test_further.py"]

NEAREST: dict[str, list[str]] = {
    **dict.fromkeys(["measure.conformity", "measure.further"], OF_CONFORMITY),
    **{f"evaluate.{name}": OF_LIMITS for name in ("limits", "holding", "held", "ladder", "sorting")},
    **{f"evaluate.{name}": OF_FINDINGS for name in ("findings", "merge", "classes", "observed")},
    "evaluate.outcome": ["tests/evaluate/test_verdicts.py"],
    **{
        f"compare.dogs.{name}": OF_ORDER
        for name in ("order", "order_found", "basis", "places", "class_rank", "chances", "drawn_measures")
    },
    "compare.dogs.changed": ["tests/compare/test_recheck.py"],
    "compare.dogs.history": ["tests/compare/test_recheck.py", "tests/compare/test_commands.py"],
    "compare.answer": ["tests/compare/test_differ.py", "tests/compare/test_agree.py"],
    "compare.agreement.by_point": ["tests/compare/test_agree.py"],
    **{
        f"compare.agreement.{name}": ["tests/compare/test_statistics.py"]
        for name in ("alpha", "concordance", "gwet", "icc", "kappa", "f_and_chi_squared")
    },
    **{
        f"compare.editions.{name}": ["tests/compare/test_editions.py"]
        for name in ("classing", "limits", "rule_by_rule", "rule_pair")
    },
    **{
        f"exam.{name}": ["tests/exam/test_broken_sessions.py"]
        for name in ("check", "checks.answers", "checks.header", "checks.readings")
    },
}
"""Tests nearest to a module, where they are not those in the file of its own name."""


def path_of(module: str) -> Path:
    """`evaluate.limits` -> its file."""
    return ROOT / "hands_on" / Path(*module.split(".")).with_suffix(".py")


def _tests() -> dict[str, list[str]]:
    """For every module that computes: the nearest tests, or all of its package."""
    found: dict[str, list[str]] = {}
    for package in ("measure", "evaluate", "compare", "exam"):
        for file in sorted((ROOT / "hands_on" / package).rglob("*.py")):
            module = ".".join(file.relative_to(ROOT / "hands_on").with_suffix("").parts)
            own = f"tests/{package}/test_{file.stem}.py"
            if file.stem != "__init__" and (package != "exam" or module in NEAREST):
                found[module] = NEAREST.get(module) or [own if (ROOT / own).is_file() else f"tests/{package}"]
    return found


TESTS = _tests()
"""The tests that must notice a mistake, by module."""


class _Mutated(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Brings in one module with its mistake."""

    def __init__(self, name: str, path: Path, code: CodeType) -> None:
        self.name, self.path, self.code = name, path, code

    def find_spec(self, name: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        if name != self.name:
            return None
        return importlib.util.spec_from_file_location(name, self.path, loader=self)

    def create_module(self, spec: importlib.machinery.ModuleSpec) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        exec(self.code, module.__dict__)


def noticed(module: str, path: Path, tree: ast.Module, tests: list[str]) -> bool:
    """Does a test fail? In a process of its own, so that nothing stays behind."""
    child = os.fork()
    if child == 0:
        signal.setitimer(signal.ITIMER_PROF, PATIENCE)
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        code = compile(tree, str(path), "exec")
        if not put_in_place(sys.modules[f"hands_on.{module}"], code):
            for name in [one for one in sys.modules if one.split(".")[0] in ("hands_on", "tests")]:
                del sys.modules[name]
            sys.meta_path.insert(0, _Mutated(f"hands_on.{module}", path, code))
        os._exit(0 if _run("-x", *tests) == 0 else 1)
    _, status = os.waitpid(child, 0)
    return status != 0


def _run(*arguments: str) -> int:
    import pytest

    options = ["-q", "-n", "0", "-p", "no:cacheprovider", "--hypothesis-seed=0", "--assert=plain"]
    return int(pytest.main([*options, *arguments]))


def loaded(module: str, tests: list[str]) -> None:
    """Bring in the module and its tests once for all mutants, and run none of them."""
    importlib.import_module(f"hands_on.{module}")
    with open(os.devnull, "w") as nowhere, contextlib.redirect_stdout(nowhere):
        _run("--collect-only", *tests)


def put_in_place(module: ModuleType, code: CodeType) -> bool:
    """Give the functions of a loaded module the code of its mutant; False where none of them differs.

    What differs then runs when the module is loaded: a constant, a default, a field.
    """
    new = dict(_codes(code))
    changed = False
    for function in _functions_of(module):
        name = function.__code__.co_qualname
        if name in new and function.__code__ != new[name]:
            function.__code__ = new[name]
            changed = True
    return changed


def _codes(code: CodeType) -> Iterator[tuple[str, CodeType]]:
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield one.co_qualname, one
            yield from _codes(one)


def _functions_of(module: ModuleType) -> Iterator[FunctionType]:
    """Functions and methods defined in a module, those behind properties and caches too."""
    classes = [one for one in vars(module).values() if isinstance(one, type)]
    for holder in (module, *(one for one in classes if one.__module__ == module.__name__)):
        for held in vars(holder).values():
            parts = [getattr(held, name, None) for name in ("__func__", "__wrapped__", "fget", "func")]
            for one in (held, *parts):
                if isinstance(one, FunctionType) and one.__module__ == module.__name__:
                    yield one


def explained() -> dict[tuple[str, tuple[str, str, int, str, str]], str]:
    """Why a mutant can't be noticed, by module and place: the function, the line as it stands there, which of
    several such parts, what stood there and what stands there now."""
    rows = tomllib.loads((ROOT / "tests/data/equivalent_mutants.toml").read_text(encoding="utf-8"))["mutants"]
    return {
        (row["module"], (row["in"], row["line"], row.get("nth", 1), row["was"], row["now"])): row["why"]
        for row in rows
    }


def score(module: str, tests: list[str], *, every: bool, told: io.TextIOBase) -> tuple[int, int, int]:
    """Mutants tried, noticed, and explained; survivors are told."""
    path = path_of(module)
    source = path.read_text(encoding="utf-8")
    found = list(mutants(source))
    if not every and len(found) > SAMPLE:
        found = random.Random(f"mutants of {module}").sample(found, SAMPLE)
    loaded(module, tests)
    if noticed(module, path, ast.parse(source), tests):
        raise SystemExit(f"{module}: its tests fail without any mistake; nothing can be said.")
    known = explained()
    seen = right = 0
    for one in sorted(found, key=lambda one: one.line):
        if noticed(module, path, mutated(source, one), tests):
            seen += 1
        elif (module, one.place) in known:
            right += 1
        else:
            place = f"{path.name}:{one.line} {one.function}"
            print(f"  survived {place}: {one.was}  ->  {one.now}", file=told, flush=True)
    return len(found), seen, right


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the score of each module."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("modules", nargs="*", default=DEFAULT, help="for instance evaluate.limits")
    parser.add_argument("--all", action="store_true", help="every mutant, not a sample")
    options = parser.parse_args(arguments)
    unknown = [name for name in options.modules if name not in TESTS]
    if unknown:
        parser.error(f"no such module here: {', '.join(unknown)}. There are: {', '.join(sorted(TESTS))}.")
    import numpy  # noqa: F401
    import pydantic  # noqa: F401
    import pytest  # noqa: F401
    import scipy.stats  # noqa: F401

    print(f"{'module':24} tried noticed explained score")
    for module in options.modules:
        begun = time.monotonic()
        tried, seen, right = score(module, TESTS[module], every=options.all, told=sys.stdout)
        share = (seen + right) / tried if tried else 1.0
        print(
            f"{module:24} {tried:5} {seen:7} {right:9} {share:5.0%}  ({time.monotonic() - begun:.0f} s)",
            flush=True,
        )


if __name__ == "__main__":
    main()
