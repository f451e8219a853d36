"""Who leans which way: each evaluator against the others on the same dogs, with its uncertainty.

Whoever is named is named wrongly in at most one seminar of twenty. Each lean is held against Student's t
over dogs, by the spread that this hand shows there and at all points (`compare.agreement.scatter`); no equal
hands are asked for. It passes two questions, each corrected for its number by Holm's method
(`compare.several.holm`): does anybody lean at this point, over all points and evaluators; and who, over the
evaluators at such points. One who leans drags the mean of the others along. So who it is counts only as far
as it stands whichever of the others is left out: the largest of those probabilities is its own
(intersection and union of hypotheses, Berger 1982, Technometrics 24: 295-300, from memory), and one who
leans names nobody else. The same goes for the strictness of the evaluators; the four share the 5 % in
quarters.

Then evaluators are named one at a time, the plainest first, and whoever is named at a point is no longer
among those the rest are held against. Of two who are left nobody can say which of them leans, and neither is
named; of two in all, both are. Where two or more lean the same way at one point, a third may be named in
their stead. The rates are shown by tests/bench/seminars.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from statistics import fmean

from hands_on.compare.agreement.scatter import Scatter, scatter
from hands_on.compare.answer import Answer
from hands_on.compare.several import holm
from hands_on.frozen import dataclass
from hands_on.measure.distributions import upper_tail
from hands_on.measure.gum import resolution_u
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point

__all__ = ["FAMILIES", "Lean", "leans", "strictness"]

LEVEL = 0.95

FEWEST_DOGS = 4
"""Of fewer their own spread alone counts: where points differ very much, three with the spread of all of them
name somebody wrongly in six seminars of a hundred (tests/bench/seminars.py)."""

FAMILIES = 4
"""Whether somebody leans, and who, at the points and in strictness: they share the 5 % in quarters."""

Tables = Mapping[str, tuple[Point, Sequence[Sequence[Answer | None]]]]
"""For each point its answers: a row a dog, a column an evaluator."""


@dataclass(frozen=True)
class Lean:
    """An evaluator less the mean of the others on the same dogs, over dogs."""

    evaluator: str
    point: str
    """Empty, as the label, for all graded points together."""
    label: str
    value: float
    """In the point's unit, or in degrees (less is negative, more positive)."""
    u: float | None
    """Standard uncertainty from the spread over dogs, there and at all points, that there never below the
    instrument's step (or the step of the scale); None for a single dog."""
    n: int
    """Dogs that it rests on."""
    unit: str = ""
    faults: tuple[str, ...] = ()
    """Of a graded point: labels of what was graded heavier or lighter than by the others."""
    heavier: bool = True
    p: float | None = None
    """How often chance alone gives as much, for this lean alone (two-sided); None for a single dog."""
    p_corrected: float | None = None
    """The same for all leans together, and where somebody leans, that it is this one."""
    clear: bool = False
    """May the evaluator be named? Wrongly at most once in twenty seminars."""


Named = frozenset[tuple[int, str]]
"""Evaluators, by their place, named at a point already."""

Test = Callable[[frozenset[int]], Lean | None]
"""The lean of one evaluator at a point against those given."""


def leans(evaluators: Sequence[str], tables: Tables, label: Callable[[str], str]) -> tuple[Lean, ...]:
    """Every evaluator's lean at every point that can be ordered; `label` names a fault.

    The value is against those of the others who were not named at the point before.
    """

    gaps = _Gaps(tables)

    def against(key: tuple[int, str], _: frozenset[int]) -> Test:
        place, name = key
        return partial(_lean, evaluators[place], *tables[name], place, label, gaps)

    keys = [(place, name) for name in tables for place in range(len(evaluators))]
    return _one_by_one(keys, against, len(evaluators))


def strictness(evaluators: Sequence[str], tables: Tables) -> tuple[Lean, ...]:
    """How much heavier each evaluator grades what is amiss, against the others, in degrees a point.

    Which way a dog departs is told by a third evaluator, each in turn, and the first is held against the
    rest: were one's own distance from as asked taken, a hand that scatters more would pass for a strict one.
    Of two evaluators the distances are all there is, and neither is named. For each dog the sum over its
    graded points, divided by how many departures a dog has on average; then as `leans`, over dogs.
    """
    rows = [
        (dog, [_number(answer) for answer in row])
        for _, table in tables.values()
        for dog, row in enumerate(table)
    ]

    def against(key: tuple[int, str], others: frozenset[int]) -> Test:
        return partial(_strict, evaluators[key[0]], key[0], others, rows)

    return _one_by_one([(place, "") for place in range(len(evaluators))], against, len(evaluators))


def _one_by_one(
    keys: Sequence[tuple[int, str]],
    against: Callable[[tuple[int, str], frozenset[int]], Test],
    evaluators: int,
) -> tuple[Lean, ...]:
    """Leans with corrected probabilities, the plainest named first and then left out of the others' mean."""
    found: dict[tuple[int, str], Lean] = {}
    named: Named = frozenset()
    again = set(keys)
    while True:
        for key in keys:
            # Named leans stay as they were named; so does one for whom nobody is left to be held against.
            others = _others(key, named, evaluators)
            one = against(key, others)(others) if key in again and key not in named else None
            if one is not None:
                found[key] = one
        alone = {key: found[key].p or 0.0 for key in keys if key in found and found[key].p is not None}
        somebody = dict(zip(alone, holm(list(alone.values())), strict=True))
        where = {key[1] for key, p in somebody.items() if FAMILIES * p <= 1.0 - LEVEL}
        at = [key for key in alone if key[1] in where and key not in named]
        left = [_whoever_is_left_out(found[key], against, key, _others(key, named, evaluators)) for key in at]
        who = dict(zip(at, holm(left), strict=True))
        for key in alone:
            if key not in named:
                p = min(1.0, FAMILIES * max(somebody[key], who.get(key, 0.0)))
                found[key] = replace(found[key], p_corrected=p)
        plain = [
            key
            for key in at
            if (found[key].p_corrected or 0.0) <= 1.0 - LEVEL
            and (evaluators == 2 or evaluators - sum(point == key[1] for _, point in named) > 2)
        ]
        if not plain:
            return tuple(found[key] for key in keys if key in found)
        plainest = min(plain, key=lambda key: (alone[key], key))
        found[plainest] = replace(found[plainest], clear=True)
        named |= {plainest}
        again = {key for key in keys if key[1] == plainest[1]}


def _others(key: tuple[int, str], named: Named, evaluators: int) -> frozenset[int]:
    """Those whom one is held against at a point."""
    return frozenset(n for n in range(evaluators) if n != key[0] and (n, key[1]) not in named)


def _whoever_is_left_out(
    found: Lean,
    against: Callable[[tuple[int, str], frozenset[int]], Test],
    key: tuple[int, str],
    others: frozenset[int],
) -> float:
    """The largest p of a lean there is where one of the others is left out; 1 for one between the others."""
    test = against(key, others)
    left = [test(others - {other}) for other in sorted(others)] if len(others) > 1 else [found]
    told = [one for one in left if one is not None]
    if any(one.value * found.value < 0 for one in told):
        return 1.0
    return max((one.p for one in told if one.p is not None), default=1.0)


def _strict(
    evaluator: str,
    place: int,
    others: frozenset[int],
    rows: Sequence[tuple[int, Sequence[float | None]]],
    held: frozenset[int],
) -> Lean | None:
    """How strict one is against those `held`, over dogs; None where nobody departs."""
    by_dog: dict[int, list[float]] = {}
    for dog, row in rows:
        by_dog.setdefault(dog, []).extend(_heavier(row, place, others, held))
    told = fmean(map(len, by_dog.values())) if by_dog else 0.0
    if not told:
        return None
    # Divided dog by dog, those where the others saw little would weigh most: all would seem strict.
    means = [math.fsum(gaps) / told for gaps in by_dog.values()]
    found = _tested(evaluator, "", "", means, 1.0 / told, "degree", Scatter())
    return found if len(rows[0][1]) > 2 else replace(found, p=None)


def _heavier(
    row: Sequence[float | None], place: int, others: frozenset[int], held: frozenset[int]
) -> list[float]:
    """How much farther out than those `held` one went at a dog, on the side that a third found it on."""
    own = row[place]
    rest = {n: x for n in others if (x := row[n]) is not None}
    if own is None or not rest:
        return []
    if len(row) == 2:
        return [abs(own) - abs(fmean(rest.values()))]
    gaps = []
    for third, told in rest.items():
        against = [x for n, x in rest.items() if n != third and n in held]
        if told and against:
            gaps.append(math.copysign(1.0, told) * (own - fmean(against)))
    return gaps


def _number(answer: Answer | None) -> float | None:
    if answer is None:
        return None
    return answer.value if answer.value is not None else answer.position


def _gap(row: Sequence[float | None], place: int, others: frozenset[int]) -> float | None:
    """One's own number less the mean of the others', at one dog."""
    own = row[place]
    rest = [x for n, x in enumerate(row) if n in others and x is not None]
    return own - fmean(rest) if own is not None and rest else None


class _Gaps:
    """One's numbers less the mean of others', at every point, and how they scatter."""

    def __init__(self, tables: Tables) -> None:
        self._points = {name: point for name, (point, _) in tables.items()}
        self._rows = {
            name: [[_number(answer) for answer in row] for row in rows] for name, (_, rows) in tables.items()
        }
        self._at: dict[tuple[str, int, frozenset[int]], tuple[list[float], list[float]]] = {}
        self._scatter: dict[tuple[bool, int, frozenset[int]], Scatter] = {}

    def at(self, name: str, place: int, others: frozenset[int]) -> tuple[list[float], list[float]]:
        """The gaps at a point, one a dog, and one's own numbers there."""
        key = name, place, others
        if key not in self._at:
            told = ((_gap(row, place, others), row[place] or 0.0) for row in self._rows[name])
            kept = [(gap, own) for gap, own in told if gap is not None]
            self._at[key] = [gap for gap, _ in kept], [own for _, own in kept]
        return self._at[key]

    def scatter(self, point: Point, place: int, others: frozenset[int]) -> Scatter:
        """How one scatters at points of this kind, in degrees or shares of a careful take's error."""
        measured = isinstance(point, MeasurePoint)
        key = measured, place, others
        if key not in self._scatter:
            squares = []
            for name, one in self._points.items():
                gaps, own = self.at(name, place, others)
                if isinstance(one, MeasurePoint) != measured or len(gaps) < 2:
                    continue
                found = _sd(gaps)
                # Where nothing varies nothing is told of the scatter at points where something does.
                if found > resolution_u(_step(one)):
                    squares.append(((found / _size(one, own)) ** 2, len(gaps) - 1))
            self._scatter[key] = scatter(squares)
        return self._scatter[key]


def _step(point: Point) -> float:
    return point.resolution if isinstance(point, MeasurePoint) else 1.0


def _size(point: Point, values: Sequence[float]) -> float:
    """What scatter is told as a share of: a careful take's error, or a degree."""
    if not isinstance(point, MeasurePoint):
        return 1.0
    return math.hypot(point.u.a, point.u.b * fmean(values)) or 1.0


def _lean(
    evaluator: str,
    point: Point,
    table: Sequence[Sequence[Answer | None]],
    place: int,
    label: Callable[[str], str],
    gaps: _Gaps,
    others: frozenset[int],
) -> Lean | None:
    """One against the mean of `others` at a point; None where they share no dog."""
    told, own = gaps.at(point.id, place, others)
    if not told:
        return None
    unit = next((a.unit for row in table for a in row if a is not None), "") or "degree"
    usual = Scatter()
    if len(told) >= FEWEST_DOGS:
        usual = gaps.scatter(point, place, others).times(_size(point, own))
    found = _tested(evaluator, point.id, point.label, told, _step(point), unit, usual)
    if not isinstance(point, GradePoint):
        return found
    side, heavier = _direction(found.value, fmean(own) - found.value)
    faults = _named_faults(point, table, side)
    return replace(found, faults=tuple(map(label, faults)), heavier=heavier)


def _tested(
    evaluator: str, point: str, label: str, gaps: Sequence[float], step: float, unit: str, usual: Scatter
) -> Lean:
    """The mean of the gaps, one a dog, against their spread (Student's t)."""
    n = len(gaps)
    value = fmean(gaps)
    if n == 1:
        return Lean(evaluator, point, label, value, None, 1, unit)
    square, dof = usual.with_own(_spread(gaps, step) ** 2, n - 1)
    u = math.sqrt(square / n)
    return Lean(evaluator, point, label, value, u, n, unit, p=2.0 * upper_tail(abs(value) / u, dof))


def _sd(gaps: Sequence[float]) -> float:
    mean = fmean(gaps)
    return math.sqrt(math.fsum((gap - mean) ** 2 for gap in gaps) / (len(gaps) - 1))


def _spread(gaps: Sequence[float], step: float) -> float:
    return max(_sd(gaps), resolution_u(step))


def _direction(value: float, others: float) -> tuple[int, bool]:
    """Which side's departure was graded heavier (or, where the others saw it too, lighter)."""
    if value * others < 0 and abs(value) <= abs(others):
        return (1 if others > 0 else -1), False
    return (1 if value > 0 else -1), True


def _named_faults(point: GradePoint, table: Sequence[Sequence[Answer | None]], side: int) -> tuple[str, ...]:
    """The departures on one side of the scale that somebody found; where nobody did, the first there is."""
    known = (
        point.less if side < 0 else (*point.more, *(point.other if not point.less and not point.more else ()))
    )
    seen = {fault for row in table for answer in row if answer is not None for fault in answer.faults}
    return tuple(fault for fault in known if fault in seen) or known[:1]
