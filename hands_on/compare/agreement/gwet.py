"""Gwet's AC1 and AC2: agreement that does not fall when nearly every dog gets the same answer.

Gwet 2008, Br. J. Math. Stat. Psychol. 61: 29-48; with weights and gaps, Gwet 2014, Handbook of Inter-Rater
Reliability, 4th ed. (formulas from memory, held against a published table).

Over which grades: the chance part falls with the number of grades there are, used or not, and the weights of
neighbours with the length of the scale. Over nine steps of which a seminar used three, AC2 would be near 1
whatever was said. So it goes over the answers `in_use` (for ordered ones from the lowest to the highest
given), two at least: a scale made longer by steps that nobody needs changes nothing.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hands_on.compare.agreement.estimate import (
    LEVEL,
    Estimate,
    Table,
    jackknife,
    pairs,
    undefined,
    why_no_interval,
)
from hands_on.compare.agreement.kappa import Weights, unweighted

__all__ = ["gwet", "gwet_error", "in_use"]


def in_use(table: Table, scale: Sequence[float]) -> list[float]:
    """The stretch of an ordered scale from the lowest to the highest grade given, two grades at least."""
    given = [scale.index(answer) for row in table for answer in row if answer is not None]
    if not given:
        return list(scale[:2])
    low, high = min(given), max(given)
    if low == high:
        low, high = (low, low + 1) if low + 1 < len(scale) else (low - 1, low)
    return list(scale[max(low, 0) : high + 1])


def gwet(
    table: Table, scale: Sequence[float], *, weights: Weights | None = None, level: float = LEVEL
) -> Estimate:
    """AC1, or with disagreement `weights` (see `compare.agreement.kappa`) AC2, over any number of evaluators.

    `scale` holds every answer there is. The interval is a jackknife over dogs (`estimate.jackknife`). Raises
    ValueError for an answer that is not on the scale.
    """
    statistic = "AC1" if weights is None else "AC2"
    counts = _counts(table, scale)
    n, comparisons = len(counts), pairs(table)
    twice = sum(sum(count) > 1 for count in counts)
    if n < 2 or not twice or len(scale) < 2:
        return undefined(statistic, n, comparisons, "few-dogs-answered")
    apart = unweighted(len(scale)) if weights is None else weights
    value = _Parts(counts, apart).value
    if value > 1.0 - _TINY:
        return Estimate(statistic, value, None, None, n, comparisons, "all-agree-alike")

    def of(some: Table) -> float | None:
        left = _counts(some, scale)
        return _Parts(left, apart).value if any(sum(count) > 1 for count in left) else None

    rows = [row for row in table if any(answer is not None for answer in row)]
    ends = jackknife(value, rows, of, level)
    if ends is None:
        return Estimate(statistic, value, None, None, n, comparisons, why_no_interval(rows))
    return Estimate(statistic, value, *ends, n, comparisons)


def gwet_error(table: Table, scale: Sequence[float], *, weights: Weights | None = None) -> float:
    """The standard error of AC1 or AC2 over many dogs (Gwet 2014)."""
    counts = _counts(table, scale)
    return _Parts(counts, unweighted(len(scale)) if weights is None else weights).error


_TINY = 1e-12


def _counts(table: Table, scale: Sequence[float]) -> list[list[int]]:
    """For each dog with an answer, how often each grade was given."""
    place = {grade: index for index, grade in enumerate(scale)}
    counts = []
    for row in table:
        count = [0] * len(scale)
        for answer in row:
            if answer is not None:
                if answer not in place:
                    raise ValueError("an answer that is not on the scale")
                count[place[answer]] += 1
        if sum(count):
            counts.append(count)
    return counts


class _Parts:
    """Observed and expected agreement of a table of counts."""

    def __init__(self, counts: Sequence[Sequence[int]], apart: Weights) -> None:
        q, n = len(apart), len(counts)
        heaviest = max(map(max, apart)) or 1.0
        agree = [[1.0 - apart[i][j] / heaviest for j in range(q)] for i in range(q)]
        self.counts = counts
        self.shares = [math.fsum(count[k] / sum(count) for count in counts) / n for k in range(q)]
        self.habit = math.fsum(map(math.fsum, agree)) / (q * (q - 1))
        self.expected = self.habit * math.fsum(share * (1 - share) for share in self.shares)
        self.alike = [_alike(count, agree) for count in counts]
        told = [share for share in self.alike if share is not None]
        self.stretch = n / len(told)
        self.value = (math.fsum(told) / len(told) - self.expected) / (1 - self.expected)

    @property
    def error(self) -> float:
        """Standard error over dogs."""
        n, value, expected = len(self.counts), self.value, self.expected
        squares = []
        for count, share in zip(self.counts, self.alike, strict=True):
            own = 0.0 if share is None else self.stretch * (share - expected) / (1 - expected)
            spread = math.fsum(c * (1 - s) for c, s in zip(count, self.shares, strict=True))
            chance = self.habit * spread / sum(count)
            squares.append((own - 2 * (1 - value) * (chance - expected) / (1 - expected) - value) ** 2)
        return math.sqrt(math.fsum(squares) / (n * (n - 1)))


def _alike(count: Sequence[int], agree: Weights) -> float | None:
    """Share of a dog's pairs of answers that agree, by weight; None with fewer than two answers."""
    m = sum(count)
    if m < 2:
        return None
    size = range(len(count))
    beside = (math.fsum(agree[i][j] * count[j] for j in size) for i in size)
    return math.fsum(count[i] * (near - 1) for i, near in enumerate(beside)) / (m * (m - 1))
