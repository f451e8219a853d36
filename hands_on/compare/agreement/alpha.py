"""Krippendorff's alpha: agreement of any number of evaluators, gaps allowed.

alpha = 1 - observed over expected disagreement (Krippendorff 2011, Computing Krippendorff's
Alpha-Reliability; Content Analysis, 2nd ed. 2004, section 11.3). Ordered grades are told apart by the
answers that lie between them: the square of the difference of their mid-ranks among all answers, which is
the ordinal metric of the source. The interval is a percentile bootstrap over dogs with a fixed seed; the
mid-ranks are those of the table at hand in every resample.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import accumulate
from operator import itemgetter
from statistics import fmean
from typing import Any, Literal

from hands_on.compare.agreement.estimate import FEWEST_FOR_INTERVAL, LEVEL, Estimate, Table, undefined

__all__ = ["SEED", "Level", "alpha"]

Level = Literal["nominal", "ordinal", "interval"]

STATISTIC = "Krippendorff's alpha"

RESAMPLES = 1000
SEED = 20240601

_TINY = 1e-12


def alpha(
    table: Table, level: Level, *, resamples: int = RESAMPLES, seed: int = SEED, confidence: float = LEVEL
) -> Estimate:
    """Alpha of a table with its interval. Dogs with fewer than two answers are left out.

    For `nominal` any numbers may stand for the answers; for `interval` they are the readings.
    """
    units = [[answer for answer in row if answer is not None] for row in table]
    units = [unit for unit in units if len(unit) > 1]
    n = len(units)
    comparisons = sum(len(unit) * (len(unit) - 1) // 2 for unit in units)
    if not units:
        return undefined(STATISTIC, 0, 0, "no-pairs")
    parts = _nominal_parts(units) if level == "nominal" else _numeric_parts(_scores(units, level))
    value = parts.alpha([math.fsum(column) for column in parts.columns])
    if value is None:
        return undefined(STATISTIC, n, comparisons, "nothing-varies")
    if value > 1.0 - _TINY:
        return Estimate(STATISTIC, 1.0, None, None, n, comparisons, "all-pairs-agree")
    if n < FEWEST_FOR_INTERVAL:
        return Estimate(STATISTIC, value, None, None, n, comparisons, "too-few-dogs")
    found = [parts.alpha([sum(draw(c)) for c in parts.columns]) for draw in _draws(n, resamples, seed)]
    values = sorted(one for one in found if one is not None)
    if not values or 2 * len(values) < resamples:
        return Estimate(STATISTIC, value, None, None, n, comparisons, "varies-in-too-few")
    low, high = (_quantile(values, p) for p in ((1 - confidence) / 2, (1 + confidence) / 2))
    return Estimate(STATISTIC, value, low, high, n, comparisons)


class _Parts:
    """A table's dogs as columns of numbers whose sums give alpha; a resample only sums other dogs.

    The first column is each dog's disagreement over its pairs, divided by its answers less one; the
    second how many answers it has; the others are what the expected disagreement is made of.
    """

    def __init__(
        self, columns: Sequence[Sequence[float]], spread: Callable[[float, Sequence[float]], float]
    ) -> None:
        self.columns = columns
        self._spread = spread

    def alpha(self, sums: Sequence[float]) -> float | None:
        """1 - (n - 1) sum of disagreements / expected; None where nothing varies."""
        observed, answers, *rest = sums
        expected = self._spread(answers, rest)
        if expected <= _TINY * answers * answers:
            return None
        return 1.0 - (answers - 1) * observed / expected


def _nominal_parts(units: Sequence[Sequence[float]]) -> _Parts:
    counts = [Counter(unit) for unit in units]
    names = sorted(set().union(*counts))
    apart = [
        (len(unit) ** 2 - sum(c * c for c in count.values())) / (len(unit) - 1)
        for unit, count in zip(units, counts, strict=True)
    ]
    columns = [apart, [float(len(unit)) for unit in units]]
    columns += [[float(count[name]) for count in counts] for name in names]
    return _Parts(columns, lambda answers, each: answers**2 - sum(c * c for c in each))


def _numeric_parts(units: Sequence[Sequence[float]]) -> _Parts:
    sums = [math.fsum(unit) for unit in units]
    squares = [math.fsum(x * x for x in unit) for unit in units]
    apart = []
    for unit in units:
        middle = fmean(unit)
        apart.append(2 * len(unit) * math.fsum((x - middle) ** 2 for x in unit) / (len(unit) - 1))
    columns = [apart, [float(len(unit)) for unit in units], sums, squares]
    return _Parts(columns, lambda answers, each: 2 * (answers * each[1] - each[0] ** 2))


def _scores(units: Sequence[Sequence[float]], level: Level) -> list[list[float]]:
    """Answers as numbers whose differences are the metric, centred and scaled to keep the digits."""
    if level == "ordinal":
        counts = Counter(answer for unit in units for answer in unit)
        order = sorted(counts)
        ends = accumulate(counts[name] for name in order)
        rank = {name: end - counts[name] / 2 for name, end in zip(order, ends, strict=True)}
        units = [[rank[answer] for answer in unit] for unit in units]
    middle = fmean(x for unit in units for x in unit)
    widest = max(abs(x - middle) for unit in units for x in unit) or 1.0
    return [[(x - middle) / widest for x in unit] for unit in units]


@lru_cache(maxsize=32)
def _draws(n: int, resamples: int, seed: int) -> list[Callable[[Sequence[Any]], tuple[Any, ...]]]:
    """The same resamples of n dogs for every point: which dogs each holds, as a function that picks them."""
    chance = random.Random(seed)
    return [itemgetter(*chance.choices(range(n), k=n)) for _ in range(resamples)]


def _quantile(ordered: Sequence[float], p: float) -> float:
    """Linear between order statistics (Hyndman and Fan 1996, definition 7)."""
    place = p * (len(ordered) - 1)
    below = math.floor(place)
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (place - below) * (ordered[above] - ordered[below])
