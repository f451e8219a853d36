"""Which part of the screens may know which, read from the imports themselves, late ones too."""

import ast
from pathlib import Path

import pytest

import hands_on.tui
from hands_on.tui import asks
from hands_on.tui.routes import ROUTES
from tests.bench.random_keys import SCREENS

ROOT = Path(hands_on.tui.__file__).parent
MODULES = {
    "hands_on.tui." + ".".join(path.relative_to(ROOT).with_suffix("").parts): path
    for path in ROOT.rglob("*.py")
    if path.name != "__init__.py"
}
MODULES["hands_on.tui.keys"] = ROOT / "keys" / "__init__.py"


def only_for_types(node):
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)


def imports(path):
    """Modules of `tui` that a file brings in at any time; those only its types need are left out."""
    found, left = set(), [ast.parse(path.read_text(encoding="utf-8"))]
    while left:
        node = left.pop()
        if only_for_types(node):
            continue
        if isinstance(node, ast.ImportFrom) and node.module:
            names = {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
            found |= names & set(MODULES)
        left += ast.iter_child_nodes(node)
    return found


KNOWS = {name: imports(path) for name, path in MODULES.items()}


def room(name):
    """The folder a module lies in; empty for those of `tui` itself."""
    parts = name.split(".")[2:]
    return parts[0] if len(parts) > 1 else ""


def test_no_part_of_the_screens_leads_back_to_itself():
    done, path = set(), []

    def walk(name):
        assert name not in path, " -> ".join([*path[path.index(name) :], name])
        if name in done:
            return
        path.append(name)
        for other in sorted(KNOWS[name]):
            walk(other)
        path.pop()
        done.add(name)

    for name in MODULES:
        walk(name)


@pytest.mark.parametrize("name", [name for name in MODULES if room(name) == "screens"])
def test_a_screen_knows_no_other_screen_no_flow_and_not_the_program(name):
    foreign = {one for one in KNOWS[name] if room(one) in ("screens", "flows")}
    assert foreign == set()
    assert not KNOWS[name] & {"hands_on.tui.app", "hands_on.tui.routes"}


@pytest.mark.parametrize(
    "name", [name for name in MODULES if room(name) in ("questions", "parts", "widgets")]
)
def test_what_screens_are_made_of_knows_no_screen(name):
    assert {one for one in KNOWS[name] if room(one) in ("screens", "flows")} == set()


def test_flows_are_reached_through_the_routes_alone():
    knowing = {name for name, known in KNOWS.items() if any(room(one) == "flows" for one in known)}
    assert all(room(name) == "flows" for name in knowing), knowing


AT_THE_FIRST_PAINT = {"hands_on.tui.app", "hands_on.tui.run", "hands_on.tui.screens.start"}
"""What is in memory before anything is shown brings the rest when it is wanted."""

OF_AN_EXTRA = {"hands_on.tui.easel"}
"""What stands on libraries that are not always installed is imported where they are."""


@pytest.mark.parametrize(
    "name", sorted(set(MODULES) - AT_THE_FIRST_PAINT - OF_AN_EXTRA - {"hands_on.tui.routes"})
)
def test_only_the_routes_and_the_first_paint_import_late(name):
    tree = ast.parse(MODULES[name].read_text(encoding="utf-8"))
    late = [
        ast.unparse(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        for inner in ast.walk(node)
        if isinstance(inner, ast.ImportFrom) and (inner.module or "").startswith("hands_on.tui")
    ]
    assert late == []


def test_every_ask_has_a_route_that_is_there():
    known = {one for one in vars(asks).values() if isinstance(one, type) and issubclass(one, asks.Ask)}
    assert set(ROUTES) == known - {asks.Ask}
    for where in ROUTES.values():
        module, function = where.split(":")
        tree = ast.parse((ROOT / "flows" / f"{module}.py").read_text(encoding="utf-8"))
        assert function in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}, where


def test_no_screen_is_one_class_for_everything():
    """Lines of the largest class: a screen is made of parts."""
    sizes = {
        f"{path.name}:{node.name}": node.end_lineno - node.lineno + 1
        for path in MODULES.values()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef)
    }
    assert max(sizes.values()) <= 330, max(sizes, key=sizes.get)


def test_random_keys_are_pressed_on_every_screen_and_question():
    """A screen that is added gets its way there in the bench."""
    there = {
        node.name
        for name, path in MODULES.items()
        if room(name) in ("screens", "questions")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef) and {"CSS_PATH", "NAME", "compose"} & names_in(node)
    }
    assert len(there) > 30
    assert there == {way.screen for way in SCREENS.values()}


def names_in(node):
    assigned = {target.id for one in node.body if isinstance(one, ast.Assign) for target in one.targets}
    return assigned | {one.name for one in node.body if isinstance(one, ast.FunctionDef)}
