"""Many comparisons at once: error rates that hold for all of them together, not for each alone."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["benjamini_hochberg", "holm"]


def holm(p: Sequence[float]) -> list[float]:
    """Adjusted probabilities: where those at or under 0.05 are called, any is wrong 5 % of the time at most.

    Whatever the comparisons have to do with each other (Holm 1979, Scand. J. Stat. 6: 65-70). In the order
    given.
    """
    adjusted = [0.0] * len(p)
    highest = 0.0
    for left, place in zip(range(len(p), 0, -1), sorted(range(len(p)), key=lambda n: p[n]), strict=True):
        highest = max(highest, min(1.0, left * p[place]))
        adjusted[place] = highest
    return adjusted


def benjamini_hochberg(p: Sequence[float]) -> list[float]:
    """Adjusted probabilities: of those at or under 0.05, 5 % at most are called wrongly, on average.

    For comparisons that are independent or positively related (Benjamini and Hochberg 1995, J. R. Stat.
    Soc. B 57: 289-300). In the order given.
    """
    adjusted = [0.0] * len(p)
    lowest = 1.0
    ranked = sorted(range(len(p)), key=lambda n: p[n])
    for rank, place in reversed(list(enumerate(ranked, 1))):
        lowest = min(lowest, p[place] * len(p) / rank)
        adjusted[place] = lowest
    return adjusted
