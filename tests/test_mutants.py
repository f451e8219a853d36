"""The mutation bench's own tables: what they name is there, and no explanation outlives its line."""

from __future__ import annotations

import ast
from types import ModuleType

import pytest

from tests.bench.mutants import mutants, mutated
from tests.bench.mutation import DEFAULT, NEAREST, ROOT, TESTS, explained, main, path_of, put_in_place


def test_its_modules_and_their_tests_are_there():
    assert set(DEFAULT) | set(NEAREST) <= set(TESTS)
    assert [name for tests in TESTS.values() for name in tests if not (ROOT / name).exists()] == []


def test_each_explained_mutant_can_still_be_made():
    modules = {module for module, _ in explained()}
    made = {
        (module, one.place)
        for module in modules
        for one in mutants(path_of(module).read_text(encoding="utf-8"))
    }
    assert set(explained()) - made == set()


def test_a_mutant_is_one_mistake_and_knows_its_function():
    source = "class Tape:\n    def fits(self, x: int) -> bool:\n        return x < 3 and x != -1\n"
    found = {one.now: one for one in mutants(source)}
    assert set(found) == {"x < 3 or x != -1", "x <= 3", "x >= 3", "x == -1", "4", "2"}
    assert {one.function for one in found.values()} == {"Tape.fits"}
    assert {one.at for one in found.values()} == {"return x < 3 and x != -1"}
    assert "x <= 3 and x != -1" in ast.unparse(mutated(source, found["x <= 3"]))


def test_an_unknown_module_is_told(capsys):
    with pytest.raises(SystemExit):
        main(["measure.nothing"])
    error = capsys.readouterr().err
    assert "no such module here: measure.nothing. There are:" in error
    assert "measure.takes" in error


def test_two_parts_that_read_the_same_are_two_places():
    """What explains one of them does not explain the other."""
    source = "def f(x):\n    return x + 1 > 1\n\n\ndef g(x):\n    return x + 1\n"
    ones = [one.place for one in mutants(source) if one.was == "1"]
    assert sorted(ones) == [
        ("f", "return x + 1 > 1", 1, "1", "2"),
        ("f", "return x + 1 > 1", 2, "1", "2"),
        ("g", "return x + 1", 1, "1", "2"),
    ]


def test_the_functions_of_a_loaded_module_take_the_mistake_whoever_holds_them():
    module = ModuleType("invented")
    source = """
from functools import cache

STEP = 1

@cache
def kept(x):
    return x + 1

class Tape:
    @property
    def ends(self):
        return 1 + 2

    @staticmethod
    def long(x):
        return (lambda y: y * 2)(x)
"""
    exec(compile(source, "invented.py", "exec"), module.__dict__)
    kept, tape = module.kept, module.Tape()

    def put(was: str, now: str) -> bool:
        return put_in_place(module, compile(source.replace(was, now), "invented.py", "exec"))

    assert put("x + 1", "x - 1")
    assert kept(3) == 2
    assert put("1 + 2", "1 - 2")
    assert (tape.ends, kept(4)) == (-1, 5)
    assert put("y * 2", "y / 2")
    assert tape.long(3) == 1.5
    assert put_in_place(module, compile(source, "invented.py", "exec"))
    assert not put("STEP = 1", "STEP = 2"), "a constant is read when the module is loaded"
