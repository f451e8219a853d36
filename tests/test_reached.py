"""Nothing unused: every public function, class and method is named somewhere in the program."""

import ast
from collections import Counter
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
    "type_a": "the rule that `measure.takes` pools with a prior, in its plain form",
    "triangular": "one of the two distributions of the same table",
    "combine": "the rule for uncorrelated parts, which the correlated one is checked against",
    "relative_sd_of_s": "why the spread of a few takes is pooled, in figures",
    "relative_tem": "the form in which the literature prints a technical error",
    "trial_error": "the form in which the literature prints a shift between two trials",
    "reliable_change": "the index of the literature beside the smallest detectable change",
    "smallest_grade_change": "grades as equally spaced: what the rule for grades is compared with",
    "repeats_for_one_grade": "the same, the other way round",
    "error_alone": "the share of false changes that the rule for grades allows",
    "capability": "how narrow limits are for a hand (JCGM 106, 7.6)",
    "fieller": "limits of a ratio where first order does not serve",
    "angle_at": "angles from palpated places, where their positions along the dog are taken too",
    "check_agreement": "one thing taken two ways, for instance a slope by inclinometer and by heights",
    "size_class_of": "the size of a dog whose breed names none",
    "u_after": "what further takes would bring",
}
"""What nothing in the program calls, and why it stays."""


@cache
def trees():
    return {path: ast.parse(path.read_text(encoding="utf-8")) for path in sorted(ROOT.rglob("*.py"))}


def names_used():
    """How often each name is read, called or written as text (routes, late names) in the program."""
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
    "get_source",
}  # fmt: skip
"""Methods that a base class of a library calls."""


def test_what_is_public_is_used():
    used = names_used()
    unused = [
        f"{path.relative_to(ROOT.parent)}:{node.lineno} {node.name}"
        for path, tree in trees().items()
        for node in public(tree)
        if used[node.name] <= 0 and node.name not in {*KEPT, *OVERRIDDEN} and not by_the_library(node)
    ]
    assert unused == [], "\n".join(unused)


def test_what_is_kept_unused_is_there_and_unused():
    used = names_used()
    there = {node.name for tree in trees().values() for node in public(tree)}
    assert set(KEPT) <= there
    assert [name for name in KEPT if used[name] > 0] == []
