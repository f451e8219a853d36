"""What a coefficient of agreement comes as: a value with its interval, or the reason why there is none."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from statistics import fmean
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.distributions import student_quantile

__all__ = [
    "FEWEST_APART",
    "FEWEST_FOR_INTERVAL",
    "LEVEL",
    "Estimate",
    "Reason",
    "Table",
    "complete_rows",
    "jackknife",
    "not_rounding",
    "pairs",
    "undefined",
    "why_no_interval",
]

LEVEL = 0.95
"""Level of the intervals."""

FEWEST_FOR_INTERVAL = 5
"""Dogs; of fewer no interval of a judged point's coefficient keeps its level (tests/bench/coverage.py)."""

FEWEST_APART = 4
"""Dogs with any but the commonest answer; of fewer none keeps its level either."""

Table = Sequence[Sequence[float | None]]
"""Answers: a row a dog, a column an evaluator, None where an answer is missing."""


Reason = Literal[
    # no value
    "one-evaluator",
    "few-dogs-measured",  # fewer than two that every evaluator measured
    "few-dogs-graded",  # fewer than two that both graded
    "few-dogs-answered",  # fewer than two with two answers
    "few-dogs-placed",  # fewer than two that every evaluator placed
    "no-pairs",  # no dog has answers by two evaluators
    "no-spread",  # the readings do not vary from dog to dog
    "nothing-varies",  # all agree on one answer for all dogs
    "one-dog",  # alpha of one dog
    "all-tied",  # every evaluator ties all dogs
    # no interval
    "all-read-the-same",
    "all-graded-the-same",
    "all-pairs-agree",
    "all-agree-alike",
    "too-few-dogs",
    "nearly-all-alike",  # too few dogs got any but the commonest answer
    "one-dog-decides",  # without one dog nothing differs or varies any more
    # an interval to be careful of
    "wide-interval",
]
"""Why an estimate has no value or no interval, or what to be careful of."""


@dataclass(frozen=True)
class Estimate:
    """A coefficient of agreement.

    `value` is None where it is not defined, `low` and `high` where no interval can be given; `reason`
    then says why, or what to be careful of.
    """

    statistic: str
    value: float | None
    low: float | None
    high: float | None
    n: int
    """Dogs it rests on."""
    comparisons: int
    """Pairs of answers to the same dog that it rests on."""
    reason: Reason | None = None


def undefined(statistic: str, n: int, comparisons: int, reason: Reason) -> Estimate:
    """An estimate without a value."""
    return Estimate(statistic, None, None, None, n, comparisons, reason)


def pairs(table: Table) -> int:
    """How many pairs of answers to the same dog a table holds."""
    given = (sum(answer is not None for answer in row) for row in table)
    return sum(m * (m - 1) // 2 for m in given)


def complete_rows(table: Table) -> list[list[float]]:
    """The dogs that every evaluator answered for."""
    rows: list[list[float]] = []
    for row in table:
        full = [answer for answer in row if answer is not None]
        if len(full) == len(row):
            rows.append(full)
    return rows


def jackknife(
    value: float,
    rows: Sequence[Sequence[float | None]],
    of: Callable[[Table], float | None],
    level: float = LEVEL,
) -> tuple[float, float] | None:
    """The interval of a coefficient 1 - D, by leaving out each dog in turn, on the scale of log D.

    Half-width t((n - 1)/2) sqrt((n - 1)/n sum(z - mean z)^2 + s), z the coefficient without a dog: Tukey's
    jackknife, whose scatter is itself badly known from few dogs. So the degrees of freedom are halved, and a
    least scatter s = 0.5/m is added (5/m^2 from ten on), m the dogs that got any but the commonest answer: it
    is they who tell how often answers differ, and where none of their answers agree the jackknife sees no
    scatter. The log keeps the interval below 1. All three, and which dogs it takes, were chosen by simulated
    coverage (tests/bench/coverage.py), over dogs that vary much and little: with n - 2 degrees of freedom and
    nothing added 72 to 99 tables of 100 hold the truth, so 94 to 100. Efron and Tibshirani 1993, An
    Introduction to the Bootstrap, chapter 11, from memory.

    None where there are too few dogs, fewer than `FEWEST_APART` with any but the commonest answer, or where
    without one dog nothing differs or varies any more.
    """
    n, apart = len(rows), _apart(rows)
    if n < FEWEST_FOR_INTERVAL or apart < FEWEST_APART or value >= 1.0 - _TINY:
        return None
    logs: list[float] = []
    for place in range(n):
        without = of([*rows[:place], *rows[place + 1 :]])
        if without is None or without >= 1.0 - _TINY:
            return None
        logs.append(math.log(1.0 - without))
    middle = fmean(logs)
    error = math.sqrt((n - 1) / n * math.fsum((z - middle) ** 2 for z in logs) + _least_scatter(apart))
    reach = math.exp(student_quantile(0.5 + level / 2, (n - 1) / 2) * error)
    return max(-1.0, 1.0 - (1.0 - value) * reach), 1.0 - (1.0 - value) / reach


def _apart(rows: Table) -> int:
    """How many dogs got any but the commonest answer."""
    given = Counter(answer for row in rows for answer in row if answer is not None)
    commonest = given.most_common(1)[0][0] if given else None
    return sum(any(answer not in (None, commonest) for answer in row) for row in rows)


_TINY = 1e-12


def not_rounding(square: float, size: float) -> float:
    """A square (or a sum of squares) of numbers as large as `size`; 0 where it is rounding alone."""
    return square if square > (_TINY * size) ** 2 else 0.0


def _least_scatter(apart: int) -> float:
    """What is added to the variance of log D: by simulation, fading where many dogs tell it."""
    return 0.5 / apart * min(1.0, 10.0 / apart)


def why_no_interval(rows: Table) -> Reason:
    """Why `jackknife` gave none."""
    if len(rows) < FEWEST_FOR_INTERVAL:
        return "too-few-dogs"
    return "nearly-all-alike" if _apart(rows) < FEWEST_APART else "one-dog-decides"
