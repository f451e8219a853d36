"""A shape brought to its measurements: the least change of its proportions that puts each in its place.

With J the slopes of the readings by the proportions and W the squares of how readily each gives way, the
change from the start is W J' (J W J')^-1 of what is lacking, taken anew where the last one led (Gauss and
Newton, with the least norm). A measurement that says nothing new beside those before it (height, chest and
clearance are three numbers for two places) is drawn if it agrees with them to a quarter of a per cent, else
left out and told; so is one that cannot be had beside those before it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hands_on.figure.reading import Reading
from hands_on.figure.skeleton import Shape, skeleton
from hands_on.frozen import dataclass
from hands_on.ruleset.figure import Proportion

__all__ = ["Fitted", "Wanted", "fit"]

_ROUNDS = 16
_LEAST_CHANGE = 4
"""Rounds that look for the least change; those after it close in from where these led, which is faster."""
_EXACT = 1e-5
_AGREES = 0.0025
_NOTHING_NEW = 2e-3
_STEP = 1e-4


@dataclass(frozen=True)
class Wanted:
    """What a reading has to be; those given first go before those given later."""

    name: str
    read: Reading
    value: float
    scale: float
    """What a deviation is held against: the value itself, or more where that is near nothing."""


@dataclass(frozen=True)
class Fitted:
    """The shape, and by name what it holds and what did not go with the rest."""

    shape: dict[str, float]
    drawn: tuple[str, ...]
    left_out: tuple[str, ...]


def fit(start: Shape, proportions: Mapping[str, Proportion], wanted: Sequence[Wanted]) -> Fitted:
    """The shape nearest to `start` that reads as wanted."""
    slopes = _slopes(dict(start), proportions, [name for name in proportions if name in start], wanted)
    names = [name for name in proportions if any(name in row for row in slopes)]
    free, spare = _sort_out(wanted, slopes)
    out: list[str] = []
    while True:
        shape = _solved(start, proportions, names, free)
        off = [one for one in free if _deviation(shape, one) > _EXACT * 10]
        if not off:
            break
        worst = off[-1]
        free = [one for one in free if one is not worst]
        out.append(worst.name)
    drawn = [one.name for one in free]
    for one in spare:
        (drawn if _deviation(shape, one) <= _AGREES else out).append(one.name)
    order = [one.name for one in wanted]
    return Fitted(shape, tuple(sorted(drawn, key=order.index)), tuple(sorted(out, key=order.index)))


def _deviation(shape: Shape, one: Wanted) -> float:
    return abs(one.read(shape, skeleton(shape)) - one.value) / one.scale


def _slopes(
    shape: dict[str, float], proportions: Mapping[str, Proportion], names: list[str], wanted: Sequence[Wanted]
) -> list[dict[str, float]]:
    """For each reading how it changes when a proportion gives way as much as it readily does."""
    base = skeleton(shape)
    before = [one.read(shape, base) for one in wanted]
    rows: list[dict[str, float]] = [{} for _ in wanted]
    for name in names:
        gives = proportions[name].gives
        moved = dict(shape)
        moved[name] += gives * _STEP
        at = skeleton(moved)
        for row, one, value in zip(rows, wanted, before, strict=True):
            slope = (one.read(moved, at) - value) / (_STEP * one.scale)
            if abs(slope) > 1e-9:
                row[name] = slope
    return rows


def _sort_out(
    wanted: Sequence[Wanted], slopes: Sequence[dict[str, float]]
) -> tuple[list[Wanted], list[Wanted]]:
    """Those that say something new, in order, and those that follow from the ones before them."""
    free, spare = [], []
    basis: list[dict[str, float]] = []
    for one, row in zip(wanted, slopes, strict=True):
        length = _dot(row, row) ** 0.5
        rest = dict(row)
        for unit in basis:
            share = _dot(rest, unit)
            for name, slope in unit.items():
                rest[name] = rest.get(name, 0.0) - share * slope
        left = _dot(rest, rest) ** 0.5
        if left <= _NOTHING_NEW * length:
            spare.append(one)
            continue
        free.append(one)
        basis.append({name: slope / left for name, slope in rest.items()})
    return free, spare


def _dot(one: dict[str, float], other: dict[str, float]) -> float:
    if len(other) < len(one):
        one, other = other, one
    return sum(slope * other[name] for name, slope in one.items() if name in other)


def _solved(
    start: Shape, proportions: Mapping[str, Proportion], names: list[str], wanted: Sequence[Wanted]
) -> dict[str, float]:
    shape = dict(start)
    if not wanted:
        return shape
    origin = dict(start)
    for round_ in range(_ROUNDS):
        if round_ >= _LEAST_CHANGE:
            origin = dict(shape)
        at = skeleton(shape)
        lacking = [(one.value - one.read(shape, at)) / one.scale for one in wanted]
        if max(map(abs, lacking)) < _EXACT:
            break
        rows = _slopes(shape, proportions, names, wanted)
        walked = {name: (shape[name] - origin[name]) / proportions[name].gives for name in names}
        wish = [lack + _dot(row, walked) for lack, row in zip(lacking, rows, strict=True)]
        square = [[_dot(a, b) for b in rows] for a in rows]
        for n in range(len(square)):
            square[n][n] *= 1 + 1e-10
        weights = _solve(square, wish)
        for name in names:
            change = sum(weight * row.get(name, 0.0) for weight, row in zip(weights, rows, strict=True))
            low, high = proportions[name].range
            shape[name] = min(high, max(low, origin[name] + change * proportions[name].gives))
    return shape


def _solve(square: list[list[float]], wish: list[float]) -> list[float]:
    """Solves a system of equations by elimination, the largest pivot first; a lost row gives nothing."""
    count = len(wish)
    rows = [[*square[n], wish[n]] for n in range(count)]
    for n in range(count):
        best = max(range(n, count), key=lambda k: abs(rows[k][n]))
        rows[n], rows[best] = rows[best], rows[n]
        pivot = rows[n][n]
        if abs(pivot) < 1e-14:
            continue
        for k in range(n + 1, count):
            share = rows[k][n] / pivot
            if share:
                rows[k] = [a - share * b for a, b in zip(rows[k], rows[n], strict=True)]
    found = [0.0] * count
    for n in reversed(range(count)):
        rest = rows[n][count] - sum(rows[n][k] * found[k] for k in range(n + 1, count))
        found[n] = rest / rows[n][n] if abs(rows[n][n]) >= 1e-14 else 0.0
    return found
