"""Which package may know which, and by which names: read from every import, late ones too."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent

BELOW: dict[str, set[str]] = {
    # the core, from the lowest
    "toml_text": set(),
    "measure": set(),
    "ruleset": {"toml_text", "measure"},
    "notes": {"toml_text"},
    "exam": {"toml_text", "measure", "notes", "ruleset"},
    "standard_text": {"notes", "ruleset"},
    "evaluate": {"measure", "ruleset", "exam"},
    "compare": {"measure", "ruleset", "exam", "evaluate"},
    "compare.dogs": {"compare", "measure", "ruleset", "exam", "evaluate"},
    # the agreement on the order of the dogs ranks them as dogs are ranked
    "compare.agreement": {"compare", "compare.dogs", "measure", "ruleset", "exam", "evaluate"},
    "compare.editions": {"measure", "ruleset", "evaluate"},
    "compare.cohort": {"compare", "measure", "ruleset", "exam", "evaluate"},
    "figure": {"measure", "ruleset", "evaluate"},
    "wording": {
        *("compare", "compare.dogs", "compare.agreement", "compare.editions", "compare.cohort"),
        *("measure", "ruleset", "exam", "evaluate", "standard_text", "figure"),
    },
}
"""What each package of the core may import. What is not named here knows everything below it."""

ABOVE: dict[str, set[str]] = {
    "report": {"store", "commands", "tui", "cli"},
    "store": {"commands", "tui", "cli"},
    "commands": {"cli", "arguments"},
    "tui": {"commands", "cli"},
}
"""What each package on top of the core must not import."""

DECIDED = (
    "toml_text",
    "measure",
    "ruleset",
    "notes",
    "exam",
    "evaluate",
    "compare",
    "figure",
    "wording",
)
"""Packages of which every module names what it exports."""


@dataclass(frozen=True)
class Import:
    """A name taken from a module of ours; no name where the module itself is imported."""

    by: str
    module: str
    name: str = ""


def package_of(module: str) -> str:
    """`hands_on.compare.dogs.order` -> `compare.dogs`, `hands_on.cli` -> `cli`."""
    parts = module.split(".")
    rooms = ("dogs", "agreement", "editions", "cohort")
    return (
        ".".join(parts[1:3]) if parts[1:2] == ["compare"] and parts[2:3] and parts[2] in rooms else parts[1]
    )


@cache
def modules() -> dict[str, ast.Module]:
    """Every module of the program, read and not run."""
    files = sorted((ROOT / "hands_on").rglob("*.py"))
    return {
        ".".join(file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): ast.parse(
            file.read_text(encoding="utf-8")
        )
        for file in files
    }


def imports() -> Iterator[Import]:
    """Every import of our own modules, wherever it stands."""
    for by, tree in modules().items():
        for module, names in _imported(tree):
            for name in names:
                inner = f"{module}.{name}" if name else module
                yield Import(by, inner) if not name or inner in modules() else Import(by, module, name)


@cache
def _imported(tree: ast.Module) -> list[tuple[str, list[str]]]:
    """Modules of ours that a module imports, and what it takes of each; no name for the module itself."""
    found: list[tuple[str, list[str]]] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [(one.name, [""]) for one in node.names if one.name.startswith("hands_on.")]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: imports name the package in full"
            if (node.module or "").split(".")[0] == "hands_on":
                found.append((node.module or "", [one.name for one in node.names]))
    return found


def crossings() -> Iterator[tuple[str, str, Import]]:
    """Imports that cross from one package into another."""
    for one in imports():
        if "." in one.by and "." in one.module:
            here, there = package_of(one.by), package_of(one.module)
            if here != there:
                yield here, there, one


def exported(module: str) -> list[str] | None:
    """What a module's `__all__` names; None where it has none that can be read."""
    for node in modules()[module].body:
        if isinstance(node, ast.Assign) and [ast.unparse(one) for one in node.targets] == ["__all__"]:
            return ast.literal_eval(node.value) if isinstance(node.value, ast.List) else None
    return None


def defined(module: str) -> set[str]:
    """Names that a module binds at its top."""
    found: set[str] = set()
    for node in modules()[module].body:
        if isinstance(node, (ast.ClassDef, ast.FunctionDef)):
            found.add(node.name)
        elif isinstance(node, (ast.Import, ast.ImportFrom)):
            found.update(one.asname or one.name for one in node.names)
        elif isinstance(node, (ast.Assign, ast.AnnAssign)):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            found.update(
                one.id for target in targets for one in ast.walk(target) if isinstance(one, ast.Name)
            )
    return found


EVERYWHERE = {"plain_text", "frozen"}
"""Known to all."""


def test_the_core_knows_only_what_lies_below_it():
    upward = {
        f"{one.by} -> {one.module}"
        for here, there, one in crossings()
        if here in BELOW and there not in BELOW[here] and there not in EVERYWHERE
    }
    assert upward == set()


def test_what_is_on_top_is_known_by_nothing_below_it():
    upward = {f"{one.by} -> {one.module}" for here, there, one in crossings() if there in ABOVE.get(here, ())}
    assert upward == set()


def test_the_table_has_no_circle_and_leaves_no_package_out():
    order: list[str] = []
    while len(order) < len(BELOW):
        ready = [name for name, below in BELOW.items() if name not in order and below <= set(order)]
        assert ready, f"a circle among {set(BELOW) - set(order)}"
        order += ready
    packages = {package_of(name) for name in modules() if "." in name}
    files = {"arguments", "cli", "streams", "__main__"} | EVERYWHERE
    assert packages - set(BELOW) - set(ABOVE) - files == set()


def test_an_import_upward_is_seen_even_within_a_function():
    tree = ast.parse("def late():\n    from hands_on.wording.dogs import percent\n")
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(modules(), "hands_on.measure.invented", tree)
        found = [one for here, there, one in crossings() if (here, there) == ("measure", "wording")]
    assert found == [Import("hands_on.measure.invented", "hands_on.wording.dogs", "percent")]


@pytest.mark.parametrize("package", DECIDED)
def test_every_module_names_what_it_exports(package):
    own = [name for name in modules() if name.startswith(f"hands_on.{package}.")]
    assert own
    rooms = {name for name in own if any(other.startswith(f"{name}.") for other in own)}
    for name in set(own) - rooms:
        names = exported(name)
        assert names is not None, f"{name} has no __all__"
        assert set(names) <= defined(name), name


def _decided(module: str) -> bool:
    return module.split(".")[1:2] != [] and module.split(".")[1] in DECIDED and exported(module) is not None


def test_only_exported_names_are_taken_from_another_module():
    private = {f"{one.by} takes {one.name} of {one.module}" for one in imports() if one.name.startswith("_")}
    version = {f"hands_on.{name} takes __version__ of hands_on" for name in ("arguments", "store.checked")}
    assert private - version == set()
    hidden = {
        f"{one.by} takes {one.name} of {one.module}"
        for one in imports()
        if one.name and _decided(one.module) and one.name not in (exported(one.module) or [])
    }
    assert hidden == set()
