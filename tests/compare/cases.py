"""Published and computed tables of agreement, and random tables with gaps and ties."""

from __future__ import annotations

import random
import tomllib
from pathlib import Path
from typing import Any

import pytest

_FILE = Path(__file__).parents[1] / "data" / "agreement_cases.toml"
CASES: dict[str, Any] = tomllib.loads(_FILE.read_text(encoding="utf-8"))["case"]


def of_kind(kind: str) -> list[Any]:
    """The cases of a kind, as test parameters."""
    found = [pytest.param(case, id=name) for name, case in CASES.items() if case["kind"] == kind]
    assert found, f"no case of kind {kind}"
    return found


def table_of(inputs: dict[str, Any]) -> list[list[float | None]]:
    """A case's observers as a table with a row a dog."""
    gap = inputs["missing"]
    return [[None if x == gap else x for x in row] for row in zip(*inputs["observers"], strict=True)]


def near(case: dict[str, Any], field: str) -> Any:
    """The expected field within the case's tolerance."""
    allowed = case["tolerance"].get(field, case["tolerance"]["default"])
    return pytest.approx(case["expected"][field], abs=allowed, rel=0)


def graded(seed: int, dogs: int, evaluators: int, grades: int, gaps: float) -> list[list[float | None]]:
    """A table of whole grades, tied and with gaps, in which evaluators agree more often than not."""
    chance = random.Random(seed)
    rows: list[list[float | None]] = []
    for _ in range(dogs):
        true = chance.randrange(grades)
        row = [min(grades - 1, max(0, true + chance.choice((-1, 0, 0, 0, 1)))) for _ in range(evaluators)]
        rows.append([None if chance.random() < gaps else float(grade) for grade in row])
    return rows


def measured(seed: int, dogs: int, evaluators: int) -> list[list[float]]:
    """A full table of readings: dogs differ, evaluators lean, and a hand errs."""
    chance = random.Random(seed)
    lean = [chance.gauss(0, 0.6) for _ in range(evaluators)]
    heights = [chance.gauss(65, 2.5) for _ in range(dogs)]
    return [[round(height + shift + chance.gauss(0, 0.5), 1) for shift in lean] for height in heights]
