"""The evaluator's own hand, point by point, from the sessions kept.

Takes of one dog on one day, at one point and side, make a set: within a session, and over several
sessions of that day. The newest sessions alone are looked at, since a hand changes over the years. What
is worked out is explained in `hands_on.measure.hand`.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.evaluate.measures import read_value
from hands_on.measure.entry import EntryProblem
from hands_on.measure.hand import OwnHand, own_hand
from hands_on.measure.takes import REPEATABLE_SHARE, DefaultU, critical_range_factor
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.store.records import Records

if TYPE_CHECKING:
    from hands_on.ruleset.ruleset import Ruleset
    from hands_on.store.hand_takes import Reading, Taken

SESSIONS = 200
"""So many of the evaluator's newest finished sessions count, and so many files are read at a time at most."""

SLIP = 3.0
"""Takes farther apart than so many times what the default allows are no matter of the hand: one was misread
or mistyped, and one such pair would stand for the whole hand (judgement)."""


def hands_of(folder: Path, index: Path, ruleset: Ruleset, evaluator: str, file: Path) -> dict[str, OwnHand]:
    """An evaluator's own hand at each point of a ruleset with takes enough, from the sessions in `folder`.

    `file` is the session that is being evaluated: its own takes are left out, or they would count twice.
    At most `SESSIONS` new files are read now; the index remembers them. Empty where nothing is known.
    Raises StoreError when another program keeps the index busy.
    """
    if not evaluator.strip() or not os.path.isdir(folder):
        return {}
    inside = os.path.realpath(file.parent) == os.path.realpath(folder)
    with Records(folder, index) as records:
        records.refresh(at_most=SESSIONS)
        taken = records.taken(evaluator, SESSIONS, without=file.name if inside else "")
    return hands_from(taken, ruleset)


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


def _hand(ruleset: Ruleset, name: str, sets: Mapping[tuple[str, str, str], list[float]]) -> OwnHand | None:
    point = ruleset.points[name]
    if not isinstance(point, MeasurePoint):
        return None
    step = convert(point.resolution, point.unit, canonical_unit(point.quantity))
    sound = {key: values for key, values in sets.items() if not _slipped(point, values, step)}
    found = own_hand(list(sound.values()), step, [dog for dog, _, _ in sound])
    return found if isinstance(found, OwnHand) else None


def _slipped(point: MeasurePoint, values: list[float], step: float) -> bool:
    """Do takes lie so far apart that one of them must be a slip?"""
    if len(values) < 2:
        return False
    a = convert(point.u.a, point.unit, canonical_unit(point.quantity))
    allowed = critical_range_factor(len(values)) * REPEATABLE_SHARE * DefaultU(a, point.u.b).at(values[0])
    return max(values) - min(values) > SLIP * max(allowed, step)


def _canonical(point: MeasurePoint, unit: str, values: list[Reading]) -> list[float]:
    """Readings in the canonical unit; what is no plausible reading is left out."""
    found = []
    for value in values:
        with suppress(EntryProblem, ValueError):
            found.append(read_value(point, value, unit or None)[0])
    return found
