"""Small mistakes put into a module: a comparison turned or moved by its limit, a sign, a number, `and` for
`or`, one branch for both, `any` for `all`. `tests.bench.mutation` sees which of them the tests notice.
"""

from __future__ import annotations

import ast
import copy
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

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
    at: str
    """The line of source on which the changed part begins."""
    nth: int
    """From 1, among parts that read the same on lines that read the same in this function."""
    was: str
    now: str
    part: int
    """Among all parts of the module, as `ast.walk` finds them."""
    changed: ast.expr

    @property
    def place(self) -> tuple[str, str, int, str, str]:
        """What finds this mistake again after lines above it have moved."""
        return self.function, self.at, self.nth, self.was, self.now


def mutants(source: str) -> Iterator[Mutant]:
    """Every mistake of these kinds in a module's functions; what only types or words need is left out."""
    tree = ast.parse(source)
    lines = source.splitlines()
    only_types = {part for node in ast.walk(tree) for part in _for_types(node)}
    functions = dict(_functions(tree))
    met: Counter[tuple[str, str, str]] = Counter()
    for part, node in enumerate(ast.walk(tree)):
        changes = list(_changed(node)) if node not in only_types else []
        if not changes:
            continue
        where, at, was = functions.get(node, ""), lines[node.lineno - 1].strip(), ast.unparse(node)
        met[where, at, was] += 1
        for changed in changes:
            yield Mutant(
                node.lineno, where, at, met[where, at, was], was, ast.unparse(changed), part, changed
            )


def mutated(source: str, mutant: Mutant) -> ast.Module:
    """A module with this mistake in it."""
    tree = ast.parse(source)
    _become(tree, next(node for at, node in enumerate(ast.walk(tree)) if at == mutant.part), mutant.changed)
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
