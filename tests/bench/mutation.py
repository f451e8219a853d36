"""Do the tests notice a wrong line? Every mutant is one small mistake put into a module.

    python -m tests.bench.mutation                     # the modules the verdicts rest on
    python -m tests.bench.mutation measure.takes --all # one of them, every mutant instead of a sample

A mistake is a comparison turned or moved by its limit, a sign, a number, `and` for `or`, one branch for both,
`any` for `all`. The module's own tests run on each in a process of its own, until the first fails. What
none notices has survived; mutants that change nothing anybody can see are listed, with the reason, in
tests/data/equivalent_mutants.toml and count as explained. The score is the share noticed or explained.
"""

from __future__ import annotations

import argparse
import ast
import copy
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
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).parents[2]
SAMPLE = 60
"""Mutants of a module that are tried unless all are wanted."""
PATIENCE = 120
"""Seconds after which a mutant counts as noticed: it never ends."""

OF_LIMITS = [
    "tests/evaluate/test_limits.py",
    "tests/evaluate/test_hovawart.py",
    "tests/evaluate/test_verdicts.py",
    "tests/evaluate/test_sorting.py",
]
OF_FINDINGS = [
    "tests/evaluate/test_findings.py", "tests/evaluate/test_classes.py", "tests/evaluate/test_verdicts.py",
    "tests/evaluate/test_whole.py", "tests/evaluate/test_teeth.py",
]  # fmt: skip
DEFAULT = [
    "measure.conformity", "measure.takes", "evaluate.limits", "evaluate.holding", "evaluate.held",
    "evaluate.ladder", "evaluate.sorting", "evaluate.findings", "evaluate.merge", "compare.dogs.order",
    "compare.dogs.class_rank",
]  # fmt: skip
"""What the verdicts rest on."""

_SHARED: list[tuple[str, list[str], list[str]]] = [
    ("evaluate", ["limits", "holding", "held", "ladder", "sorting"], OF_LIMITS),
    ("evaluate", ["findings", "merge", "classes"], OF_FINDINGS),
    ("compare.dogs", ["order", "places", "class_rank", "chances"], ["tests/compare/test_order.py"]),
    ("compare.dogs", ["recheck", "changed"], ["tests/compare/test_recheck.py"]),
    (
        "compare.agreement",
        ["alpha", "concordance", "gwet", "icc", "kappa"],
        ["tests/compare/test_statistics.py"],
    ),
    (
        "compare.editions",
        ["classing", "limits", "rule_by_rule", "rule_pair"],
        ["tests/compare/test_editions.py"],
    ),
    ("exam", ["check", "checks.answers", "checks.header"], ["tests/exam/test_broken_sessions.py"]),
]
_OWN = {
    "measure": [
        "age", "change", "closure", "conformity", "derived", "distributions", "entry", "geometry", "growth",
        "gum", "hand", "landmarks", "takes", "units",
    ],
    "evaluate": ["measures", "teeth"],
    "compare.dogs": ["differ", "together", "side_by_side", "pairing"],
    "compare.agreement": ["lean", "precision"],
    "compare.editions": ["under_another"],
}  # fmt: skip
"""Modules with a test file of their own name."""

TESTS = {
    **{f"{room}.{name}": tests for room, names, tests in _SHARED for name in names},
    **{
        f"{room}.{name}": [f"tests/{room.partition('.')[0]}/test_{name}.py"]
        for room, names in _OWN.items()
        for name in names
    },
    "measure.conformity": ["tests/measure/test_conformity.py", "tests/measure/test_further.py"],
    "measure.further": ["tests/measure/test_conformity.py", "tests/measure/test_further.py"],
    "evaluate.outcome": ["tests/evaluate/test_verdicts.py"],
    "compare.answer": ["tests/compare/test_differ.py", "tests/compare/test_agree.py"],
    "compare.dogs.history": ["tests/compare/test_recheck.py", "tests/compare/test_commands.py"],
    "compare.agreement.by_point": ["tests/compare/test_agree.py"],
    "exam.checks.readings": ["tests/exam/test_broken_sessions.py"],
}
"""The tests that must notice a mistake, by module."""

COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
RECKONED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
}


@dataclass(frozen=True)
class Mutant:
    """One mistake: where it stands, what stood there, what stands there now."""

    line: int
    function: str
    """Where: `_Maker._class_of`; empty at the top of the module."""
    was: str
    now: str
    place: int
    """Among all parts of the module, as `ast.walk` finds them."""
    changed: ast.expr


def mutants(source: str) -> Iterator[Mutant]:
    """Every mistake of these kinds in a module's functions; what only types or words need is left out."""
    tree = ast.parse(source)
    only_types = {part for node in ast.walk(tree) for part in _for_types(node)}
    functions = dict(_functions(tree))
    for place, node in enumerate(ast.walk(tree)):
        for changed in _changed(node) if node not in only_types else ():
            where, was, now = functions.get(node, ""), ast.unparse(node), ast.unparse(changed)
            yield Mutant(node.lineno, where, was, now, place, changed)


def mutated(source: str, mutant: Mutant) -> ast.Module:
    """A module with this mistake in it."""
    tree = ast.parse(source)
    _become(tree, next(node for at, node in enumerate(ast.walk(tree)) if at == mutant.place), mutant.changed)
    return ast.fix_missing_locations(tree)


def _functions(node: ast.AST, name: str = "") -> Iterator[tuple[ast.AST, str]]:
    """Every part of a module with the class and function around it."""
    for child in ast.iter_child_nodes(node):
        inner = name
        if isinstance(child, (ast.ClassDef, ast.FunctionDef)):
            inner = f"{name}.{child.name}".lstrip(".")
        yield child, inner
        yield from _functions(child, inner)


def _for_types(node: ast.AST) -> Iterator[ast.AST]:
    """Decorators, annotations and what is exported: mypy and the import tests look after those."""
    match node:
        case ast.ClassDef() | ast.FunctionDef():
            for decorator in node.decorator_list:
                yield from ast.walk(decorator)
        case ast.AnnAssign():
            yield from ast.walk(node.annotation)
        case ast.arg() if node.annotation is not None:
            yield from ast.walk(node.annotation)


def _changed(node: ast.AST) -> Iterator[ast.expr]:
    match node:
        case ast.Compare(left, [operator], [right]):
            for other in COMPARED.get(type(operator), ()):
                yield ast.Compare(left, [other()], [right])
        case ast.BinOp(left, operator, right) if type(operator) in RECKONED:
            if not _is_text(left) and not _is_text(right):
                yield ast.BinOp(left, RECKONED[type(operator)](), right)
        case ast.BoolOp(operator, values):
            yield ast.BoolOp(ast.Or() if isinstance(operator, ast.And) else ast.And(), values)
        case ast.UnaryOp(ast.Not(), operand):
            yield operand
        case ast.Constant(bool(value)):
            yield ast.Constant(not value)
        case ast.Constant(int(value) | float(value)):
            yield ast.Constant(value + 1)
        case ast.IfExp(_, body, orelse):
            yield body
            yield orelse
        case ast.Call(ast.Name("min"), arguments, keywords):
            yield ast.Call(ast.Name("max", ast.Load()), arguments, keywords)
        case ast.Call(ast.Name("max"), arguments, keywords):
            yield ast.Call(ast.Name("min", ast.Load()), arguments, keywords)
        case ast.Call(ast.Name("any"), arguments, keywords):
            yield ast.Call(ast.Name("all", ast.Load()), arguments, keywords)
        case ast.Call(ast.Name("all"), arguments, keywords):
            yield ast.Call(ast.Name("any", ast.Load()), arguments, keywords)


def _is_text(part: ast.expr) -> bool:
    return isinstance(part, ast.JoinedStr) or (isinstance(part, ast.Constant) and isinstance(part.value, str))


def _become(tree: ast.Module, target: ast.AST, changed: ast.expr) -> None:
    class Put(ast.NodeTransformer):
        def visit(self, node: ast.AST) -> ast.AST:
            if node is target:
                return ast.copy_location(copy.deepcopy(changed), node)
            return self.generic_visit(node)

    Put().visit(tree)


class _Mutated(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Brings in one module with its mistake."""

    def __init__(self, name: str, path: Path, tree: ast.Module) -> None:
        self.name, self.path, self.tree = name, path, tree

    def find_spec(self, name: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        if name != self.name:
            return None
        return importlib.util.spec_from_file_location(name, self.path, loader=self)

    def create_module(self, spec: importlib.machinery.ModuleSpec) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        exec(compile(self.tree, str(self.path), "exec"), module.__dict__)


def noticed(module: str, path: Path, tree: ast.Module, tests: list[str]) -> bool:
    """Does a test fail? In a process of its own, so that nothing stays behind."""
    child = os.fork()
    if child == 0:
        signal.alarm(PATIENCE)
        sys.meta_path.insert(0, _Mutated(f"hands_on.{module}", path, tree))
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        import pytest

        options = ["-x", "-q", "-n", "0", "-p", "no:cacheprovider", "--hypothesis-seed=0", "--assert=plain"]
        code = pytest.main([*options, *tests])
        os._exit(0 if code == 0 else 1)
    _, status = os.waitpid(child, 0)
    return status != 0


def explained() -> dict[tuple[str, str, str, str], str]:
    """Why a mutant can't be noticed, by module, function, what stood there and what stands there now."""
    rows = tomllib.loads((ROOT / "tests/data/equivalent_mutants.toml").read_text(encoding="utf-8"))["mutants"]
    return {(row["module"], row["in"], row["was"], row["now"]): row["why"] for row in rows}


def path_of(module: str) -> Path:
    """`evaluate.limits` -> its file."""
    return ROOT / "hands_on" / Path(*module.split(".")).with_suffix(".py")


def score(module: str, tests: list[str], *, every: bool, told: io.TextIOBase) -> tuple[int, int, int]:
    """Mutants tried, noticed, and explained; survivors are told."""
    path = path_of(module)
    source = path.read_text(encoding="utf-8")
    found = list(mutants(source))
    if not every and len(found) > SAMPLE:
        found = random.Random(f"mutants of {module}").sample(found, SAMPLE)
    if noticed(module, path, ast.parse(source), tests):
        raise SystemExit(f"{module}: its tests fail without any mistake; nothing can be said.")
    known = explained()
    seen = right = 0
    for one in sorted(found, key=lambda one: one.line):
        if noticed(module, path, mutated(source, one), tests):
            seen += 1
        elif (module, one.function, one.was, one.now) in known:
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
