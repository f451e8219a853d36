"""The package's own promises: cheap to import, and ignorant of everything but numbers."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import hands_on.measure as measure

MODULES = sorted(Path(measure.__file__ or "").parent.glob("*.py"))


def test_exported_names_are_there() -> None:
    for name in measure.__all__:
        assert getattr(measure, name).__name__ == name
    with pytest.raises(AttributeError):
        _ = measure.no_such_name


def test_importing_the_package_imports_none_of_its_modules() -> None:
    code = (
        "import sys, hands_on.measure; print([m for m in sys.modules if m.startswith('hands_on.measure.')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_only_the_standard_library_and_the_package_itself_are_imported(path: Path) -> None:
    """No files, clock, terminal, nor number libraries: what is imported is named here in full."""
    allowed = {"__future__", "calendar", "collections", "dataclasses", "datetime", "decimal", "fractions"}
    allowed |= {"importlib", "itertools", "functools", "math", "re", "statistics", "typing", "unicodedata"}
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        for name in names:
            own = name.startswith("hands_on.measure") or name == "hands_on.frozen"
            assert own or name.split(".")[0] in allowed, name
