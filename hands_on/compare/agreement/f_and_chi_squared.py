"""Tails and points of the F and the chi-squared distribution, by the beta and the error function.

Abramowitz and Stegun 1964, 26.6.2 (F by the incomplete beta function), 26.4.4 and 26.4.5 (chi-squared
as finite sums for whole degrees of freedom).
"""

from __future__ import annotations

import math

from hands_on.measure.distributions import beta_quantile, incomplete_beta

__all__ = ["chi2_quantile", "chi2_upper_tail", "f_quantile", "f_upper_tail"]


def f_upper_tail(f: float, dof1: float, dof2: float) -> float:
    """P(F > f) with `dof1` and `dof2` degrees of freedom. Raises ValueError unless both are positive."""
    _positive(dof1, dof2)
    if f <= 0.0:
        return 1.0
    if math.isinf(f):
        return 0.0
    if dof1 * f < dof2:  # the side on which the share keeps its digits
        return 1.0 - incomplete_beta(dof1 / 2, dof2 / 2, dof1 * f / (dof2 + dof1 * f))
    return incomplete_beta(dof2 / 2, dof1 / 2, dof2 / (dof2 + dof1 * f))


def f_quantile(p: float, dof1: float, dof2: float) -> float:
    """The f below which the share `p` of F lies; 0 < p < 1, else ValueError."""
    _positive(dof1, dof2)
    share = beta_quantile(p, dof1 / 2, dof2 / 2)
    if share <= 0.5:
        return dof2 * share / (dof1 * (1.0 - share))
    rest = beta_quantile(1.0 - p, dof2 / 2, dof1 / 2)
    return dof2 * (1.0 - rest) / (dof1 * rest)


def chi2_upper_tail(x: float, dof: int) -> float:
    """P(chi-squared > x) with a whole number `dof` of degrees of freedom, 1 at least, else ValueError."""
    if dof < 1:
        raise ValueError("degrees of freedom must be positive")
    if x <= 0.0:
        return 1.0
    half = x / 2
    if dof % 2 == 0:
        logs = [i * math.log(half) - math.lgamma(i + 1) - half for i in range(dof // 2)]
        return math.fsum(map(math.exp, logs))
    logs = [(i - 0.5) * math.log(half) - math.lgamma(i + 0.5) - half for i in range(1, (dof + 1) // 2)]
    return math.erfc(math.sqrt(half)) + math.fsum(map(math.exp, logs))


def chi2_quantile(p: float, dof: int) -> float:
    """The x below which the share `p` of chi-squared lies; 0 < p < 1 and dof 1 at least, else ValueError."""
    if not 0.0 < p < 1.0:
        raise ValueError("a probability between 0 and 1 is needed")
    low, high = 0.0, dof + 10.0
    while chi2_upper_tail(high, dof) > 1.0 - p:
        high *= 2.0
    for _ in range(100):  # halved until two neighbouring numbers are left
        middle = (low + high) / 2
        if not low < middle < high:
            break
        if chi2_upper_tail(middle, dof) > 1.0 - p:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _positive(dof1: float, dof2: float) -> None:
    if not (dof1 > 0 and dof2 > 0):
        raise ValueError("degrees of freedom must be positive")
