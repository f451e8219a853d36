"""Measurements that must agree with each other, as the common parts name them, and left against right.

Proportions that hardly any dog has are questioned too, where nothing else has questioned their readings.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hands_on.evaluate.alarms.recorded import Unclosed
from hands_on.evaluate.measures import Measurement, Measures
from hands_on.evaluate.result import Alarm
from hands_on.evaluate.shared_landmarks import shared_errors
from hands_on.evaluate.values import Incomputable, readings
from hands_on.measure.closure import (
    Misfit,
    check_fence,
    check_girth,
    check_head,
    check_left_right,
    check_order,
    check_sum,
)
from hands_on.measure.derived import Correlation
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Closure

__all__ = ["closure_alarms"]


def closure_alarms(ruleset: Ruleset, measures: Measures) -> Iterator[Alarm]:
    """An alarm for each set of measurements that miss each other by more than two uncertainties."""
    values = measures.pooled
    harder = {name: one.pooled.harder for name, one in measures.by_point.items()}
    shared = shared_errors(ruleset, values, harder)
    found: list[Alarm] = []
    for closure in ruleset.closures:
        misfit = _check(closure, measures, values, shared)
        if misfit is not None and misfit.level != "ok":
            found.append(Alarm("closure", misfit.ids, Unclosed(misfit, closure.text, closure.advice)))
    around = check_girth(values)
    if around is not None and around.level != "ok":
        found.append(Alarm("closure", around.ids, Unclosed(around)))
    for fence, said in _fences(ruleset, measures):
        if not any(set(fence.ids) <= set(alarm.points) for alarm in found):
            found.append(Alarm("closure", fence.ids, Unclosed(fence, said)))
    yield from found
    for measurement in measures.by_point.values():
        yield from _sides(measurement)


def _check(
    closure: Closure,
    measures: Measures,
    values: Mapping[str, tuple[float, float]],
    shared: Correlation,
) -> Misfit | None:
    """None where a measurement is lacking, or not all are of one kind."""
    whole = closure.whole or closure.larger or ""
    parts = closure.parts or ((closure.smaller,) if closure.smaller else ())
    used = [measures.by_point.get(name) for name in (*parts, whole)]
    units = {one.canonical for one in used if one is not None}
    if None in used or len(units) != 1:
        return None
    unit = units.pop()
    if closure.smaller is not None:
        return check_order(closure.smaller, whole, values, unit=unit, correlation=shared)
    if not closure.at_least_whole:
        return check_sum(parts, whole, values, unit=unit, correlation=shared)
    if len(parts) == 2:
        return check_head(values, muzzle=parts[0], skull=parts[1], head=whole, unit=unit, correlation=shared)
    misfit = check_sum(parts, whole, values, unit=unit, correlation=shared)
    return misfit if misfit is not None and misfit.w < 0 else None


def _fences(ruleset: Ruleset, measures: Measures) -> Iterator[tuple[Misfit, str]]:
    """Computed values outside what any dog has, and what the common parts say of it."""
    for fence in ruleset.fences:
        value = ruleset.derived.get(fence.derived)
        if value is None:
            continue
        try:
            reading = readings(ruleset, measures, value)[0]
        except Incomputable:
            continue
        reach = (fence.low, fence.high)
        misfit = check_fence(value.measures, reading.value, reading.u, warn=reach, alarm=reach)
        if misfit.level != "ok":
            yield misfit, fence.text


def _sides(measurement: Measurement) -> Iterator[Alarm]:
    """Left and right of one measurement, where both were taken."""
    left, right = measurement.sides.get("left"), measurement.sides.get("right")
    if left is None or right is None or measurement.point.quantity == "count":
        return
    misfit = check_left_right(
        measurement.point.id,
        left.value,
        right.value,
        left.u_repeat,
        right.u_repeat,
        unit=measurement.canonical,
    )
    if misfit.level != "ok":
        yield Alarm("sides", (measurement.point.id,), Unclosed(misfit))
