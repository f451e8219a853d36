"""Kendall's W: do several evaluators put the dogs in the same order?

W = 12 S / (m^2 (n^3 - n) - m sum(t^3 - t)), 0 for no and 1 for full concordance (Kendall, Rank Correlation
Methods, 4th ed. 1970, chapter 6). Its chance is told by chi-squared = m (n - 1) W with n - 1 degrees of
freedom, and for few dogs better by F = (m - 1) W / (1 - W) with n - 1 - 2/m and (m - 1) times as many
(Kendall and Babington Smith 1939, Ann. Math. Stat. 10: 275-287; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hands_on.compare.agreement.estimate import Estimate, Reason, Table, complete_rows, undefined
from hands_on.compare.agreement.f_and_chi_squared import chi2_upper_tail, f_upper_tail

__all__ = ["Concordance", "concordance", "mid_ranks"]

STATISTIC = "Kendall's W"

FEWEST_PLACES = 15
"""Dogs times evaluators; with fewer the chance figures are rough (a choice)."""


@dataclass(frozen=True, slots=True)
class Concordance:
    """W as an estimate (no interval), and how likely chance alone gives as much."""

    estimate: Estimate
    s: float = 0.0
    """Sum of squares of the rank sums about their mean."""
    tie_term: float = 0.0
    """sum(t^3 - t) over all ties of all evaluators."""
    chi2: float | None = None
    p_chi2: float | None = None
    p_f: float | None = None


def mid_ranks(values: Sequence[float]) -> list[float]:
    """Ranks from 1 for the smallest; equal values share the mean of their ranks."""
    order = sorted(range(len(values)), key=lambda index: values[index])
    ranks = [0.0] * len(values)
    start = 0
    while start < len(order):
        end = start
        while end + 1 < len(order) and values[order[end + 1]] == values[order[start]]:
            end += 1
        for index in order[start : end + 1]:
            ranks[index] = (start + end) / 2 + 1
        start = end + 1
    return ranks


def concordance(table: Table) -> Concordance:
    """W over places (or anything that orders); dogs that one evaluator did not place are left out."""
    rows = complete_rows(table)
    n, m = len(rows), len(rows[0]) if rows else 0
    comparisons = n * m * (m - 1) // 2
    if n < 2 or m < 2:
        lacking: Reason = "few-dogs-placed" if n < 2 else "one-evaluator"
        return Concordance(undefined(STATISTIC, n, comparisons, lacking))
    judges = [mid_ranks(column) for column in zip(*rows, strict=True)]
    sums = [math.fsum(ranks) for ranks in zip(*judges, strict=True)]
    middle = m * (n + 1) / 2
    s = math.fsum((total - middle) ** 2 for total in sums)
    ties = float(sum(count**3 - count for ranks in judges for count in _tied(ranks)))
    below = m * m * (n**3 - n) - m * ties
    if below <= 0:
        return Concordance(undefined(STATISTIC, n, comparisons, "all-tied"), s, ties)
    w = 12 * s / below
    chi2 = m * (n - 1) * w
    dof = n - 1 - 2 / m
    p_f = None
    if dof > 0:
        p_f = 0.0 if w >= 1.0 else f_upper_tail((m - 1) * w / (1 - w), dof, (m - 1) * dof)
    reason: Reason | None = None if n * m >= FEWEST_PLACES else "rough-chance"
    estimate = Estimate(STATISTIC, w, None, None, n, comparisons, reason)
    return Concordance(estimate, s, ties, chi2, chi2_upper_tail(chi2, n - 1), p_f)


def _tied(ranks: Sequence[float]) -> list[int]:
    counts: dict[float, int] = {}
    for rank in ranks:
        counts[rank] = counts.get(rank, 0) + 1
    return [count for count in counts.values() if count > 1]
