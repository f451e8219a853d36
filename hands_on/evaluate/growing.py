"""What a young dog's height and weight let expect of the grown dog."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.measures import HEIGHT, WEIGHT, Measurement, Measures
from hands_on.evaluate.result import GrowthResult
from hands_on.measure.age import age_text
from hands_on.measure.growth import (
    ADULT_WEIGHTS,
    RANGE_ONLY_BELOW,
    Estimate,
    GrowthProblem,
    adult_estimate,
    model_source,
)
from hands_on.measure.units import convert, decimals_for, format_measured, format_value

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
        if one is None or one.judged_from is None:
            continue
        try:
            if heavy:
                raise GrowthProblem(heavy)
            estimate = _estimate(one, quantity, circumstances, age)
        except GrowthProblem as problem:
            yield _refused(one, circumstances, age, problem.message)
        else:
            yield _told(one, quantity, circumstances, age, estimate)


def _estimate(one: Measurement, quantity: str, circumstances: Circumstances, age: float) -> Estimate:
    """In the canonical unit. Raises GrowthProblem."""
    size = circumstances.size_class
    if size is None:
        raise GrowthProblem(
            "The size class of this dog is not known, and small dogs grow otherwise than large ones."
        )
    pooled = one.pooled
    return adult_estimate(pooled.value, pooled.u, age, quantity, size, judged_from=one.judged_from)


def _outgrows(weight: Measurement | None, circumstances: Circumstances, age: float) -> str:
    """Why neither is projected: the weight points to an adult outside the dogs behind the curves."""
    if weight is None:
        return ""
    try:
        grown = weight.pooled.value
        if weight.judged_from is not None:
            grown = _estimate(weight, _QUANTITIES[WEIGHT], circumstances, age).expected
    except GrowthProblem:
        return ""
    low, high = ADULT_WEIGHTS
    if low <= grown <= high:
        return ""
    return f"The growth curves rest on dogs of {low:g} to {high:g} kg; this one points to {grown:.0f} kg."


def _refused(one: Measurement, circumstances: Circumstances, age: float, why: str) -> GrowthResult:
    value, u = _shown(one, one.pooled.value), _shown(one, one.pooled.u)
    return GrowthResult(
        id=one.point.id,
        value=value,
        u=u,
        unit=one.point.unit,
        age_months=age,
        judged_from=one.judged_from or 0.0,
        size_class=circumstances.size_class,
        refused=why,
        sentence=f"{format_measured(value, u, one.point.unit)} at {age_text(age)}: no projection. {why}",
    )


def _told(
    one: Measurement, quantity: str, circumstances: Circumstances, age: float, estimate: Estimate
) -> GrowthResult:
    unit, size = one.point.unit, circumstances.size_class or ""
    numbers = (one.pooled.value, one.pooled.u, estimate.expected, estimate.u, estimate.low, estimate.high)
    value, u, expected, expected_u, low, high = (_shown(one, number) for number in numbers)
    digits = decimals_for(expected_u)
    between = f"{low:.{digits}f} to {format_value(high, unit, digits)}"
    # Before that age the dog's own timing is not known: the range only.
    middle = f" ({format_measured(expected, expected_u, unit)})" if age >= RANGE_ONLY_BELOW else ""
    sentence = (
        f"{format_measured(value, u, unit)} at {age_text(age)}: full-grown probably {between}{middle}; "
        f"judged from {one.judged_from:g} months"
    )
    return GrowthResult(
        id=one.point.id,
        value=value,
        u=u,
        unit=unit,
        age_months=age,
        judged_from=one.judged_from or 0.0,
        size_class=circumstances.size_class,
        expected=expected,
        expected_u=expected_u,
        low=low,
        high=high,
        caution=" ".join(estimate.cautions),
        source=model_source(quantity, size),
        sentence=sentence,
    )


def _shown(one: Measurement, number: float) -> float:
    """A number in the unit that the point is shown in."""
    return convert(number, one.canonical, one.point.unit)
