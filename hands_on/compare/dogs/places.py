"""Places in draws of several dogs' ranks, and how far an order holds in them.

Dogs that tie in a draw are taken in every order alike, in every figure.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import permutations
from typing import Any, Protocol

from hands_on.compare.dogs.class_rank import Place
from hands_on.frozen import dataclass

__all__ = ["Column", "Places", "columns_of", "holds", "places_of"]


@dataclass(frozen=True)
class Places:
    """What draws of several dogs' ranks give; a smaller rank is better."""

    shares: tuple[tuple[float, ...], ...]
    """For each dog how often it has each place."""
    before: tuple[tuple[float, ...], ...]
    """For each dog how often it stands before each other; ties count half."""


class Ordered(Protocol):
    """What can be compared with its like: a number, a rank."""

    def __lt__(self, other: Any, /) -> bool: ...


Column = tuple[Any, ...]
"""Where every dog ranks in one draw."""


def columns_of(drawn: Sequence[Sequence[Ordered]]) -> Counter[Column]:
    """How often the draws give each order of dogs; of a row a dog. Few draws differ."""
    return Counter(zip(*drawn, strict=True))


def places_of(columns: Counter[Column]) -> Places:
    """Places in draws. Dogs that tie share their places evenly."""
    n, k = columns.total(), len(next(iter(columns)))
    dogs = range(k)
    shares = [[0.0] * k for _ in dogs]
    before = [[0.0] * k for _ in dogs]
    for column, times in columns.items():
        for dog in dogs:
            mine = column[dog]
            better = equal = 0
            for other in dogs:
                if column[other] < mine:
                    better += 1
                elif column[other] == mine:
                    equal += 1
                    before[dog][other] += 0.5 * times
                else:
                    before[dog][other] += times
            for place in range(better, better + equal):
                shares[dog][place] += times / equal
    return Places(
        tuple(tuple(x / n for x in row) for row in shares), tuple(tuple(x / n for x in row) for row in before)
    )


def holds(recorded: Sequence[Place], columns: Iterable[Column]) -> dict[Column, float]:
    """How far every dog recorded before another stays before it in each kind of draw: 1, 0, or the share of
    the orders of dogs that tie in it."""
    ahead = [(a, b) for a, x in enumerate(recorded) for b, y in enumerate(recorded) if x < y]
    return {column: _kept(column, ahead) for column in columns}


def _kept(row: Sequence[Place], ahead: Sequence[tuple[int, int]]) -> float:
    if any(row[b] < row[a] for a, b in ahead):
        return 0.0
    tied = [(a, b) for a, b in ahead if row[a] == row[b]]
    if not tied:
        return 1.0
    share = 1.0
    for value in {row[a] for a, _ in tied}:
        group = [i for i, other in enumerate(row) if other == value]
        within = [(a, b) for a, b in tied if row[a] == value]
        orders = [{dog: n for n, dog in enumerate(order)} for order in permutations(group)]
        share *= sum(all(at[a] < at[b] for a, b in within) for at in orders) / len(orders)
    return share
