"""Growth of height and weight: how much of a change is growth, and how large the dog may become.

By the curves of `measure.growth_curves`. Heights are in cm, weights in kg, ages in months of 30.44 days.
Curves describe healthy, well-fed dogs of a class: a dog that leaves its curve is one for a veterinarian.
Nothing here is a reason to feed for height or weight.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.distributions import (
    density,
    equivalent_z,
    increasing_root,
    lower_tail,
    normal_quantile,
    student_quantile,
)
from hands_on.measure.growth_curves import (
    AGES,
    TIMING,
    YOUNGEST,
    GrowthProblem,
    covered,
    curve_error,
    curve_of,
)
from hands_on.measure.gum import welch_satterthwaite

__all__ = [
    "LEVEL",
    "RANGE_ONLY_BELOW",
    "Agreement",
    "Estimate",
    "GrowthCaution",
    "Projection",
    "adult_estimate",
    "agrees",
    "project",
    "tells_from",
]

RANGE_ONLY_BELOW = 6.0
"""Months; of a younger dog only the range of its adult size is told."""

LEVEL = 0.95
"""The share of dogs whose size the range is to hold."""

_PARTS = 60
GrowthCaution = Literal[
    "inferred",  # a range for healthy dogs, from a curve that is inferred
    "range-only",  # too early for the dog's own timing to be known
    "giant",  # the weakest of the curves
    "condition",  # weight follows it
]
"""What to be careful about with a projection."""


@dataclass(frozen=True)
class Projection:
    """What an earlier measurement lets expect at a later age.

    ``expected`` in the measurement's unit, ``u`` its standard uncertainty (with ``sem2``, that of the
    comparison), ``low`` and ``high`` the 95 % range, wider above than below.
    ``ratio`` is f(age2)/f(age1) and ``half_range`` half
    its difference when the curve is shifted either way. ``dof`` are the degrees of freedom of ``u``,
    ``dof_change`` those of the difference of the two measurements; ``sessions`` how many earlier measurements
    it rests on.
    """

    quantity: str
    size_class: str
    first: float
    sem1: float
    sem2: float
    expected: float
    u: float
    low: float
    high: float
    ratio: float
    half_range: float
    dof: float = math.inf
    dof_change: float = math.inf
    sessions: int = 1


@lru_cache(maxsize=256)
def project(
    first: float,
    sem1: float,
    age1: float,
    age2: float,
    quantity: str,
    size_class: str,
    *,
    sem2: float = 0.0,
    dof1: float = math.inf,
    dof2: float = math.inf,
    timing: float | None = None,
    judged_from: float | None = None,
) -> Projection:
    """Carry a height or weight from ``age1`` to ``age2`` (months).

    expected = first f(age2)/f(age1); u^2 = (sem1 r)^2 + (first dr)^2 + (e expected)^2 + sem2^2, dr being
    half the difference of r when the curve is shifted by +- ``timing`` at both ages at once: an early
    dog is early twice. ``sem1`` and ``sem2`` are the standard uncertainties of the two measurements,
    ``dof1`` and ``dof2`` their degrees of freedom, which go through Welch and Satterthwaite to Student's t;
    ``timing`` defaults to the class's. ``judged_from`` is the age the measurement counts as grown from:
    with both ages past it there is nothing to project. What was asked for lately is kept: a session is judged
    anew after every answer, and its ranges take long to compute.

    Raises `GrowthProblem` outside ages and quantities the curves cover, for a later age before the
    earlier, or values that are not positive.
    """
    curve = _curve_from(first, sem1, age1, quantity, size_class, judged_from)
    if not age2 >= age1:
        raise GrowthProblem("backwards")
    if not sem2 >= 0:
        raise GrowthProblem("no-value")
    later = min(age2, AGES[1])
    shift = TIMING[size_class] if timing is None else timing
    ratio = curve(later) / curve(age1)
    early, late = curve(later + shift) / curve(age1 + shift), curve(later - shift) / curve(age1 - shift)
    half_range = abs(early - late) / 2.0
    expected = first * ratio
    error = curve_error(quantity, size_class)
    u = math.hypot(sem1 * ratio, first * half_range, error * expected, sem2)
    own = math.hypot(sem1 / first, error, sem2 / expected)
    parts = [(sem1 / first, dof1), (error, math.inf), (sem2 / expected, dof2)]
    dof_own = welch_satterthwaite(parts)
    low, high = (
        first * math.exp(_log_ratio(curve, age1, later, shift, own, dof_own, p))
        for p in (0.5 - LEVEL / 2.0, 0.5 + LEVEL / 2.0)
    )
    return Projection(
        quantity,
        size_class,
        first,
        sem1,
        sem2,
        expected,
        u,
        low,
        high,
        ratio,
        half_range,
        welch_satterthwaite([*parts, (half_range / ratio, math.inf)]),
        welch_satterthwaite([(sem1, dof1), (sem2, dof2)]),
    )


def _curve_from(
    first: float, sem: float, age: float, quantity: str, size_class: str, judged_from: float | None
) -> Callable[[float], float]:
    """The curve that a measurement at this age is carried along. Raises `GrowthProblem`."""
    curve = curve_of(quantity, size_class)
    covered(age)
    if judged_from is not None and age >= judged_from:
        raise GrowthProblem("grown", judged_from)
    if not first > 0 or math.isinf(first) or not sem >= 0:
        raise GrowthProblem("no-value")
    return curve


def _log_ratio(
    curve: Callable[[float], float],
    age1: float,
    age2: float,
    shift: float,
    own: float,
    dof: float,
    p: float,
) -> float:
    """The point below which the share p of the logarithm of later to earlier size lies.

    The dog's timing is normal, an early dog early at both ages; beside it the logarithm has an error
    ``own``, Student's t with ``dof``. A late dog has more before it than an early one has less, so the range
    is not even about the expected value.
    """
    middles = []
    for n in range(_PARTS):
        moved = shift * normal_quantile((n + 0.5) / _PARTS)
        start, end = (max(age + moved, YOUNGEST) for age in (age1, age2))
        middles.append(math.log(curve(end) / curve(start)))
    if own == 0.0:
        return sorted(middles)[min(_PARTS - 1, int(p * _PARTS))]
    low, high = min(middles) - 8.0 * own, max(middles) + 8.0 * own

    def over(at: float) -> tuple[float, float]:
        below = math.fsum(lower_tail((at - one) / own, dof) for one in middles) / _PARTS
        return below - p, math.fsum(density((at - one) / own, dof) for one in middles) / (_PARTS * own)

    return increasing_root(over, low, high, (low + high) / 2.0, 1e-15 * own)


def tells_from(
    first: float,
    sem: float,
    age: float,
    quantity: str,
    size_class: str,
    *,
    dof: float = math.inf,
    judged_from: float | None = None,
) -> float | None:
    """From which age (months) on a re-check can tell growth from measuring, by quarters of a month.

    The expected size then exceeds the earlier by the smallest detectable change of two such measurements.
    None where too little growth is left. Raises as `project`.
    """
    curve = _curve_from(first, sem, age, quantity, size_class, judged_from)
    least = first + _sdc(sem, sem, welch_satterthwaite([(sem, dof), (sem, dof)]))
    later = age + 0.25
    while later <= AGES[1]:
        if first * (curve(later) / curve(age)) >= least:
            return later
        later += 0.25
    return None


@dataclass(frozen=True)
class Agreement:
    """A later measurement held against its projection.

    ``z`` = (second - expected) / u; with few degrees of freedom the normal's z that is as rare. ``changed``:
    the two measurements differ by more than the smallest
    detectable change ``sdc``. ``explained``: growth and measuring explain it (|z| up to 2, and no
    height that shrank).
    """

    z: float
    sdc: float
    changed: bool
    explained: bool


def agrees(projection: Projection, second: float) -> Agreement:
    """Judge a later measurement in the projection's unit; give `project` its ``sem2``.

    |z| up to 1: as growth would have it; up to 2: on the low or high side; beyond: not explained.
    A height smaller by more than the SDC is a matter of measuring, whatever z.
    """
    z = equivalent_z((second - projection.expected) / projection.u, projection.dof)
    sdc = _sdc(projection.sem1, projection.sem2, projection.dof_change)
    changed = abs(second - projection.first) > sdc
    if projection.quantity == "height" and projection.first - second > sdc:
        return Agreement(z, sdc, True, False)
    return Agreement(z, sdc, changed, abs(z) <= 2)


def _sdc(sem1: float, sem2: float, dof: float) -> float:
    """The smallest detectable change of two measurements with these standard uncertainties."""
    return student_quantile(0.5 + LEVEL / 2.0, dof) * math.hypot(sem1, sem2)


@dataclass(frozen=True)
class Estimate:
    """A likely adult size: its 95 % range first, and what to be careful about."""

    expected: float
    u: float
    low: float
    high: float
    cautions: tuple[GrowthCaution, ...]


def adult_estimate(
    measured: float,
    sem: float,
    age: float,
    quantity: str,
    size_class: str,
    *,
    dof: float = math.inf,
    timing: float | None = None,
    judged_from: float | None = None,
) -> Estimate:
    """The adult height or weight a young dog's measurement points to, with its range.

    The projection to 24 months. Raises as `project`; ``judged_from`` refuses a dog that is grown.
    """
    grown = project(
        measured, sem, age, AGES[1], quantity, size_class, dof1=dof, timing=timing, judged_from=judged_from
    )
    cautions: list[GrowthCaution] = ["inferred"]
    if age < RANGE_ONLY_BELOW:
        cautions.append("range-only")
    if size_class == "giant":
        cautions.append("giant")
    if quantity == "weight":
        cautions.append("condition")
    return Estimate(grown.expected, grown.u, grown.low, grown.high, tuple(cautions))
