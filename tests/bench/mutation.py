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
from collections.abc import Iterator
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
    "tests/evaluate/test_whole.py",
]  # fmt: skip
TESTS = {
    "measure.conformity": ["tests/measure/test_conformity.py"],
    "measure.takes": ["tests/measure/test_takes.py"],
    "evaluate.limits": OF_LIMITS,
    "evaluate.holding": OF_LIMITS,
    "evaluate.held": OF_LIMITS,
    "evaluate.ladder": OF_LIMITS,
    "evaluate.sorting": OF_LIMITS,
    "evaluate.findings": OF_FINDINGS,
    "evaluate.merge": OF_FINDINGS,
    "compare.dogs.order": ["tests/compare/test_order.py"],
    "compare.dogs.class_rank": ["tests/compare/test_order.py"],
}
"""What is tried by default, and the tests that must notice."""

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
    was: str
    now: str
    tree: ast.Module


def mutants(source: str) -> Iterator[Mutant]:
    """Every mistake of these kinds in a module's functions; what only types or words need is left out."""
    tree = ast.parse(source)
    only_types = {part for node in ast.walk(tree) for part in _for_types(node)}
    for place, node in enumerate(ast.walk(tree)):
        if node in only_types:
            continue
        for changed in _changed(node):
            other = copy.deepcopy(tree)
            target = next(found for at, found in enumerate(ast.walk(other)) if at == place)
            _become(other, target, changed)
            yield Mutant(
                node.lineno, ast.unparse(node), ast.unparse(changed), ast.fix_missing_locations(other)
            )


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


def explained() -> dict[tuple[str, str, str], str]:
    """Why a mutant can't be noticed, by module, what stood there and what stands there now."""
    rows = tomllib.loads((ROOT / "tests/data/equivalent_mutants.toml").read_text(encoding="utf-8"))["mutants"]
    return {(row["module"], row["was"], row["now"]): row["why"] for row in rows}


def score(module: str, tests: list[str], *, every: bool, told: io.TextIOBase) -> tuple[int, int, int]:
    """Mutants tried, noticed, and explained; survivors are told."""
    path = ROOT / "hands_on" / Path(*module.split(".")).with_suffix(".py")
    found = [one for one in mutants(path.read_text(encoding="utf-8")) if "__all__" not in one.was]
    if not every and len(found) > SAMPLE:
        found = random.Random(f"mutants of {module}").sample(found, SAMPLE)
    if noticed(module, path, ast.parse(path.read_text(encoding="utf-8")), tests):
        raise SystemExit(f"{module}: its tests fail without any mistake; nothing can be said.")
    known = explained()
    seen = right = 0
    for one in sorted(found, key=lambda one: one.line):
        if noticed(module, path, one.tree, tests):
            seen += 1
        elif (module, one.was, one.now) in known:
            right += 1
        else:
            print(f"  survived {path.name}:{one.line}: {one.was}  ->  {one.now}", file=told, flush=True)
    return len(found), seen, right


def main() -> None:
    """Print the score of each module."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("modules", nargs="*", default=list(TESTS), help="for instance evaluate.limits")
    parser.add_argument("--all", action="store_true", help="every mutant, not a sample")
    options = parser.parse_args()
    import numpy  # noqa: F401
    import pydantic  # noqa: F401
    import pytest  # noqa: F401
    import scipy.stats  # noqa: F401

    print(f"{'module':24} tried noticed explained score")
    for module in options.modules:
        begun = time.monotonic()
        tests = [name for name in TESTS[module] if (ROOT / name).exists()]
        tried, seen, right = score(module, tests, every=options.all, told=sys.stdout)
        share = (seen + right) / tried if tried else 1.0
        print(
            f"{module:24} {tried:5} {seen:7} {right:9} {share:5.0%}  ({time.monotonic() - begun:.0f} s)",
            flush=True,
        )


if __name__ == "__main__":
    main()
