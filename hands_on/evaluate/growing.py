"""What a young dog's height and weight let expect of the grown dog."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.measures import HEIGHT, WEIGHT, Measurement, Measures
from hands_on.evaluate.result import GrowthResult
from hands_on.measure.growth import Estimate, adult_estimate, tells_from
from hands_on.measure.growth_curves import (
    ADULT_WEIGHTS,
    DAYS_A_MONTH,
    GrowthProblem,
    NoGrowth,
    daily_u,
    model_source,
)
from hands_on.measure.units import convert

__all__ = ["growth"]

_QUANTITIES = {HEIGHT: "height", WEIGHT: "weight"}
"""The measurements that have a growth curve, and its name."""


def growth(measures: Measures, circumstances: Circumstances) -> tuple[GrowthResult, ...]:
    """A projection, or why there is none, for each height and weight below the age at which it is judged."""
    return tuple(_results(measures, circumstances))


def _results(measures: Measures, circumstances: Circumstances) -> Iterator[GrowthResult]:
    age = circumstances.age
    if age is None:
        return
    heavy = _outgrows(measures.by_point.get(WEIGHT), circumstances, age)
    for name, quantity in _QUANTITIES.items():
        one = measures.by_point.get(name)
        if one is None or one.too_young is None:
            continue
        if heavy is not None:
            yield _refused(one, circumstances, age, heavy)
            continue
        try:
            estimate = _estimate(one, quantity, circumstances, age)
        except GrowthProblem as problem:
            yield _refused(one, circumstances, age, problem.why)
        else:
            yield _told(one, quantity, circumstances, age, estimate)


def _estimate(one: Measurement, quantity: str, circumstances: Circumstances, age: float) -> Estimate:
    """In the canonical unit. Raises GrowthProblem."""
    size = circumstances.size_class
    if size is None:
        raise GrowthProblem("size-class-unknown")
    pooled = one.pooled
    return adult_estimate(
        pooled.value,
        pooled.u,
        age,
        quantity,
        size,
        dof=pooled.dof,
        judged_from=one.judged_from,
    )


def _outgrows(weight: Measurement | None, circumstances: Circumstances, age: float) -> NoGrowth | None:
    """Why neither is projected: the weight points to an adult outside the dogs behind the curves."""
    if weight is None:
        return None
    try:
        grown = weight.pooled.value
        if weight.too_young is not None:
            grown = _estimate(weight, _QUANTITIES[WEIGHT], circumstances, age).expected
    except GrowthProblem:
        return None
    low, high = ADULT_WEIGHTS
    if low <= grown <= high:
        return None
    return NoGrowth("outgrows", grown)


def _refused(one: Measurement, circumstances: Circumstances, age: float, why: NoGrowth) -> GrowthResult:
    return GrowthResult(
        id=one.point.id,
        value=_shown(one, one.pooled.value),
        u=_shown(one, one.pooled.u),
        unit=one.point.unit,
        age_months=age,
        judged_from=one.judged_from or 0.0,
        size_class=circumstances.size_class,
        refused=why,
    )


def _told(
    one: Measurement, quantity: str, circumstances: Circumstances, age: float, estimate: Estimate
) -> GrowthResult:
    numbers = (one.pooled.value, one.pooled.u, estimate.expected, estimate.u, estimate.low, estimate.high)
    value, u, expected, expected_u, low, high = (_shown(one, number) for number in numbers)
    again = _tells_from(one, quantity, circumstances, age)
    return GrowthResult(
        id=one.point.id,
        value=value,
        u=u,
        unit=one.point.unit,
        age_months=age,
        judged_from=one.judged_from or 0.0,
        size_class=circumstances.size_class,
        expected=expected,
        expected_u=expected_u,
        low=low,
        high=high,
        recheck_from=again,
        recheck_on=_day(circumstances, again),
        cautions=estimate.cautions,
        source=model_source(quantity, circumstances.size_class or ""),
    )


def _tells_from(one: Measurement, quantity: str, circumstances: Circumstances, age: float) -> float | None:
    """The age from which a re-check can tell; the daily variation of a weight counted in."""
    sem = one.pooled.u
    if quantity == "weight":
        sem = daily_u(one.pooled.value, sem)
    size = circumstances.size_class or ""
    dof = one.pooled.dof
    return tells_from(one.pooled.value, sem, age, quantity, size, dof=dof, judged_from=one.judged_from)


def _day(circumstances: Circumstances, months: float | None) -> datetime.date | None:
    born = circumstances.dog.born
    if months is None or born is None:
        return None
    return born + datetime.timedelta(days=math.ceil(months * DAYS_A_MONTH))


def _shown(one: Measurement, number: float) -> float:
    """A number in the unit that the point is shown in."""
    return convert(number, one.canonical, one.point.unit)
