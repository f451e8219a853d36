"""The normal, Student's t and the beta distribution: tails, and points that leave a wanted tail.

Tails are computed directly, never as one minus the other side, so sixteen standard uncertainties
beyond a limit give 6e-58 and not zero. Student's t goes through the regularised incomplete beta
function by its continued fraction (Abramowitz and Stegun 1964, 26.5.8 and 26.7.1; modified Lentz
evaluation).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from statistics import NormalDist

__all__ = [
    "beta_quantile",
    "density",
    "equivalent_z",
    "incomplete_beta",
    "increasing_root",
    "lower_tail",
    "normal_quantile",
    "normal_quantiles",
    "scaled_chi",
    "scaled_chis",
    "student_quantile",
    "upper_tail",
]

_SQRT2 = math.sqrt(2.0)
_SQRT_2PI = math.sqrt(2.0 * math.pi)
_LIKE_NORMAL = 1e7
"""Beyond so many degrees of freedom t and normal agree to all digits that matter."""


def upper_tail(z: float, dof: float | None = None) -> float:
    """P(Z > z) of the standard normal, or of Student's t with ``dof`` degrees of freedom.

    Raises ValueError when ``dof`` is not positive.
    """
    if dof is None or dof > _LIKE_NORMAL:
        return 0.5 * math.erfc(z / _SQRT2)
    if not dof > 0:
        raise ValueError("degrees of freedom must be positive")
    if math.isinf(z):
        return 0.0 if z > 0 else 1.0
    square = z * z
    half = 0.5 * _incomplete_beta(dof / 2.0, 0.5, dof / (dof + square), square / (dof + square))
    return half if z >= 0 else 1.0 - half


def lower_tail(z: float, dof: float | None = None) -> float:
    """P(Z <= z); see `upper_tail`."""
    return upper_tail(-z, dof)


def density(z: float, dof: float | None = None) -> float:
    """The density of the standard normal, or of Student's t with ``dof`` degrees of freedom, at z.

    Raises ValueError when ``dof`` is not positive.
    """
    if dof is None or dof > _LIKE_NORMAL:
        return math.exp(-0.5 * z * z) / _SQRT_2PI
    if not dof > 0:
        raise ValueError("degrees of freedom must be positive")
    return _student_front(dof) * math.exp(-0.5 * (dof + 1.0) * math.log1p(z * z / dof))


@lru_cache(maxsize=4096)
def _student_front(dof: float) -> float:
    """The density of Student's t at its middle."""
    return math.exp(math.lgamma((dof + 1.0) / 2.0) - math.lgamma(dof / 2.0)) / math.sqrt(dof * math.pi)


def increasing_root(
    at: Callable[[float], tuple[float, float]], low: float, high: float, start: float, tolerance: float
) -> float:
    """Where a function that grows between ``low`` and ``high`` is 0; ``at`` gives its value and its slope.

    Newton's steps from ``start``, kept between ends that are known (Numerical Recipes, rtsafe), until
    one is no longer than ``tolerance``; they settle in about six.
    """
    x = start
    for _ in range(60):
        value, slope = at(x)
        low, high = (low, x) if value > 0 else (x, high)
        before, x = x, x - value / slope if slope > 0 else math.inf
        if not low <= x <= high:
            x = (low + high) / 2.0
        if abs(x - before) <= tolerance:
            break
    return x


def normal_quantile(p: float) -> float:
    """The z below which the share ``p`` of a standard normal lies; 0 < p < 1, else ValueError."""
    if not 0.0 < p < 1.0:
        raise ValueError("a probability between 0 and 1 is needed")
    return NormalDist().inv_cdf(p)


def normal_quantiles(every: Iterable[float]) -> list[float]:
    """`normal_quantile` of many."""
    return list(map(NormalDist().inv_cdf, every))


def equivalent_z(t: float, dof: float) -> float:
    """The point of a standard normal that is as rare as ``t`` of Student's t with ``dof``."""
    if dof > _LIKE_NORMAL:
        return t
    return math.copysign(-NormalDist().inv_cdf(max(upper_tail(abs(t), dof), 1e-300)), t)


@lru_cache(maxsize=4096)
def student_quantile(p: float, dof: float) -> float:
    """The t below which the share ``p`` lies with ``dof`` degrees of freedom (infinite: normal).

    Raises ValueError unless 0 < p < 1 and dof > 0.
    """
    if not dof > 0:
        raise ValueError("degrees of freedom must be positive")
    if dof > _LIKE_NORMAL:
        return normal_quantile(p)
    if not 0.0 < p < 1.0:
        raise ValueError("a probability between 0 and 1 is needed")
    wanted = min(p, 1.0 - p)
    low, high = 0.0, 1.0
    while upper_tail(high, dof) > wanted:
        low, high = high, 2.0 * high
    # Newton's steps, which double the digits, kept between ends that are known (Numerical Recipes, rtsafe).
    t = 0.5 * (low + high)
    for _ in range(200):
        over = upper_tail(t, dof) - wanted
        if over > 0:
            low = t
        else:
            high = t
        after = t + over / density(t, dof)
        if not low < after < high:
            after = 0.5 * (low + high)
        if after == t or abs(after - t) <= 2e-16 * after or after in (low, high):
            break
        t = after
    return math.copysign(after, p - 0.5)


def scaled_chi(z: float, dof: float) -> float:
    """The point of sqrt(chi squared / dof) that goes with z of a standard normal (Wilson and Hilferty 1931).

    A normal over it is Student's t to three digits from three degrees of freedom on.
    """
    return scaled_chis([z], dof)[0]


def scaled_chis(every: Sequence[float], dof: float) -> list[float]:
    """`scaled_chi` of many."""
    part = 2.0 / (9.0 * dof)
    middle, slope, sqrt = 1.0 - part, math.sqrt(part), math.sqrt
    thirds = [middle + z * slope for z in every]
    if min(thirds, default=1.0) < 1e-3:
        thirds = [max(1e-3, third) for third in thirds]
    return [third * sqrt(third) for third in thirds]


def beta_quantile(p: float, a: float, b: float) -> float:
    """The x with I_x(a, b) = p; a and b positive, 0 < p < 1, else ValueError."""
    if not (0.0 < p < 1.0 and a > 0 and b > 0):
        raise ValueError("a probability between 0 and 1 and positive parameters are needed")
    low, high = 0.0, 1.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if incomplete_beta(a, b, middle) < p:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def incomplete_beta(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function I_x(a, b)."""
    return _incomplete_beta(a, b, x, 1.0 - x)


def _incomplete_beta(a: float, b: float, x: float, rest: float) -> float:
    """I_x(a, b) where ``rest`` = 1 - x is known to full precision even for x near 1."""
    if x <= 0.0:
        return 0.0
    if rest <= 0.0:
        return 1.0
    log_x = math.log(x) if x < 0.5 else math.log1p(-rest)
    log_rest = math.log(rest) if rest < 0.5 else math.log1p(-x)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * log_x + b * log_rest)
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _beta_fraction(a, b, x) / a
    return 1.0 - front * _beta_fraction(b, a, rest) / b


def _beta_fraction(a: float, b: float, x: float) -> float:
    tiny = 1e-300
    c, d = 1.0, 1.0 - (a + b) * x / (a + 1.0)
    d = 1.0 / (d if abs(d) > tiny else tiny)
    result = d
    for m in range(1, 20_000):
        for step in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1.0 + step * d
            d = 1.0 / (d if abs(d) > tiny else tiny)
            c = 1.0 + step / c
            c = c if abs(c) > tiny else tiny
            factor = c * d
            result *= factor
        if abs(factor - 1.0) < 1e-16:
            break
    return result
