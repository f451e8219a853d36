"""What a coefficient of agreement comes as: a value with its interval, or the reason why there is none."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from statistics import fmean
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.distributions import student_quantile

__all__ = [
    "FEWEST_FOR_INTERVAL",
    "LEVEL",
    "Estimate",
    "Reason",
    "Table",
    "complete_rows",
    "jackknife",
    "pairs",
    "undefined",
    "why_no_interval",
]

LEVEL = 0.95
"""Level of the intervals."""

FEWEST_FOR_INTERVAL = 5
"""Dogs; of fewer no interval of a judged point's coefficient keeps its level (tests/bench/coverage.py)."""

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

    Tukey's jackknife: half-width t(n - 2) sqrt((n - 1)/n sum(z - mean z)^2), z the coefficient without a dog.
    The log makes the scatter even and keeps the interval below 1; n - 2 degrees of freedom, one fewer than
    usual, and that scale were chosen by simulated coverage: a percentile bootstrap over dogs and the
    large-sample standard errors of kappa and AC2 hold the truth in 65 to 90 tables of 100 with 5 to 10 dogs,
    this one in 83 to 99 (tests/bench/coverage.py). Efron and Tibshirani 1993, An Introduction to the
    Bootstrap, chapter 11, from memory.

    None where there are too few dogs, or where without one dog nothing differs or varies any more.
    """
    n = len(rows)
    if n < FEWEST_FOR_INTERVAL or value >= 1.0 - _TINY:
        return None
    logs: list[float] = []
    for place in range(n):
        without = of([*rows[:place], *rows[place + 1 :]])
        if without is None or without >= 1.0 - _TINY:
            return None
        logs.append(math.log(1.0 - without))
    middle = fmean(logs)
    error = math.sqrt((n - 1) / n * math.fsum((z - middle) ** 2 for z in logs))
    if error < _TINY:
        return None
    reach = math.exp(student_quantile(0.5 + level / 2, n - 2) * error)
    return max(-1.0, 1.0 - (1.0 - value) * reach), 1.0 - (1.0 - value) / reach


_TINY = 1e-12


def why_no_interval(n: int) -> Reason:
    """Why `jackknife` gave none."""
    return "too-few-dogs" if n < FEWEST_FOR_INTERVAL else "one-dog-decides"
