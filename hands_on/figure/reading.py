"""Measures read off a figure: between the landmarks where a hand takes them."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from hands_on.figure.curves import Point
from hands_on.figure.skeleton import Landmarks, Shape, skeleton
from hands_on.ruleset.figure import Read
from hands_on.ruleset.landmarks import Between
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["Reading", "landmarks_of", "oval", "reading_of", "readings", "value_read"]

Reading = Callable[[Shape, Landmarks], float]
"""What a measure is in a figure: cm or degrees."""


def readings(ruleset: Ruleset) -> dict[str, Reading]:
    """How each measure of the ruleset that the figure shows is read off it."""
    found: dict[str, Reading] = {}
    for point in ruleset.points.values():
        if isinstance(point, MeasurePoint) and (way := reading_of(ruleset, point)) is not None:
            found[point.id] = way
    return found


def reading_of(ruleset: Ruleset, point: MeasurePoint) -> Reading | None:
    """How one measure is read; None where the figure does not show it."""
    plan = ruleset.figure
    if plan is not None and point.id in plan.reads:
        return _by_plan(plan.reads[point.id])
    if plan is None or point.between is None:
        return None
    # An edition may measure from a place that no figure has, as the corner of the eye.
    known = {"ground", *skeleton({name: one.usual for name, one in plan.proportions.items()})}
    return _between(point.between) if known.issuperset(point.between.points) else None


def landmarks_of(ruleset: Ruleset, measure: str) -> tuple[str, ...]:
    """The landmarks that a measure runs between, as the figure reads it; none for a proportion."""
    plan, point = ruleset.figure, ruleset.points.get(measure)
    if plan is not None and measure in plan.reads:
        read = plan.reads[measure]
        return read.slope or read.lean or read.angle or read.below or ()
    if isinstance(point, MeasurePoint) and point.between is not None:
        return point.between.points
    return ()


def _between(between: Between) -> Reading | None:
    first, second = between.points
    if between.runs == "across":
        return None

    def read(_: Shape, at: Landmarks) -> float:
        (x0, z0), (x1, z1) = _place(at, first), _place(at, second)
        if between.runs == "upright" or "ground" in (first, second):
            return abs(z1 - z0)
        if between.runs == "level":
            return abs(x1 - x0)
        return math.hypot(x1 - x0, z1 - z0)

    return read


def _place(at: Landmarks, name: str) -> Point:
    return (0.0, 0.0) if name == "ground" else at[name]


def _by_plan(read: Read) -> Reading:
    if read.slope is not None:
        high, low = read.slope
        return lambda _, at: math.degrees(math.atan2(at[high][1] - at[low][1], abs(at[high][0] - at[low][0])))
    if read.lean is not None:
        high, low = read.lean
        return lambda _, at: math.degrees(math.atan2(at[low][0] - at[high][0], at[high][1] - at[low][1]))
    if read.angle is not None:
        first, middle, last = read.angle
        return lambda _, at: _angle(at[first], at[middle], at[last])
    if read.below is not None:
        lower, upper = read.below
        return lambda _, at: at[upper][1] - at[lower][1]
    if read.proportion is not None:
        part = read.proportion
        return lambda shape, _: shape[part] * shape["height"]
    if read.round_ is not None:
        thick = read.round_
        return lambda shape, _: math.pi * shape[thick] * shape["height"]
    assert read.oval is not None
    deep, wide = read.oval
    return lambda shape, _: oval(shape[deep], shape[wide]) * shape["height"]


def oval(one: float, other: float) -> float:
    """The way round an ellipse with these axes (Ramanujan 1914, second approximation)."""
    a, b = one / 2, other / 2
    if a + b <= 0:
        return 0.0
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


def _angle(first: Point, middle: Point, last: Point) -> float:
    ax, az = first[0] - middle[0], first[1] - middle[1]
    bx, bz = last[0] - middle[0], last[1] - middle[1]
    return math.degrees(abs(math.atan2(ax * bz - az * bx, ax * bx + az * bz)))


def value_read(value: Value, ways: Mapping[str, Reading]) -> Reading | None:
    """How a ratio, difference or sum of measures is read; None where one of them is not shown."""
    if value.measure is not None:
        return ways.get(value.measure)
    parts = [value_read(member, ways) for member in value.members]
    if any(part is None for part in parts) or value.slope or value.angle:
        return None
    reads = [part for part in parts if part is not None]

    def read(shape: Shape, at: Landmarks) -> float:
        sizes = [one(shape, at) for one in reads]
        if value.ratio:
            return sizes[0] / sizes[1] if sizes[1] else 0.0
        return sizes[0] - sizes[1] if value.difference else math.fsum(sizes)

    return read
