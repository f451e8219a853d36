"""Who leans which way: each evaluator against the others on the same dogs, with its uncertainty."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from hands_on.compare.answer import Answer
from hands_on.measure.distributions import student_quantile
from hands_on.measure.gum import resolution_u
from hands_on.ruleset.points import MeasurePoint, Point

__all__ = ["Lean", "leans", "strictness"]

LEVEL = 0.95

Tables = Mapping[str, tuple[Point, Sequence[Sequence[Answer | None]]]]
"""For each point its answers: a row a dog, a column an evaluator."""


@dataclass(frozen=True)
class Lean:
    """An evaluator less the mean of the others on the same dogs, over dogs."""

    evaluator: str
    point: str
    """Empty, as the label, for all graded points together."""
    label: str
    value: float
    """In the point's unit, or in degrees (less is negative, more positive)."""
    u: float | None
    """Standard uncertainty from the spread over dogs, never below the instrument's step (or the step of the
    scale) for that many dogs; None for a single dog."""
    n: int
    """Dogs that it rests on."""
    unit: str = ""

    @property
    def clear(self) -> bool:
        """Does it exceed what so few dogs scatter (95 %, Student's t)?"""
        if self.u is None or self.n < 2:
            return False
        return abs(self.value) > student_quantile(0.5 + LEVEL / 2, self.n - 1) * self.u


def leans(evaluators: Sequence[str], tables: Tables) -> tuple[Lean, ...]:
    """Every evaluator's lean at every point that can be ordered."""
    found: list[Lean] = []
    for name, (point, table) in tables.items():
        rows = [[_number(answer) for answer in row] for row in table]
        unit = next((a.unit for row in table for a in row if a is not None), "")
        step = point.resolution if isinstance(point, MeasurePoint) else 1.0
        for place, evaluator in enumerate(evaluators):
            lean = _lean(rows, place, step)
            if lean is not None:
                value, u, n = lean
                found.append(Lean(evaluator, name, point.label, value, u, n, unit or "degree"))
    return tuple(found)


def strictness(evaluators: Sequence[str], tables: Tables) -> tuple[Lean, ...]:
    """How far from as asked each evaluator grades, against the others, in degrees a point.

    For each dog the mean over its graded points; then as `leans`, over dogs.
    """
    found: list[Lean] = []
    for place, evaluator in enumerate(evaluators):
        by_dog: dict[int, list[float]] = {}
        for _, table in tables.values():
            for dog, row in enumerate(table):
                far = [None if (x := _number(answer)) is None else abs(x) for answer in row]
                others = [x for n, x in enumerate(far) if n != place and x is not None]
                own = far[place]
                if own is not None and others:
                    by_dog.setdefault(dog, []).append(own - fmean(others))
        means = [fmean(rows) for rows in by_dog.values()]
        if means:
            n = len(means)
            u = stdev(means) / math.sqrt(n) if n > 1 else None
            found.append(Lean(evaluator, "", "", fmean(means), u, n, "degree"))
    return tuple(found)


def _number(answer: Answer | None) -> float | None:
    if answer is None:
        return None
    return answer.value if answer.value is not None else answer.position


def _lean(
    rows: Sequence[Sequence[float | None]], place: int, step: float
) -> tuple[float, float | None, int] | None:
    differences = []
    for row in rows:
        own = row[place]
        others = [x for n, x in enumerate(row) if n != place and x is not None]
        if own is not None and others:
            differences.append(own - fmean(others))
    if not differences:
        return None
    n = len(differences)
    if n == 1:
        return differences[0], None, 1
    u = max(stdev(differences), resolution_u(step)) / math.sqrt(n)
    return fmean(differences), u, n
