"""Can all takes of one measurement be right? If not, nothing is judged on them.

Takes by one hand differ by its repeatability. n takes contradict each other when the largest less the
smallest exceeds the 99 % point of the studentised range times that repeatability (the critical range of
ISO 5725-6, 5.2, from memory; there at 95 % and with the repeatability known). Here the repeatability is
itself good to a quarter of itself, which 8 degrees of freedom stand for (JCGM 100:2008, G.4.2). Honest takes
then are called contradictory once in a hundred measurements, takes that merely lie far apart are told
(`measure.takes.take_alarms`) and judged with the wider spread they have.

From three takes on one may be the odd one: where the others agree with each other, and only one choice of the
odd one makes them agree, it is set aside, and that is told. Of two takes neither is the odd one.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from hands_on.frozen import dataclass

__all__ = ["Concordance", "concordance", "contradictory_range_factor"]

# 99 % points of the studentised range, n = 2 to 20 values, 8 degrees of freedom
_RANGE = (
    4.745, 5.635, 6.204, 6.625, 6.960, 7.237, 7.474, 7.681, 7.863, 8.027, 8.176, 8.312, 8.437, 8.552, 8.659,
    8.760, 8.854, 8.943, 9.027,
)  # fmt: skip


@dataclass(frozen=True)
class Concordance:
    """Takes together: they ``agree``, one is set ``aside`` (its number from 0), or they ``contradict``."""

    kind: Literal["agree", "aside", "contradict"]
    aside: int | None = None
    apart: float = 0.0
    allowed: float = 0.0


def contradictory_range_factor(n: int) -> float:
    """By how many repeatability standard deviations n takes must lie apart to contradict each other.

    For more than 20 takes the figure of 20 is used. Raises ValueError for n < 2.
    """
    if n < 2:
        raise ValueError("a range needs two takes at least")
    return _RANGE[min(n, 20) - 2]


def concordance(values: Sequence[float], sigma_r: float, resolution: float = 0.0) -> Concordance:
    """Whether takes can all be right; ``sigma_r`` is the repeatability expected before they were taken."""
    if _agree(values, sigma_r, resolution):
        return Concordance("agree")
    apart = max(values) - min(values)
    allowed = _allowed(len(values), sigma_r, resolution)
    if len(values) > 2:
        odd = [
            place
            for place in range(len(values))
            if _agree([value for n, value in enumerate(values) if n != place], sigma_r, resolution)
        ]
        if len(odd) == 1:
            return Concordance("aside", odd[0], apart, allowed)
    return Concordance("contradict", None, apart, allowed)


def _agree(values: Sequence[float], sigma_r: float, resolution: float) -> bool:
    if len(values) < 2:
        return True
    return max(values) - min(values) <= _allowed(len(values), sigma_r, resolution) + 1e-9


def _allowed(n: int, sigma_r: float, resolution: float) -> float:
    return max(contradictory_range_factor(n) * sigma_r, 2.0 * resolution)
