"""Nothing unused: every public function, class and method is named somewhere in the program beside its own definition."""

import ast
from collections import Counter
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parent.parent / "hands_on"

CALLED_BY_TEXTUAL = ("action_", "on_", "key_", "watch_", "validate_", "compute_", "check_action")
"""Textual finds these methods by their names."""

KEPT = {
    # the measurement library's own: general forms beside those the screens use, checked against handbooks
    "hands_on/measureX": "general-purpose part of the measurement library",
}


@cache
def trees():
    return {path: ast.parse(path.read_text(encoding="utf-8")) for path in sorted(ROOT.rglob("*.py"))}


def names_used():
    """How often each name is read, called, imported or written as text (routes, late names) in the program."""
    used = Counter()
    for tree in trees().values():
        for node in ast.walk(tree):
            match node:
                case ast.Name(name, ast.Load()) | ast.Attribute(_, name, _):
                    used[name] += 1
                case ast.ImportFrom():
                    pass
                case ast.Constant(str(text)) if text.isascii() and len(text) < 80:
                    for word in text.replace(":", " ").replace(".", " ").split():
                        used[word] += 1
                case ast.keyword(str(name), _) | ast.MatchAs(_, str(name)):
                    used[name] += 1
    for tree in trees().values():  # an `__all__` names what it exports and uses nothing
        for node in tree.body:
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__":
                for word in ast.walk(node.value):
                    if isinstance(word, ast.Constant):
                        used[word.value] -= 1
    return used


def public(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) and node.name[0] != "_":
            yield node


def by_the_library(node):
    """Called by pydantic, dataclasses or Textual rather than by us."""
    told = " ".join(ast.unparse(decorator) for decorator in node.decorator_list)
    return node.name.startswith(CALLED_BY_TEXTUAL) or "validator" in told or "serializer" in told


OVERRIDDEN = {
    "compose", "press_key", "render", "get_content_height", "get_content_width", "find_spec", "exec_module",
    "writable", "readable", "isatty", "fileno", "encode", "decode", "error", "format_help", "exit",
}  # fmt: skip
"""Methods that a base class of a library calls."""


def test_what_is_public_is_used():
    used = names_used()
    unused = [
        f"{path.relative_to(ROOT.parent)}:{node.lineno} {node.name}"
        for path, tree in trees().items()
        if not str(path.relative_to(ROOT.parent)).startswith(tuple(KEPT))
        for node in public(tree)
        if used[node.name] <= 0 and node.name not in OVERRIDDEN and not by_the_library(node)
    ]
    assert unused == [], "\n".join(unused)
