"""Growth of height and weight: how much of a change is growth, and how large the dog may become.

No open table of size by age with its spread exists for size classes; the curves are drawn from
published models by inference. Weight: mean of the curves named beside each class below. Height:
1 - (1 - sqrt(weight fraction))^1.3, the exponent set on 13 pairs of a Labrador table, Beagle and Great
Dane limb bones and Turkish shepherd dogs (root mean square miss 0.037). Spread between dogs: the
curve's own half difference when it is shifted by the timing spread, and 0.01 to 0.03 beside it.

Timing spreads and the curve's own error are working values. Ages are in months of 30.44 days,
heights in cm, weights in kg. Curves describe healthy, well-fed dogs of a class: a dog that leaves its
curve is one for a veterinarian. Nothing here is a reason to feed for height or weight.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from hands_on.measure.distributions import lower_tail, normal_quantile

__all__ = [
    "ADULT_WEIGHTS",
    "AGES",
    "DAILY",
    "DAYS_A_MONTH",
    "KNOWN_TIMING",
    "RANGE_ONLY_BELOW",
    "TIMING",
    "Agreement",
    "Estimate",
    "GrowthCaution",
    "GrowthProblem",
    "NoGrowth",
    "NoGrowthKind",
    "Projection",
    "adult_estimate",
    "agrees",
    "daily_u",
    "fraction",
    "model_source",
    "project",
    "size_class_of",
    "spread",
    "tells_from",
]

AGES = (2.0, 24.0)
"""Months the curves cover; a dog of 24 months and more is taken as grown."""

ADULT_WEIGHTS = (2.0, 55.0)
"""Adult weights, kg, behind the curves: Yorkshire Terrier 2.12 kg to Kangal 50.8 kg."""

RANGE_ONLY_BELOW = 6.0
"""Months; of a younger dog only the range of its adult size is told."""

TIMING = {"small": 0.35, "medium": 0.5, "large": 0.7, "giant": 1.0}
"""By how many months dogs of a class run before or behind the curve (one standard deviation)."""

KNOWN_TIMING = 0.3
"""The same within one well-known breed, or with the curve shifted to a dog seen three times or more."""

DAYS_A_MONTH = 30.44

DAILY = 0.01
"""Share by which a dog's weight varies from day to day with meal, water and bladder (a working value)."""

CURVE_ERROR = {"height": 0.02, "weight": 0.06}
"""The curve's own error, as a share of what it foretells."""

GIANT_ERROR = {"height": 0.08, "weight": 0.12}
"""The same for giants, as found: Akbas of 12 months at 0.875 of their height, by the curve 0.96; bones of a
Great Dane at 0.95, by the slower of the two curves 0.87; for weight twice that of others."""

LEVEL = 0.95
"""The share of dogs whose size the range is to hold."""

_PARTS = 60
_YOUNGEST = 1.0
"""Months; no curve is read below that age, however late a dog may be."""


NoGrowthKind = Literal[
    "quantity",  # no curve for `given`
    "size-class",  # no curve for `given`
    "size-class-unknown",
    "weight",  # an adult weight outside the dogs behind the curves
    "outgrows",  # the dog points to `number` kg, outside the dogs behind the curves
    "age",  # `number` months, outside what the curves cover
    "backwards",  # the later measurement is dated before the earlier one
    "grown",  # both measurements were taken past `number` months
    "no-value",  # not above nought, or without an uncertainty
]

GrowthCaution = Literal[
    "inferred",  # a range for healthy dogs, from a curve that is inferred
    "range-only",  # too early for the dog's own timing to be known
    "giant",  # the weakest of the curves
    "condition",  # weight follows it
]
"""What to be careful about with a projection."""


@dataclass(frozen=True, slots=True)
class NoGrowth:
    """Why there is no projection; which of the values it has depends on its kind."""

    kind: NoGrowthKind
    number: float = 0.0
    given: str = ""


class GrowthProblem(Exception):
    """A projection that cannot be given; `wording.growth` says why."""

    def __init__(self, kind: NoGrowthKind, number: float = 0.0, given: str = "") -> None:
        super().__init__(kind)
        self.why = NoGrowth(kind, number, given)


def daily_u(weight: float, u: float) -> float:
    """Standard uncertainty of a weight as that of the dog, with what varies from day to day."""
    return math.hypot(u, DAILY * weight)


def _logistic(t50: float, scale: float) -> Callable[[float], float]:
    return lambda age: 1.0 / (1.0 + math.exp(-(age - t50) / scale))


def _gompertz(inflection: float, scale: float) -> Callable[[float], float]:
    return lambda age: math.exp(-math.exp(-(age - inflection) / scale))


# logistic, from half and 99 % of adult weight: Posada, Gomez, Rosero, Revista MVZ Cordoba (year not seen)
_POSADA_LARGE = _logistic(5.270, 1.980)
_WEIGHT: dict[str, tuple[Callable[[float], float], ...]] = {
    "small": (_logistic(3.490, 1.299),),
    "medium": (
        _logistic(4.210, 1.663),
        _gompertz(2.132, 2.270),  # Beagles: Helmsmueller and others 2013, BMC Vet Res 9: 203
        _gompertz(2.863, 1.472),  # Beagles: Hawthorne and others 2004, J Nutr 134: 2027S-2030S, second hand
    ),
    "large": (
        _POSADA_LARGE,
        _gompertz(
            3.223, 1.846
        ),  # guide dogs: Helmink and others 2000, J Anim Sci 78: 27-32, and half at 119 d
    ),
    "giant": (
        _gompertz(5.316, 4.067),  # Kangal, Akbas: Turk J Vet Anim Sci 27(4), over adults of other samples
        _POSADA_LARGE,
    ),
}

_SOURCE = {
    "small": "Posada, Gomez and Rosero, Revista MVZ Cordoba",
    "medium": (
        "Posada, Gomez and Rosero, Revista MVZ Cordoba; Helmsmueller and others 2013, BMC Vet Res 9: 203; "
        "Hawthorne and others 2004, J Nutr 134: 2027S-2030S"
    ),
    "large": ("Posada, Gomez and Rosero, Revista MVZ Cordoba; Helmink and others 2000, J Anim Sci 78: 27-32"),
    "giant": "Posada, Gomez and Rosero, Revista MVZ Cordoba; shepherd dogs, Turk J Vet Anim Sci 27(4)",
}


def model_source(quantity: str, size_class: str) -> str:
    """The published models that a curve rests on. Raises `GrowthProblem` for what has no curve."""
    _curve(quantity, size_class)
    return _SOURCE[size_class]


def size_class_of(adult_kg: float) -> str:
    """``small`` up to 10 kg, ``medium`` up to 25, ``large`` up to 40, ``giant`` above.

    ``adult_kg`` is what the standard gives as the middle for the sex, or the parent's of that sex.
    Raises `GrowthProblem` for weights no curve rests on (below 2 or above 55 kg).
    """
    low, high = ADULT_WEIGHTS
    if not low <= adult_kg <= high:
        raise GrowthProblem("weight", adult_kg)
    return (
        "small" if adult_kg <= 10 else "medium" if adult_kg <= 25 else "large" if adult_kg <= 40 else "giant"
    )


def _curve(quantity: str, size_class: str) -> Callable[[float], float]:
    if quantity not in CURVE_ERROR:
        raise GrowthProblem("quantity", given=quantity)
    if size_class not in _WEIGHT:
        raise GrowthProblem("size-class", given=size_class)
    parts = _WEIGHT[size_class]

    def weight(age: float) -> float:
        return math.fsum(part(age) for part in parts) / len(parts)

    if quantity == "weight":
        return weight
    return lambda age: 1.0 - (1.0 - math.sqrt(weight(age))) ** 1.3


def _covered(age: float) -> None:
    if not AGES[0] <= age <= AGES[1]:
        raise GrowthProblem("age", age)


def fraction(quantity: str, size_class: str, age: float) -> float:
    """Share of the adult ``height`` or ``weight`` reached at an age in months, by the class curve.

    Raises `GrowthProblem` outside 2 to 24 months and for what has no curve.
    """
    curve = _curve(quantity, size_class)
    _covered(age)
    return curve(age)


def spread(quantity: str, size_class: str, age: float) -> float:
    """Standard deviation of that share between dogs of the class. Raises as `fraction`."""
    curve = _curve(quantity, size_class)
    _covered(age)
    shift = TIMING[size_class]
    by_timing = (curve(age + shift) - curve(age - shift)) / 2.0
    return math.hypot(by_timing, min(0.03, max(0.01, 0.1 * (1.0 - curve(age)))))


@dataclass(frozen=True, slots=True)
class Projection:
    """What an earlier measurement lets expect at a later age.

    ``expected`` in the measurement's unit, ``u`` its standard uncertainty (with ``sem2``, that of the
    comparison), ``low`` and ``high`` the 95 % range, wider above than below.
    ``ratio`` is f(age2)/f(age1) and ``half_range`` half
    its difference when the curve is shifted either way.
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


def project(
    first: float,
    sem1: float,
    age1: float,
    age2: float,
    quantity: str,
    size_class: str,
    *,
    sem2: float = 0.0,
    timing: float | None = None,
    judged_from: float | None = None,
) -> Projection:
    """Carry a height or weight from ``age1`` to ``age2`` (months).

    expected = first f(age2)/f(age1); u^2 = (sem1 r)^2 + (first dr)^2 + (e expected)^2 + sem2^2, dr being
    half the difference of r when the curve is shifted by +- ``timing`` at both ages at once: an early
    dog is early twice. ``sem1`` and ``sem2`` are the standard uncertainties of the two measurements;
    ``timing`` defaults to the class's. ``judged_from`` is the age the measurement counts as grown from:
    with both ages past it there is nothing to project.

    Raises `GrowthProblem` outside ages and quantities the curves cover, for a later age before the
    earlier, or values that are not positive.
    """
    curve = _curve(quantity, size_class)
    _covered(age1)
    if not age2 >= age1:
        raise GrowthProblem("backwards")
    if judged_from is not None and age1 >= judged_from:
        raise GrowthProblem("grown", judged_from)
    if not first > 0 or math.isinf(first) or not (sem1 >= 0 and sem2 >= 0):
        raise GrowthProblem("no-value")
    later = min(age2, AGES[1])
    shift = TIMING[size_class] if timing is None else timing
    ratio = curve(later) / curve(age1)
    early, late = curve(later + shift) / curve(age1 + shift), curve(later - shift) / curve(age1 - shift)
    half_range = abs(early - late) / 2.0
    expected = first * ratio
    error = (GIANT_ERROR if size_class == "giant" else CURVE_ERROR)[quantity]
    u = math.hypot(sem1 * ratio, first * half_range, error * expected, sem2)
    own = math.hypot(sem1 / first, error, sem2 / expected)
    low, high = (
        first * math.exp(_log_ratio(curve, age1, later, shift, own, p))
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
    )


def _log_ratio(
    curve: Callable[[float], float], age1: float, age2: float, shift: float, own: float, p: float
) -> float:
    """The point below which the share p of the logarithm of later to earlier size lies.

    The dog's timing is normal, an early dog early at both ages; beside it the logarithm has a normal error
    ``own``. A late dog has more before it than an early one has less, so the range is not even about the
    expected value.
    """
    middles = []
    for n in range(_PARTS):
        moved = shift * normal_quantile((n + 0.5) / _PARTS)
        start, end = (max(age + moved, _YOUNGEST) for age in (age1, age2))
        middles.append(math.log(curve(end) / curve(start)))
    if own == 0.0:
        return sorted(middles)[min(_PARTS - 1, int(p * _PARTS))]
    low, high = min(middles) - 8.0 * own, max(middles) + 8.0 * own
    for _ in range(60):
        middle = (low + high) / 2.0
        below = math.fsum(lower_tail((middle - one) / own) for one in middles) / _PARTS
        low, high = (middle, high) if below < p else (low, middle)
    return (low + high) / 2.0


def tells_from(
    first: float, sem: float, age: float, quantity: str, size_class: str, *, judged_from: float | None = None
) -> float | None:
    """From which age (months) on a re-check can tell growth from measuring, by quarters of a month.

    The expected size then exceeds the earlier by the smallest detectable change of two such measurements.
    None where too little growth is left. Raises as `project`.
    """
    known = project(first, sem, age, age, quantity, size_class, sem2=sem, judged_from=judged_from)
    least = first + normal_quantile(0.5 + LEVEL / 2.0) * math.hypot(known.sem1, known.sem2)
    later = age + 0.25
    while later <= AGES[1]:
        if project(first, sem, age, later, quantity, size_class).expected >= least:
            return later
        later += 0.25
    return None


@dataclass(frozen=True, slots=True)
class Agreement:
    """A later measurement held against its projection.

    ``z`` = (second - expected) / u. ``changed``: the two measurements differ by more than the smallest
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
    z = (second - projection.expected) / projection.u
    sdc = normal_quantile(0.975) * math.hypot(projection.sem1, projection.sem2)
    changed = abs(second - projection.first) > sdc
    if projection.quantity == "height" and projection.first - second > sdc:
        return Agreement(z, sdc, True, False)
    return Agreement(z, sdc, changed, abs(z) <= 2)


@dataclass(frozen=True, slots=True)
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
    timing: float | None = None,
    judged_from: float | None = None,
) -> Estimate:
    """The adult height or weight a young dog's measurement points to, with its range.

    The projection to 24 months. Raises as `project`; ``judged_from`` refuses a dog that is grown.
    """
    grown = project(measured, sem, age, AGES[1], quantity, size_class, timing=timing, judged_from=judged_from)
    cautions: list[GrowthCaution] = ["inferred"]
    if age < RANGE_ONLY_BELOW:
        cautions.append("range-only")
    if size_class == "giant":
        cautions.append("giant")
    if quantity == "weight":
        cautions.append("condition")
    return Estimate(grown.expected, grown.u, grown.low, grown.high, tuple(cautions))
