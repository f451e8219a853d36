"""Whether something moves over years: a straight line through what single dogs show, and its slope."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from statistics import fmean
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.distributions import student_quantile, upper_tail
from hands_on.ruleset.base import Sex
from hands_on.ruleset.labels import Label

__all__ = ["LEAST_DOGS", "LEAST_YEARS", "Kind", "Trend", "slope"]

LEAST_DOGS = 10
LEAST_YEARS = 3
"""Fewer dogs or years say nothing of a trend (common practice)."""


Kind = Literal["size", "graded", "evaluator"]
"""A measurement over years of birth; degrees from as asked over those, or over an evaluator's years."""


@dataclass(frozen=True)
class Trend:
    """A change a year."""

    kind: Kind
    about: str
    """The measurement's id, the evaluator's name; empty for all graded points of the dogs."""
    named: Label
    """The measurement's; else empty."""
    sex: Sex | None
    """Of the dogs measured."""
    unit: str
    n: int = 0
    years: int = 0
    """Different years among them."""
    slope: float | None = None
    """A year; None where there are too few dogs or years."""
    low: float | None = None
    high: float | None = None
    """The 95 % interval."""
    p: float | None = None
    """How often chance alone gives as much (two-sided)."""
    p_corrected: float | None = None
    """The same for all trends told together."""

    @property
    def clear(self) -> bool:
        """May it be told? Wrongly in one cohort of twenty at most, all trends together."""
        return self.p_corrected is not None and self.p_corrected <= 0.05


def slope(of: Trend, rows: Sequence[tuple[float, float]]) -> Trend:
    """The least-squares slope of values over years, `rows` being (year, value), with Student's t.

    `of` says what it is a trend of; its numbers are filled in.

    Ordinary least squares (Draper and Smith, Applied Regression Analysis, 3rd ed., 1.4); dogs are taken to be
    independent, which littermates are not quite.
    """
    n, years = len(rows), len({math.floor(year) for year, _ in rows})
    bare = replace(of, n=n, years=years)
    if n < LEAST_DOGS or years < LEAST_YEARS:
        return bare
    x0, y0 = fmean(x for x, _ in rows), fmean(y for _, y in rows)
    sxx = math.fsum((x - x0) ** 2 for x, _ in rows)
    sxy = math.fsum((x - x0) * (y - y0) for x, y in rows)
    if sxx <= 0:
        return bare
    b = sxy / sxx
    rest = math.fsum((y - y0 - b * (x - x0)) ** 2 for x, y in rows) / (n - 2)
    if rest <= 1e-18:
        return replace(bare, slope=b, low=b, high=b, p=0.0 if abs(b) > 1e-12 else 1.0)
    se = math.sqrt(rest / sxx)
    half = student_quantile(0.975, n - 2) * se
    chance = 2 * upper_tail(abs(b) / se, n - 2)
    return replace(bare, slope=b, low=b - half, high=b + half, p=chance)
