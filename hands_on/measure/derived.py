"""Values computed from measurements (ratios, differences, sums, slopes, angles), uncertainty carried through.

An expression is a tree; every measurement in it stands by its id, so one that occurs twice is one
and the same quantity and its error cancels or adds as it must. The uncertainty is that of first
order, with exact partial derivatives (JCGM 100:2008, 5.1.2 and 5.2.2). A ratio whose denominator
is not clear of zero has no finite interval (Fieller 1954, J. R. Stat. Soc. B 16: 175-185) and is
refused.

Held against a limit a ratio needs no first order: `against` gives the uncertainty there, exact where what is
divided is a sum or a difference of measurements. So it does for a slope, which falls short of a limit where
its drop falls short of the limit's sine times the length.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from hands_on.measure.distributions import normal_quantile
from hands_on.measure.geometry import GeometryProblem, angle_from_lengths, slope_from_height_and_length
from hands_on.measure.gum import correlated

__all__ = [
    "Correlation",
    "DerivedProblem",
    "Difference",
    "Expr",
    "Fieller",
    "Ratio",
    "Ref",
    "Slope",
    "Sum",
    "Triangle",
    "against",
    "evaluate",
    "fieller",
    "measure_ids",
    "sensitivities",
]

Correlation = Mapping[tuple[str, str], float]

_AT_LIMIT = 1e-9
"""A ratio this near its limit stands at it."""


@dataclass(frozen=True, slots=True)
class Ref:
    """A measurement, by its id."""

    id: str


@dataclass(frozen=True, slots=True)
class Ratio:
    """``above`` divided by ``below``."""

    above: Expr
    below: Expr


@dataclass(frozen=True, slots=True)
class Difference:
    """``first`` less ``second``."""

    first: Expr
    second: Expr


@dataclass(frozen=True, slots=True)
class Sum:
    """All terms added."""

    terms: tuple[Expr, ...]


@dataclass(frozen=True, slots=True)
class Slope:
    """The slope from the horizontal of a line of that length which falls by ``drop``, degrees."""

    drop: Expr
    length: Expr


@dataclass(frozen=True, slots=True)
class Triangle:
    """The angle between two sides, opposite the third, degrees."""

    first: Expr
    second: Expr
    opposite: Expr


Expr = Ref | Ratio | Difference | Sum | Slope | Triangle


class DerivedProblem(Exception):
    """A derived value that cannot be given; ``missing`` names measurements that were not taken."""

    def __init__(self, message: str, missing: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.message = message
        self.missing = missing


def measure_ids(expr: Expr) -> tuple[str, ...]:
    """The ids of the measurements in an expression, each once, in the order they first stand."""
    found: dict[str, None] = {}

    def walk(part: Expr) -> None:
        match part:
            case Ref(name):
                found[name] = None
            case Ratio(first, second) | Difference(first, second) | Slope(first, second):
                walk(first)
                walk(second)
            case Triangle(first, second, third):
                for side in (first, second, third):
                    walk(side)
            case Sum(terms):
                for term in terms:
                    walk(term)

    walk(expr)
    return tuple(found)


def evaluate(
    expr: Expr,
    values: Mapping[str, tuple[float, float]],
    correlation: Correlation | None = None,
    *,
    level: float = 0.95,
) -> tuple[float, float]:
    """Value and standard uncertainty of an expression.

    ``values`` maps measurement ids to (value, u) in canonical units; ``correlation`` may give
    coefficients between different measurements. Raises `DerivedProblem` when a measurement is
    missing or a denominator is not clear of zero at ``level``.
    """
    value, slopes = sensitivities(expr, values, correlation, level=level)
    return value, correlated(slopes, {name: values[name][1] for name in slopes}, correlation)


def sensitivities(
    expr: Expr,
    values: Mapping[str, tuple[float, float]],
    correlation: Correlation | None = None,
    *,
    level: float = 0.95,
) -> tuple[float, dict[str, float]]:
    """Value of an expression and its partial derivative by each measurement in it.

    Raises as `evaluate`; a slope or an angle that its lengths cannot give raises `DerivedProblem` too.
    """
    missing = tuple(name for name in measure_ids(expr) if name not in values)
    if missing:
        raise DerivedProblem("not measured: " + ", ".join(missing), missing)

    def walk(part: Expr) -> tuple[float, dict[str, float]]:
        match part:
            case Ref(name):
                return values[name][0], {name: 1.0}
            case Difference(first, second):
                left, right = walk(first), walk(second)
                return left[0] - right[0], _linear((1.0, left[1]), (-1.0, right[1]))
            case Sum(terms):
                parts = [walk(term) for term in terms]
                return math.fsum(each[0] for each in parts), _linear(*((1.0, each[1]) for each in parts))
            case Ratio(above, below):
                top, bottom = walk(above), walk(below)
                _clear_of_zero(bottom[0], u_of(bottom), level)
                value = top[0] / bottom[0]
                return value, _linear((1.0 / bottom[0], top[1]), (-value / bottom[0], bottom[1]))
            case Slope(drop, length):
                down, long = walk(drop), walk(length)
                found = slope_from_height_and_length(down[0], long[0], u_of(down), u_of(long))
                by = found.sensitivity
                return found.value, _linear((by["drop"], down[1]), (by["length"], long[1]))
            case Triangle(first, second, opposite):
                sides = walk(first), walk(second), walk(opposite)
                (a, b, c), (u_a, u_b, u_c) = (side[0] for side in sides), map(u_of, sides)
                found = angle_from_lengths(a, b, c, u_a, u_b, u_c)
                by_side = found.sensitivity.values()
                return found.value, _linear(*zip(by_side, (side[1] for side in sides), strict=True))

    def u_of(part: tuple[float, dict[str, float]]) -> float:
        return correlated(part[1], {name: values[name][1] for name in part[1]}, correlation)

    try:
        return walk(expr)
    except GeometryProblem as problem:
        raise DerivedProblem(problem.message) from problem


def against(
    expr: Expr,
    values: Mapping[str, tuple[float, float]],
    limit: float,
    correlation: Correlation | None = None,
    *,
    level: float = 0.95,
) -> tuple[float, dict[str, float]]:
    """The standard uncertainty of an expression held against ``limit``, and its slopes there.

    With it (limit - value)/u is the distance of a normal quantity from nought: of a - L b for a ratio a/b and
    the limit L, of a - b sin L for a slope. Of every other expression u is that of `evaluate`, whatever the
    limit. Raises as `sensitivities`.
    """
    value, slopes = sensitivities(expr, values, correlation, level=level)
    u = {name: values[name][1] for name in slopes}
    if isinstance(expr, Ratio):
        first, second, factor = expr.above, expr.below, limit
    elif isinstance(expr, Slope) and -90.0 < limit < 90.0:
        first, second, factor = expr.drop, expr.length, math.sin(math.radians(limit))
    else:
        return correlated(slopes, u, correlation), slopes
    a, by_a = sensitivities(first, values, correlation, level=level)
    b, by_b = sensitivities(second, values, correlation, level=level)
    rest = a - factor * b
    if abs(rest) > _AT_LIMIT * abs(b):  # at the limit itself first order is exact
        scale = (value - limit) / rest
        slopes = _linear((scale, by_a), (-scale * factor, by_b))
    return correlated(slopes, u, correlation), slopes


def _linear(*parts: tuple[float, Mapping[str, float]]) -> dict[str, float]:
    slopes: dict[str, float] = {}
    for factor, part in parts:
        for name, slope in part.items():
            slopes[name] = slopes.get(name, 0.0) + factor * slope
    return slopes


def _clear_of_zero(value: float, u: float, level: float) -> None:
    z = normal_quantile(0.5 + level / 2.0)
    if value == 0.0 or abs(value) <= z * u:
        raise DerivedProblem("the ratio cannot be given: what it is divided by is not clear of nought")


@dataclass(frozen=True, slots=True)
class Fieller:
    """Limits of a ratio that hold also for an imprecise denominator.

    ``g`` = (z u_b / b)^2. Bounded only while g < 1; otherwise low and high are None where no two
    real limits exist, or bound the gap that is left out. First order is good enough while g < 0.05
    (a common rule, from memory).
    """

    low: float | None
    high: float | None
    bounded: bool
    g: float


def fieller(
    a: float, u_a: float, b: float, u_b: float, *, correlation: float = 0.0, level: float = 0.95
) -> Fieller:
    """Fieller's limits for a/b: roots of r^2 (b^2 - z^2 u_b^2) - 2 r (ab - z^2 cov) + a^2 - z^2 u_a^2 = 0.

    Raises ValueError when b is 0 with no uncertainty.
    """
    if b == 0.0 and u_b == 0.0:
        raise ValueError("nothing can be divided by nought")
    z = normal_quantile(0.5 + level / 2.0)
    g = (z * u_b / b) ** 2 if b else math.inf
    square = b * b - (z * u_b) ** 2
    middle = a * b - z * z * correlation * u_a * u_b
    rest = middle * middle - square * (a * a - (z * u_a) ** 2)
    if square == 0.0 or rest < 0.0:
        return Fieller(None, None, False, g)
    root = math.sqrt(rest)
    low, high = sorted(((middle - root) / square, (middle + root) / square))
    return Fieller(low, high, g < 1.0, g)
