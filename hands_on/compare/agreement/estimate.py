"""What a coefficient of agreement comes as: a value with its interval, or the reason why there is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

__all__ = [
    "FEWEST_FOR_INTERVAL",
    "LEVEL",
    "Estimate",
    "Reason",
    "Table",
    "complete_rows",
    "pairs",
    "undefined",
]

LEVEL = 0.95
"""Level of the intervals."""

FEWEST_FOR_INTERVAL = 5
"""Dogs; fewer say nothing of how far a coefficient of judged points scatters (a choice)."""

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
    "all-tied",  # every evaluator ties all dogs
    # no interval
    "all-read-the-same",
    "all-graded-the-same",
    "all-pairs-agree",
    "all-agree-alike",
    "too-few-dogs",
    "varies-in-too-few",
    # an interval, or a chance, to be careful of
    "wide-interval",
    "rough-interval",
    "rough-chance",
]
"""Why an estimate has no value or no interval, or what to be careful of."""


@dataclass(frozen=True, slots=True)
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
