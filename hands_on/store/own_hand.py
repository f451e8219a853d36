"""The evaluator's own hand, point by point, from the sessions kept; and what rounds with repeats tell.

Takes of one dog on one day, at one point and side, make a set: the first of a session and those taken while
the earlier ones were hidden, over all sessions of that day. A second reading taken in sight of the first
leans on it and tells nothing of the hand. The newest sessions alone are looked at, since a hand changes over
the years. What is worked out is explained in `hands_on.measure.hand`.
"""

from __future__ import annotations

import datetime
import math
import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from statistics import fmean
from typing import TYPE_CHECKING

from hands_on.compare.agreement.precision import precision
from hands_on.evaluate.measures import read_value
from hands_on.measure.entry import EntryProblem
from hands_on.measure.hand import Lasting, OwnHand, own_hand
from hands_on.measure.takes import DefaultU, critical_range_factor, expected_repeatability
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.store.hand_takes import HIDDEN
from hands_on.store.records import Records

if TYPE_CHECKING:
    from hands_on.ruleset.ruleset import Ruleset
    from hands_on.store.hand_takes import Reading, Taken

SESSIONS = 200
"""So many of the evaluator's newest finished sessions with hidden repeats count."""

ROUNDS = 1000
"""So many of all evaluators' newest finished sessions with hidden repeats are looked at for rounds."""

FEWEST_EVALUATORS, FEWEST_DOGS, FEWEST_DOF = 3, 5, 4.0
"""A round with fewer, or with a figure of fewer degrees of freedom, says too little of what lasts (a choice:
Student's t with 4 asks for 2.1 standard uncertainties where 8 ask for 1.9)."""

SLIP = 3.0
"""Takes farther apart than so many times what the default allows are no matter of the hand: one was misread
or mistyped, and one such pair would stand for the whole hand (judgement)."""


def hands_of(folder: Path, index: Path, ruleset: Ruleset, evaluator: str, file: Path) -> dict[str, OwnHand]:
    """An evaluator's own hand at each point of a ruleset with takes enough, from the sessions in `folder`.

    `file` is the session that is being evaluated: its own takes are left out, or they would count twice.
    Every file that can have a word in it is read once, so that the same files always give the same hand; the
    index remembers them. Empty where nothing is known. Raises StoreError when another program keeps the
    index busy.
    """
    if not evaluator.strip() or not os.path.isdir(folder):
        return {}
    inside = os.path.realpath(file.parent) == os.path.realpath(folder)
    with Records(folder, index) as records:
        records.refresh(holding=HIDDEN)
        without = file.name if inside else ""
        taken = records.taken(evaluator, SESSIONS, without=without)
        everybody = records.taken_by_all(ROUNDS, without=without)
    own = hands_from(taken, ruleset)
    of_rounds = hands_of_rounds(everybody, ruleset)
    for name, found in of_rounds.items():
        own[name] = replace(own[name], lasting=found.lasting) if name in own else found
    return own


def hands_from(taken: Iterable[Taken], ruleset: Ruleset) -> dict[str, OwnHand]:
    """The own hand at each point with takes enough."""
    sets: dict[str, dict[tuple[str, str, str], list[float]]] = {}
    for session in taken:
        for (name, side, unit), values in session.readings.items():
            point = ruleset.points.get(name)
            if not isinstance(point, MeasurePoint) or point.quantity == "count":
                continue
            key = (session.dog, session.day, side if point.sides and side != "both" else "")
            read = _canonical(point, unit, values)
            sets.setdefault(name, {}).setdefault(key, []).extend(read)
    return {name: hand for name, found in sets.items() if (hand := _hand(ruleset, name, found)) is not None}


def hands_of_rounds(taken: Iterable[Taken], ruleset: Ruleset) -> dict[str, OwnHand]:
    """What rounds measured, point by point: the hand of all their evaluators, and what lasts in each one's.

    Dogs that the same evaluators took anew within a week make a table (`compare.agreement.precision`): each
    reading as the share of a careful take's uncertainty by which it lies off the mean of its dog, so that
    dogs of all sizes count alike.
    """
    cells: dict[str, dict[str, dict[str, list[tuple[str, float]]]]] = {}
    for session in taken:
        for (name, side, unit), values in session.readings.items():
            point = ruleset.points.get(name)
            if isinstance(point, MeasurePoint) and point.quantity != "count" and len(values) > 1:
                dog = f"{session.dog} {side if point.sides and side != 'both' else ''}"
                by_one = cells.setdefault(name, {}).setdefault(dog, {})
                read = _canonical(point, unit, values)
                by_one.setdefault(session.evaluator, [(session.day, value) for value in read])
    found = {name: _of_rounds(ruleset, name, dogs) for name, dogs in cells.items()}
    return {name: hand for name, hand in found.items() if hand is not None}


def _of_rounds(
    ruleset: Ruleset, name: str, dogs: Mapping[str, Mapping[str, list[tuple[str, float]]]]
) -> OwnHand | None:
    point = ruleset.points[name]
    if not isinstance(point, MeasurePoint):
        return None
    default = _default(point)
    step = convert(point.resolution, point.unit, canonical_unit(point.quantity))
    kept = {
        dog: {
            who: [value for _, value in rows] for who, rows in by_one.items() if _sound(default, rows, step)
        }
        for dog, by_one in dogs.items()
        if _one_week([day for rows in by_one.values() for day, _ in rows])
    }
    people, table = _table(kept)
    if len(people) < FEWEST_EVALUATORS or len(table) < FEWEST_DOGS:
        return None
    means = [fmean(value for cell in row for value in cell) for row in table]
    cells = [
        [[(value - mean) / default.at(mean) for value in cell] for cell in row]
        for row, mean in zip(table, means, strict=True)
    ]
    told, at = precision(cells), fmean(means)
    if told is None or told.repeatability is None or told.lasting is None or told.lasting_dof < FEWEST_DOF:
        return None
    u = default.at(at)
    lasting = Lasting(told.lasting * u, at, told.lasting_dof, told.k, told.n, told.common_share)
    hand = max(told.repeatability.value * u, step / math.sqrt(12.0))
    sets = told.n * told.k
    return OwnHand(hand, told.n, sets * told.r, sets, at, lasting, of_round=True)


def _table(
    dogs: Mapping[str, Mapping[str, list[float]]],
) -> tuple[tuple[str, ...], list[list[list[float]]]]:
    """The largest complete table: evaluators who all took so many dogs."""
    groups: set[frozenset[str]] = {frozenset(by_one) for by_one in dogs.values()}
    sizes = {
        group: sum(group <= by_one.keys() for by_one in dogs.values()) * len(group)
        for group in groups
        if len(group) >= FEWEST_EVALUATORS
    }
    if not sizes:
        return (), []
    _, _, largest = min((-size, sorted(group), group) for group, size in sizes.items())
    people = tuple(sorted(largest))
    return people, [
        [by_one[who] for who in people] for _, by_one in sorted(dogs.items()) if by_one.keys() >= set(people)
    ]


def _one_week(days: list[str]) -> bool:
    dates = [datetime.date.fromisoformat(day) for day in days]
    return bool(dates) and max(dates) - min(dates) <= datetime.timedelta(days=7)


def _sound(default: DefaultU, rows: list[tuple[str, float]], step: float) -> bool:
    values = [value for _, value in rows]
    return len(values) > 1 and not _slipped(default, values, step)


def _default(point: MeasurePoint) -> DefaultU:
    return DefaultU(convert(point.u.a, point.unit, canonical_unit(point.quantity)), point.u.b)


def _hand(ruleset: Ruleset, name: str, sets: Mapping[tuple[str, str, str], list[float]]) -> OwnHand | None:
    point = ruleset.points[name]
    if not isinstance(point, MeasurePoint):
        return None
    canonical = canonical_unit(point.quantity)
    step = convert(point.resolution, point.unit, canonical)
    default = _default(point)
    sound = {key: values for key, values in sets.items() if not _slipped(default, values, step)}
    found = own_hand(list(sound.values()), step, [dog for dog, _, _ in sound], default.at)
    return found if isinstance(found, OwnHand) else None


def _slipped(default: DefaultU, values: list[float], step: float) -> bool:
    """Do takes lie so far apart that one of them must be a slip?"""
    if len(values) < 2:
        return False
    allowed = critical_range_factor(len(values)) * expected_repeatability(values[0], default)
    return max(values) - min(values) > SLIP * max(allowed, step)


def _canonical(point: MeasurePoint, unit: str, values: list[Reading]) -> list[float]:
    """Readings in the canonical unit; what is no plausible reading is left out."""
    found = []
    for value in values:
        with suppress(EntryProblem, ValueError):
            found.append(read_value(point, value, unit or None)[0])
    return found
