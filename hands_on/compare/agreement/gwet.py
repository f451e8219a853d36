"""Gwet's AC1 and AC2: agreement that does not fall when nearly every dog gets the same answer.

Gwet 2008, Br. J. Math. Stat. Psychol. 61: 29-48; with weights and gaps, Gwet 2014, Handbook of Inter-Rater
Reliability, 4th ed. (formulas from memory, compared with a published table).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hands_on.compare.agreement.estimate import LEVEL, Estimate, Table, pairs, undefined
from hands_on.compare.agreement.kappa import Weights, unweighted
from hands_on.measure.distributions import student_quantile

__all__ = ["gwet"]


def gwet(
    table: Table, scale: Sequence[float], *, weights: Weights | None = None, level: float = LEVEL
) -> Estimate:
    """AC1, or with disagreement `weights` (see `compare.agreement.kappa`) AC2, over any number of evaluators.

    `scale` holds every answer there is. Raises ValueError for an answer that is not in it.
    """
    statistic = "AC1" if weights is None else "AC2"
    q = len(scale)
    place = {grade: index for index, grade in enumerate(scale)}
    counts = [[0] * q for _ in table]
    for row, count in zip(table, counts, strict=True):
        for answer in row:
            if answer is not None:
                if answer not in place:
                    raise ValueError("an answer that is not on the scale")
                count[place[answer]] += 1
    counts = [count for count in counts if sum(count)]
    n, comparisons = len(counts), pairs(table)
    twice = sum(sum(count) > 1 for count in counts)
    if n < 2 or not twice or q < 2:
        return undefined(statistic, n, comparisons, "few-dogs-answered")
    apart = unweighted(q) if weights is None else weights
    heaviest = max(map(max, apart)) or 1.0
    agree = [[1.0 - apart[i][j] / heaviest for j in range(q)] for i in range(q)]
    shares = [math.fsum(count[k] / sum(count) for count in counts) / n for k in range(q)]
    habit = math.fsum(map(math.fsum, agree)) / (q * (q - 1))
    expected = habit * math.fsum(share * (1 - share) for share in shares)
    alike = [_alike(count, agree) for count in counts]
    observed = math.fsum(share for share in alike if share is not None) / twice
    value = (observed - expected) / (1 - expected)
    error = _error(counts, alike, shares, habit, expected, value, n / twice)
    reach = student_quantile(0.5 + level / 2, n - 1) * error
    if error == 0.0:
        return Estimate(statistic, value, None, None, n, comparisons, "all-agree-alike")
    return Estimate(statistic, value, max(-1.0, value - reach), min(1.0, value + reach), n, comparisons)


def _alike(count: Sequence[int], agree: Weights) -> float | None:
    """Share of a dog's pairs of answers that agree, by weight; None with fewer than two answers."""
    m = sum(count)
    if m < 2:
        return None
    size = range(len(count))
    beside = (math.fsum(agree[i][j] * count[j] for j in size) for i in size)
    return math.fsum(count[i] * (near - 1) for i, near in enumerate(beside)) / (m * (m - 1))


def _error(
    counts: Sequence[Sequence[int]],
    alike: Sequence[float | None],
    shares: Sequence[float],
    habit: float,
    expected: float,
    value: float,
    stretch: float,
) -> float:
    """Standard error over dogs; `stretch` is all dogs over those with two answers."""
    n = len(counts)
    squares = []
    for count, share in zip(counts, alike, strict=True):
        own = 0.0 if share is None else stretch * (share - expected) / (1 - expected)
        chance = habit * math.fsum(c * (1 - s) for c, s in zip(count, shares, strict=True)) / sum(count)
        squares.append((own - 2 * (1 - value) * (chance - expected) / (1 - expected) - value) ** 2)
    return math.sqrt(math.fsum(squares) / (n * (n - 1)))
