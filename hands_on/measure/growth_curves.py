"""Curves of growth, by size class, and what they rest on.

No open table of size by age with its spread exists for size classes; the curves are drawn from
published models by inference. Weight: mean of the curves named beside each class below. Height:
1 - (1 - sqrt(weight fraction))^1.3, the exponent set on 13 pairs of a Labrador table, Beagle and Great
Dane limb bones and Turkish shepherd dogs (root mean square miss 0.037). Spread between dogs: the
curve's own half difference when it is shifted by the timing spread, and 0.01 to 0.03 beside it.

Timing spreads and the curve's own error are working values. Ages are in months of 30.44 days.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal

from hands_on.frozen import dataclass

__all__ = [
    "ADULT_WEIGHTS",
    "AGES",
    "DAILY",
    "DAYS_A_MONTH",
    "KNOWN_TIMING",
    "TIMING",
    "YOUNGEST",
    "GrowthProblem",
    "NoGrowth",
    "NoGrowthKind",
    "covered",
    "curve_error",
    "curve_of",
    "daily_u",
    "fraction",
    "model_source",
    "size_class_of",
    "spread",
]

AGES = (2.0, 24.0)
"""Months the curves cover; a dog of 24 months and more is taken as grown."""

ADULT_WEIGHTS = (2.0, 55.0)
"""Adult weights, kg, behind the curves: Yorkshire Terrier 2.12 kg to Kangal 50.8 kg."""

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

YOUNGEST = 1.0
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


@dataclass(frozen=True)
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
    curve_of(quantity, size_class)
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


def curve_error(quantity: str, size_class: str) -> float:
    """The curve's own error, as a share of what it foretells. Raises `GrowthProblem` without a curve."""
    curve_of(quantity, size_class)
    return (GIANT_ERROR if size_class == "giant" else CURVE_ERROR)[quantity]


def curve_of(quantity: str, size_class: str) -> Callable[[float], float]:
    """The share of the adult size by age in months. Raises `GrowthProblem` for what has no curve."""
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


def covered(age: float) -> None:
    if not AGES[0] <= age <= AGES[1]:
        raise GrowthProblem("age", age)


def fraction(quantity: str, size_class: str, age: float) -> float:
    """Share of the adult ``height`` or ``weight`` reached at an age in months, by the class curve.

    Raises `GrowthProblem` outside 2 to 24 months and for what has no curve.
    """
    curve = curve_of(quantity, size_class)
    covered(age)
    return curve(age)


def spread(quantity: str, size_class: str, age: float) -> float:
    """Standard deviation of that share between dogs of the class. Raises as `fraction`."""
    curve = curve_of(quantity, size_class)
    covered(age)
    shift = TIMING[size_class]
    by_timing = (curve(age + shift) - curve(age - shift)) / 2.0
    return math.hypot(by_timing, min(0.03, max(0.01, 0.1 * (1.0 - curve(age)))))
