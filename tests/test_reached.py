"""Nothing unused: every public function, class and method is named somewhere in the program."""

import ast
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parent.parent / "hands_on"

CALLED_BY_TEXTUAL = ("action_", "on_", "key_", "watch_", "validate_", "compute_", "check_action")
"""Textual finds these methods by their names."""

KEPT = {
    # checked against the worked examples of handbooks beside what is used of the same table
    "f_upper_tail": "the tail beside the quantile that intervals use, for checking one by the other",
    "gwet_error": "printed with AC1 and AC2 in the same worked example",
    "icc_forms": "all six forms of the published table, of which one is used",
    "linear": "weights of the published kappa tables, beside the quadratic ones",
    "fieller": "limits of a ratio where first order does not serve",
    "angle_at": "angles from palpated places, where their positions along the dog are taken too",
    "check_agreement": "one thing taken two ways, for instance a slope by inclinometer and by heights",
    "size_class_of": "the size of a dog whose breed names none",
    "u_after": "what further takes would bring",
}
"""What nothing in the program calls, and why it stays."""


@dataclass(frozen=True)
class Read:
    """What the program's text names: read once, since walking all its trees takes seconds."""

    used: Counter
    """How often each name is read, called or written as text (routes, late names)."""
    public: list
    """Each public function, class and method, with its file."""


@cache
def read():
    used, public = Counter(), []
    for path in sorted(ROOT.rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            match node:
                case ast.Name(name, ast.Load()) | ast.Attribute(_, name, _):
                    used[name] += 1
                case ast.Constant(str(text)) if text.isascii() and len(text) < 80:
                    used.update(text.replace(":", " ").replace(".", " ").split())
                case ast.keyword(str(name), _) | ast.MatchAs(_, str(name)):
                    used[name] += 1
                case ast.FunctionDef(name) | ast.AsyncFunctionDef(name) | ast.ClassDef(name):
                    if name[0] != "_":
                        public.append((path.relative_to(ROOT.parent), node))
        for node in tree.body:  # an `__all__` names what it exports and uses nothing
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__":
                used.subtract(word.value for word in ast.walk(node.value) if isinstance(word, ast.Constant))
    return Read(used, public)


def by_the_library(node):
    """Called by pydantic, dataclasses or Textual rather than by us."""
    told = " ".join(ast.unparse(decorator) for decorator in node.decorator_list)
    return node.name.startswith(CALLED_BY_TEXTUAL) or "validator" in told or "serializer" in told


OVERRIDDEN = {
    "compose", "press_key", "render", "get_content_height", "get_content_width", "find_spec", "exec_module",
    "writable", "readable", "isatty", "fileno", "encode", "decode", "error", "format_help", "exit",
    "get_source", "get_default_screen",
}  # fmt: skip
"""Methods that a base class of a library calls."""


def test_what_is_public_is_used():
    unused = [
        f"{path}:{node.lineno} {node.name}"
        for path, node in read().public
        if read().used[node.name] <= 0 and node.name not in {*KEPT, *OVERRIDDEN} and not by_the_library(node)
    ]
    assert unused == [], "\n".join(unused)


def test_what_is_kept_unused_is_there_and_unused():
    assert set(KEPT) <= {node.name for _, node in read().public}
    assert [name for name in KEPT if read().used[name] > 0] == []
