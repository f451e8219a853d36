"""Krippendorff's alpha: agreement of any number of evaluators, gaps allowed.

alpha = 1 - observed over expected disagreement (Krippendorff 2011, Computing Krippendorff's
Alpha-Reliability; Content Analysis, 2nd ed. 2004, section 11.3). Ordered grades are told apart by the
answers that lie between them: the square of the difference of their mid-ranks among all answers, which is
the ordinal metric of the source. The interval is a jackknife over dogs (`estimate.jackknife`).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import accumulate
from statistics import fmean
from typing import Literal

from hands_on.compare.agreement.estimate import (
    LEVEL,
    Estimate,
    Table,
    jackknife,
    undefined,
    why_no_interval,
)

__all__ = ["Level", "alpha"]

Level = Literal["nominal", "ordinal", "interval"]

STATISTIC = "Krippendorff's alpha"

_TINY = 1e-12


def alpha(table: Table, level: Level, *, confidence: float = LEVEL) -> Estimate:
    """Alpha of a table with its interval. Dogs with fewer than two answers are left out.

    For `nominal` any numbers may stand for the answers; for `interval` they are the readings. Of one dog
    alpha is not defined: what chance alone would give cannot be told from agreement.
    """
    units = _units(table)
    n = len(units)
    comparisons = sum(len(unit) * (len(unit) - 1) // 2 for unit in units)
    if not units:
        return undefined(STATISTIC, 0, 0, "no-pairs")
    if n == 1:
        return undefined(STATISTIC, n, comparisons, "one-dog")
    value = _value(units, level)
    if value is None:
        return undefined(STATISTIC, n, comparisons, "nothing-varies")
    if value > 1.0 - _TINY:
        return Estimate(STATISTIC, 1.0, None, None, n, comparisons, "all-pairs-agree")
    found = jackknife(value, units, lambda rows: _value(_units(rows), level), confidence)
    if found is None:
        return Estimate(STATISTIC, value, None, None, n, comparisons, why_no_interval(units))
    return Estimate(STATISTIC, value, *found, n, comparisons)


def _units(table: Table) -> list[list[float]]:
    """Each dog's answers, of the dogs with two at least."""
    units = [[answer for answer in row if answer is not None] for row in table]
    return [unit for unit in units if len(unit) > 1]


def _value(units: Sequence[Sequence[float]], level: Level) -> float | None:
    """1 - (n - 1) sum of disagreements / expected, n answers in all; None where nothing varies."""
    answers = sum(len(unit) for unit in units)
    if level == "nominal":
        counts = [Counter(unit) for unit in units]
        observed = math.fsum(
            (len(unit) ** 2 - sum(c * c for c in count.values())) / (len(unit) - 1)
            for unit, count in zip(units, counts, strict=True)
        )
        each = sum(counts, Counter[float]())
        expected = float(answers**2 - sum(c * c for c in each.values()))
    else:
        scores = _scores(units, level)
        observed = math.fsum(
            2 * len(unit) * math.fsum((x - fmean(unit)) ** 2 for x in unit) / (len(unit) - 1)
            for unit in scores
        )
        total = math.fsum(x for unit in scores for x in unit)
        squares = math.fsum(x * x for unit in scores for x in unit)
        expected = 2 * (answers * squares - total**2)
    if expected <= _TINY * answers * answers:
        return None
    return 1.0 - (answers - 1) * observed / expected


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
