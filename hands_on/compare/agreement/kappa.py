"""Kappa: agreement of grades or choices beyond what the evaluators' habits alone would give.

Cohen 1960, Educ. Psychol. Meas. 20: 37-46; weighted, Cohen 1968, Psychol. Bull. 70: 213-220; standard
error, Fleiss, Cohen and Everitt 1969, Psychol. Bull. 72: 323-327; many evaluators, Fleiss 1971, Psychol.
Bull. 76: 378-382. The list of grades must be the whole scale, not only the grades that occur. The standard
error is that of many dogs; the interval of a few is a jackknife over dogs (`estimate.jackknife`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hands_on.compare.agreement.estimate import (
    LEVEL,
    Estimate,
    Table,
    complete_rows,
    jackknife,
    undefined,
    why_no_interval,
)

__all__ = ["Weights", "kappa_of_table", "linear", "quadratic", "unweighted", "weighted_kappa"]

Weights = Sequence[Sequence[float]]
"""Disagreement weights: 0 on the diagonal, more the farther apart."""

_TINY = 1e-12


def unweighted(k: int) -> list[list[float]]:
    """Every disagreement counts the same."""
    return [[float(i != j) for j in range(k)] for i in range(k)]


def linear(k: int) -> list[list[float]]:
    """A disagreement counts by its steps."""
    return [[float(abs(i - j)) for j in range(k)] for i in range(k)]


def quadratic(k: int) -> list[list[float]]:
    """A disagreement counts by the square of its steps."""
    return [[float((i - j) ** 2) for j in range(k)] for i in range(k)]


def kappa_of_table(counts: Sequence[Sequence[int]], weights: Weights) -> tuple[float, float] | None:
    """Kappa and its standard error from a square table of counts; None where it is 0/0.

    Raises ValueError for an empty table.
    """
    total = sum(map(sum, counts))
    if total < 1:
        raise ValueError("an empty table")
    size = range(len(counts))
    heaviest = max(max(row) for row in weights) or 1.0
    agree = [[1.0 - weights[i][j] / heaviest for j in size] for i in size]
    p = [[counts[i][j] / total for j in size] for i in size]
    rows = [math.fsum(p[i]) for i in size]
    columns = [math.fsum(p[i][j] for i in size) for j in size]
    observed = math.fsum(agree[i][j] * p[i][j] for i in size for j in size)
    expected = math.fsum(agree[i][j] * rows[i] * columns[j] for i in size for j in size)
    if 1.0 - expected < _TINY:
        return None
    by_row = [math.fsum(columns[j] * agree[i][j] for j in size) for i in size]
    by_column = [math.fsum(rows[i] * agree[i][j] for i in size) for j in size]
    inner = math.fsum(
        p[i][j] * (agree[i][j] * (1 - expected) - (by_row[i] + by_column[j]) * (1 - observed)) ** 2
        for i in size
        for j in size
    )
    variance = (inner - (observed * expected - 2 * expected + observed) ** 2) / (total * (1 - expected) ** 4)
    return (observed - expected) / (1 - expected), math.sqrt(max(0.0, variance))


def weighted_kappa(
    table: Table, scale: Sequence[float], *, weights: Weights | None = None, level: float = LEVEL
) -> Estimate:
    """Quadratic-weighted kappa of two evaluators, or with other `weights`.

    `scale` holds every grade there is, in order. Dogs that one of them did not grade are left out.
    Raises ValueError for a grade that is not on the scale, and unless there are two columns.
    """
    statistic = "weighted kappa" if weights is None else "kappa"
    if any(len(row) != 2 for row in table):
        raise ValueError("kappa compares two evaluators")
    rows = complete_rows(table)
    chosen = quadratic(len(scale)) if weights is None else weights
    counts = _counts(rows, scale)
    n = len(rows)
    if n < 2:
        return undefined(statistic, n, n, "few-dogs-graded")
    found = kappa_of_table(counts, chosen)
    if found is None:
        return undefined(statistic, n, n, "nothing-varies")
    value, _ = found
    if value > 1.0 - _TINY:
        return Estimate(statistic, 1.0, None, None, n, n, "all-graded-the-same")

    def of(some: Table) -> float | None:
        left = kappa_of_table(_counts(complete_rows(some), scale), chosen)
        return None if left is None else left[0]

    ends = jackknife(value, rows, of, level)
    if ends is None:
        return Estimate(statistic, value, None, None, n, n, why_no_interval(rows))
    return Estimate(statistic, value, *ends, n, n)


def _counts(rows: Sequence[Sequence[float]], scale: Sequence[float]) -> list[list[int]]:
    """How often each pair of grades was given. Raises ValueError for a grade off the scale."""
    place = {grade: index for index, grade in enumerate(scale)}
    counts = [[0] * len(scale) for _ in scale]
    for first, second in rows:
        if first not in place or second not in place:
            raise ValueError("a grade that is not on the scale")
        counts[place[first]][place[second]] += 1
    return counts
