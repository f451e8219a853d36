"""Who leans which way: each evaluator against the others on the same dogs, with its uncertainty.

Whoever is named is named wrongly in at most one seminar of twenty. Each lean is held against Student's t over
dogs, which asks for no equal hands; the probabilities are corrected for their number by Holm's method
(`compare.several.holm`), over all points and evaluators with one half of the 5 %, over the strictness of the
evaluators with the other. One who leans drags the mean of the others along. So a lean counts only as far as
it stands whichever of the others is left out: the largest of those probabilities is its own (intersection
and union of hypotheses, Berger 1982, Technometrics 24: 295-300, from memory), and one who leans names
nobody else. Then evaluators are named one at a time, the plainest first, and whoever is named at a point is
no longer among those the rest are held against. Of two who are left nobody can say which of them leans, and
neither is named; of two in all, both are. Where two or more lean the same way at one point, a third may be
named in their stead. The rates are shown by tests/bench/seminars.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from statistics import fmean, stdev

from hands_on.compare.answer import Answer
from hands_on.compare.several import holm
from hands_on.frozen import dataclass
from hands_on.measure.distributions import upper_tail
from hands_on.measure.gum import resolution_u
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point

__all__ = ["FAMILIES", "Lean", "leans", "strictness"]

LEVEL = 0.95

FAMILIES = 2
"""Leans and strictness share the 5 % in halves."""

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
    """Standard uncertainty from the spread over dogs, never below the instrument's step (or the step of the
    scale) for that many dogs; None for a single dog."""
    n: int
    """Dogs that it rests on."""
    unit: str = ""
    faults: tuple[str, ...] = ()
    """Of a graded point: labels of what was graded heavier or lighter than by the others."""
    heavier: bool = True
    p: float | None = None
    """How often chance alone gives as much, for this lean alone (two-sided), whichever of the others
    is left out; None for a single dog."""
    p_corrected: float | None = None
    """The same for all leans together."""
    clear: bool = False
    """May the evaluator be named? Wrongly at most once in twenty seminars."""


Named = frozenset[tuple[int, str]]
"""Evaluators, by their place, named at a point already."""


def leans(evaluators: Sequence[str], tables: Tables, label: Callable[[str], str]) -> tuple[Lean, ...]:
    """Every evaluator's lean at every point that can be ordered; `label` names a fault.

    The value is against those of the others who were not named at the point before.
    """

    known: dict[tuple[str, int, frozenset[int]], Lean | None] = {}

    def all_leans(named: Named) -> Iterable[tuple[tuple[int, str], Lean]]:
        for name, (point, table) in tables.items():
            for place, evaluator in enumerate(evaluators):
                others = frozenset(
                    n for n in range(len(evaluators)) if n != place and (n, name) not in named
                )
                key = (name, place, others)
                if key not in known:
                    known[key] = _lean(evaluator, point, table, place, others, label)
                found = known[key]
                if found is not None:
                    yield (place, name), found

    return _one_by_one(all_leans, len(evaluators))


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

    def all_leans(named: Named) -> Iterable[tuple[tuple[int, str], Lean]]:
        for place, evaluator in enumerate(evaluators):
            others = frozenset(n for n in range(len(evaluators)) if n != place and (n, "") not in named)
            found = _whoever_is_left_out(others, partial(_strict, evaluator, place, others, rows))
            if found is not None:
                yield (place, ""), found if len(evaluators) > 2 else replace(found, p=None)

    return _one_by_one(all_leans, len(evaluators))


def _whoever_is_left_out(
    others: frozenset[int], test: Callable[[frozenset[int]], Lean | None]
) -> Lean | None:
    """A lean against all others, with the largest p there is where one of the others is left out."""
    found = test(others)
    if found is None or found.p is None or len(others) < 2:
        return found
    left = [one for one in (test(others - {other}) for other in sorted(others)) if one is not None]
    if any(one.value * found.value < 0 for one in left):
        return replace(found, p=1.0)  # between the others
    return replace(found, p=max((one.p for one in left if one.p is not None), default=found.p))


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
    return _tested(evaluator, "", "", means, 1.0 / told, "degree")


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


def _one_by_one(
    all_leans: Callable[[Named], Iterable[tuple[tuple[int, str], Lean]]], evaluators: int
) -> tuple[Lean, ...]:
    """Leans with corrected probabilities, the plainest named first and then left out of the others' mean."""
    found: dict[tuple[int, str], Lean] = {}
    named: Named = frozenset()
    while True:
        # Named leans stay as they were named; so does one for whom nobody is left to be held against.
        found.update((key, one) for key, one in all_leans(named) if key not in named)
        tested = {key: one.p for key, one in found.items() if one.p is not None}
        for key, p in zip(tested, holm(list(tested.values())), strict=True):
            if key not in named:
                found[key] = replace(found[key], p_corrected=min(1.0, FAMILIES * p))
        plain = [
            key
            for key in tested
            if key not in named
            and (found[key].p_corrected or 0.0) <= 1.0 - LEVEL
            and (evaluators == 2 or evaluators - sum(point == key[1] for _, point in named) > 2)
        ]
        if not plain:
            return tuple(found.values())
        plainest = min(plain, key=lambda key: (tested[key], key))
        found[plainest] = replace(found[plainest], clear=True)
        named |= {plainest}


def _number(answer: Answer | None) -> float | None:
    if answer is None:
        return None
    return answer.value if answer.value is not None else answer.position


def _gap(row: Sequence[float | None], place: int, others: frozenset[int]) -> float | None:
    """One's own number less the mean of the others', at one dog."""
    own = row[place]
    rest = [x for n, x in enumerate(row) if n in others and x is not None]
    return own - fmean(rest) if own is not None and rest else None


def _lean(
    evaluator: str,
    point: Point,
    table: Sequence[Sequence[Answer | None]],
    place: int,
    others: frozenset[int],
    label: Callable[[str], str],
) -> Lean | None:
    rows = [[_number(answer) for answer in row] for row in table]
    gaps = [_gap(row, place, others) for row in rows]
    told = [gap for gap in gaps if gap is not None]
    if not told:
        return None
    unit = next((a.unit for row in table for a in row if a is not None), "") or "degree"
    step = point.resolution if isinstance(point, MeasurePoint) else 1.0

    def test(against: frozenset[int]) -> Lean | None:
        left = [gap for row in rows if (gap := _gap(row, place, against)) is not None]
        return _tested(evaluator, point.id, point.label, left, step, unit) if left else None

    found = _whoever_is_left_out(others, test)
    if found is None or not isinstance(point, GradePoint):
        return found
    own = fmean(row[place] or 0.0 for row, gap in zip(rows, gaps, strict=True) if gap is not None)
    side, heavier = _direction(found.value, own - found.value)
    faults = _named_faults(point, table, side)
    return replace(found, faults=tuple(map(label, faults)), heavier=heavier)


def _tested(evaluator: str, point: str, label: str, gaps: Sequence[float], step: float, unit: str) -> Lean:
    """The mean of the gaps, one a dog, against their own spread (Student's t)."""
    n = len(gaps)
    value = fmean(gaps)
    if n == 1:
        return Lean(evaluator, point, label, value, None, 1, unit)
    u = max(stdev(gaps), resolution_u(step)) / math.sqrt(n)
    return Lean(evaluator, point, label, value, u, n, unit, p=2.0 * upper_tail(abs(value) / u, n - 1))


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
