"""Worked cases for the measurement tests: a test marked `kind("...")` runs once for each such case."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

DATA = Path(__file__).parents[1] / "data"


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "kind(name): run for every worked case of this kind")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    marker = metafunc.definition.get_closest_marker("kind")
    if marker is None or "case" not in metafunc.fixturenames:
        return
    all_cases = tomllib.loads((DATA / "measure_cases.toml").read_text(encoding="utf-8"))["case"]
    chosen = {name: case for name, case in all_cases.items() if case["kind"] in marker.args}
    assert chosen, f"no worked case of kind {marker.args}"
    metafunc.parametrize("case", [pytest.param(case, id=name) for name, case in chosen.items()])


@pytest.fixture(scope="session")
def growth_cases() -> dict[str, Any]:
    return tomllib.loads((DATA / "growth_cases.toml").read_text(encoding="utf-8"))


@pytest.fixture
def agree() -> Any:
    """Compare computed fields with those the case expects, each within its tolerance."""

    def check(case: dict[str, Any], computed: dict[str, Any], leave_out: tuple[str, ...] = ()) -> None:
        expected = case["expected"]
        assert set(computed) | set(leave_out) == set(expected), "every expected field is checked or named"
        for name, value in computed.items():
            tolerance = case["tolerance"]
            if "relative" in tolerance:
                wanted = pytest.approx(expected[name], rel=tolerance["relative"], abs=0)
            else:
                wanted = pytest.approx(
                    expected[name], abs=tolerance.get(name, tolerance.get("default", 0)), rel=0
                )
            assert value == wanted, name

    return check
