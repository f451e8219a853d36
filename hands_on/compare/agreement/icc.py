"""Intraclass correlation: how much of the spread of readings is between dogs.

Two-way, evaluators a sample of all who might measure, and their level counts: ICC(2,1). Formulas and
intervals: Shrout and Fleiss 1979, Psychol. Bull. 86: 420-428; McGraw and Wong 1996, Psychol. Methods 1:
30-46, table 7 (the same intervals). Negative estimates are possible and are shown.
"""

from __future__ import annotations

import math
from statistics import fmean

from hands_on.compare.agreement.estimate import (
    FEWEST_FOR_INTERVAL,
    LEVEL,
    Estimate,
    Reason,
    Table,
    complete_rows,
    not_rounding,
    undefined,
)
from hands_on.compare.agreement.f_and_chi_squared import f_quantile
from hands_on.frozen import dataclass

__all__ = ["MeanSquares", "icc", "icc_forms", "mean_squares"]

STATISTIC = "ICC(2,1)"

_TINY = 1e-12


@dataclass(frozen=True)
class MeanSquares:
    """Two-way analysis of variance of n dogs by k evaluators, one reading in each cell."""

    n: int
    k: int
    dogs: float
    within: float
    evaluators: float
    error: float


def mean_squares(rows: list[list[float]]) -> MeanSquares:
    """Mean squares of a full table. Raises ValueError for fewer than two dogs or evaluators."""
    n, k = len(rows), len(rows[0]) if rows else 0
    if n < 2 or k < 2:
        raise ValueError("two dogs and two evaluators at least are needed")
    grand = fmean(value for row in rows for value in row)
    centred = [[value - grand for value in row] for row in rows]
    size = max(abs(value) for row in rows for value in row)
    dogs = not_rounding(k * math.fsum(fmean(row) ** 2 for row in centred), size)
    evaluators = not_rounding(
        n * math.fsum(fmean(column) ** 2 for column in zip(*centred, strict=True)), size
    )
    total = not_rounding(math.fsum(value * value for row in centred for value in row), size)
    within = math.fsum((value - fmean(row)) ** 2 for row in centred for value in row)
    error = within - evaluators
    if error <= _TINY * total or not not_rounding(error, size):
        error = 0.0  # rounding alone
    return MeanSquares(
        n, k, dogs / (n - 1), within / (n * (k - 1)), evaluators / (k - 1), error / ((n - 1) * (k - 1))
    )


def icc_forms(rows: list[list[float]]) -> dict[str, float]:
    """The six forms of Shrout and Fleiss: `1,1`, `2,1`, `3,1`, `1,k`, `2,k`, `3,k`.

    Raises ValueError as `mean_squares`, and where the readings do not vary.
    """
    m = mean_squares(rows)
    n, k = m.n, m.k
    shift = (m.evaluators - m.error) / n
    ratios = {
        "1,1": (m.dogs - m.within, m.dogs + (k - 1) * m.within),
        "2,1": (m.dogs - m.error, m.dogs + (k - 1) * m.error + k * shift),
        "3,1": (m.dogs - m.error, m.dogs + (k - 1) * m.error),
        "1,k": (m.dogs - m.within, m.dogs),
        "2,k": (m.dogs - m.error, m.dogs + shift),
        "3,k": (m.dogs - m.error, m.dogs),
    }
    if any(below == 0.0 for _, below in ratios.values()):
        raise ValueError("readings that do not vary have no intraclass correlation")
    return {form: above / below for form, (above, below) in ratios.items()}


def icc(table: Table, level: float = LEVEL) -> Estimate:
    """ICC(2,1) of the dogs that every evaluator measured, with its interval."""
    rows = complete_rows(table)
    n, k = len(rows), len(rows[0]) if rows else 0
    comparisons = n * k * (k - 1) // 2
    if n < 2 or k < 2:
        return undefined(STATISTIC, n, comparisons, "few-dogs-measured" if n < 2 else "one-evaluator")
    m = mean_squares(rows)
    below = m.dogs + (k - 1) * m.error + k * (m.evaluators - m.error) / n
    if below <= 0.0 or (m.dogs == 0.0 and m.error == 0.0):
        return undefined(STATISTIC, n, comparisons, "no-spread")
    value = (m.dogs - m.error) / below
    if m.error == 0.0 and m.evaluators <= _TINY * m.dogs:
        return Estimate(STATISTIC, 1.0, None, None, n, comparisons, "all-read-the-same")
    low, high = _interval(m, value, level)
    careful: Reason | None = "wide-interval" if n < FEWEST_FOR_INTERVAL else None
    return Estimate(STATISTIC, value, low, high, n, comparisons, careful)


def _interval(m: MeanSquares, rho: float, level: float) -> tuple[float, float]:
    """The interval of ICC(2,1), multiplied through by the error mean square so that it may be 0."""
    n, k = m.n, m.k
    rest = n * (1 + (k - 1) * rho) - k * rho
    above = (k - 1) * (n - 1) * (k * rho * m.evaluators + rest * m.error) ** 2
    below = (n - 1) * (k * rho * m.evaluators) ** 2 + (rest * m.error) ** 2
    # With rho 0 and no error both vanish; one evaluator's shift is then all there is.
    dof = above / below if below > 0.0 else float(k - 1)
    dof = max(dof, 1e-3)
    p = 0.5 + level / 2
    f_low, f_high = f_quantile(p, n - 1, dof), f_quantile(p, dof, n - 1)
    spread = k * m.evaluators + (k * n - k - n) * m.error
    low = n * (m.dogs - f_low * m.error) / (f_low * spread + n * m.dogs)
    high = n * (f_high * m.dogs - m.error) / (spread + n * f_high * m.dogs)
    return max(-1.0, low), min(1.0, high)
