"""Kendall's W: do several evaluators put the dogs in the same order?

W = 12 S / (m^2 (n^3 - n) - m sum(t^3 - t)), 0 for no and 1 for full concordance (Kendall, Rank Correlation
Methods, 4th ed. 1970, chapter 6).

How likely chance alone gives as much: every evaluator's ranks, ties and all, fall on the dogs in any
arrangement alike; p is the share of arrangements whose S is as large. Small tables are counted out (Kendall
and Babington Smith 1939, Ann. Math. Stat. 10: 275-287, tabled such counts), larger ones drawn, the
arrangement seen counted among the drawn so that p is never 0 (Phipson and Smyth 2010, Stat. Appl. Genet.
Mol. Biol. 9: 39; from memory). The chi-squared figure m (n - 1) W is right for many dogs only
and is kept beside it.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from itertools import permutations
from typing import Literal

from hands_on.compare.agreement.estimate import Estimate, Table, complete_rows, undefined
from hands_on.compare.agreement.f_and_chi_squared import chi2_upper_tail
from hands_on.frozen import dataclass

__all__ = ["Concordance", "concordance", "mid_ranks"]

STATISTIC = "Kendall's W"

COUNTED = 60_000
"""So many sums of ranks are formed at most for counting out; beyond, arrangements are drawn."""
DRAWS = 9_999
SEED = 20240601


@dataclass(frozen=True)
class Concordance:
    """W as an estimate (no interval), and how likely chance alone gives as much."""

    estimate: Estimate
    s: float = 0.0
    """Sum of squares of the rank sums about their mean."""
    tie_term: float = 0.0
    """sum(t^3 - t) over all ties of all evaluators."""
    chi2: float | None = None
    p_chi2: float | None = None
    p: float | None = None
    """Share of chance arrangements with as large an S; never 0."""
    p_by: Literal["", "counted", "drawn"] = ""


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
        return Concordance(
            undefined(STATISTIC, n, comparisons, "few-dogs-placed" if n < 2 else "one-evaluator")
        )
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
    p, p_by = _by_chance(judges)
    estimate = Estimate(STATISTIC, w, None, None, n, comparisons)
    return Concordance(estimate, s, ties, chi2, chi2_upper_tail(chi2, n - 1), p, p_by)


def _by_chance(judges: Sequence[Sequence[float]]) -> tuple[float, Literal["counted", "drawn"]]:
    """Share of arrangements of all evaluators' ranks whose S is as large as the one seen."""
    ranks = [[round(2 * rank) for rank in judge] for judge in judges]  # mid-ranks are halves: whole numbers
    seen = _squares([sum(column) for column in zip(*ranks, strict=True)])
    counted = _count_out(ranks, seen)
    if counted is not None:
        return counted, "counted"
    chance = random.Random(SEED)
    first, *others = ranks
    as_large = 1
    for _ in range(DRAWS):
        sums = first
        for judge in others:
            sums = [total + rank for total, rank in zip(sums, chance.sample(judge, len(judge)), strict=True)]
        as_large += _squares(sums) >= seen
    return as_large / (DRAWS + 1), "drawn"


def _count_out(ranks: Sequence[Sequence[int]], seen: int) -> float | None:
    """The share by enumeration; None where that would take too long.

    S does not ask which dog has which sum, so sums are kept in order of size: what the next evaluator adds
    falls on them in any arrangement alike.
    """
    first, *others = ranks
    arrangements = math.factorial(len(first))
    states = Counter({tuple(sorted(first)): 1})
    formed = 0
    for judge in others:
        formed += arrangements * len(states)
        if formed > COUNTED:
            return None
        following = Counter[tuple[int, ...]]()
        for sums, ways in states.items():
            for arranged in permutations(judge):
                following[tuple(sorted(map(sum, zip(sums, arranged, strict=True))))] += ways
        states = following
    as_large = sum(ways for sums, ways in states.items() if _squares(sums) >= seen)
    return float(as_large / math.pow(arrangements, len(others)))


def _squares(sums: Sequence[int]) -> int:
    """Grows with S alone, the total being the same in every arrangement."""
    return sum(total * total for total in sums)


def _tied(ranks: Sequence[float]) -> list[int]:
    counts: dict[float, int] = {}
    for rank in ranks:
        counts[rank] = counts.get(rank, 0) + 1
    return [count for count in counts.values() if count > 1]
