"""A share of dogs with its interval."""

from __future__ import annotations

import math

from hands_on.frozen import dataclass
from hands_on.measure.distributions import normal_quantile

__all__ = ["FEW", "LEVEL", "Share", "wilson"]

LEVEL = 0.95

FEW = 10
"""Fewer dogs say little of others (common practice)."""


@dataclass(frozen=True)
class Share:
    """`count` of `n` dogs."""

    count: int
    n: int
    low: float
    high: float

    @property
    def value(self) -> float:
        """The share itself; 0 of no dogs."""
        return self.count / self.n if self.n else 0.0

    @property
    def few(self) -> bool:
        """Too few dogs to say much of others?"""
        return self.n < FEW


def wilson(count: int, n: int, level: float = LEVEL) -> Share:
    """`count` of `n` with Wilson's score interval (Wilson 1927, J. Am. Stat. Assoc. 22: 209-212).

    Of no dogs the interval is everything. Raises ValueError for counts that can't be.
    """
    if n < 0 or not 0 <= count <= n:
        raise ValueError(f"{count} of {n} is no share")
    if n == 0:
        return Share(0, 0, 0.0, 1.0)
    z = normal_quantile(1 - (1 - level) / 2)
    p, zz = count / n, z * z
    middle = (p + zz / (2 * n)) / (1 + zz / n)
    half = z / (1 + zz / n) * math.sqrt(p * (1 - p) / n + zz / (4 * n * n))
    return Share(count, n, max(0.0, middle - half), min(1.0, middle + half))
