"""The evaluator's own hand, point by point, from the sessions kept.

Takes of one dog on one day, at one point and side, make a set: the first of a session and those taken while
the earlier ones were hidden, over all sessions of that day. A second reading taken in sight of the first
leans on it and tells nothing of the hand. The newest sessions alone are looked at, since a hand changes over
the years. What is worked out is explained in `hands_on.measure.hand`.
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
    canonical = canonical_unit(point.quantity)
    step = convert(point.resolution, point.unit, canonical)
    default = DefaultU(convert(point.u.a, point.unit, canonical), point.u.b)
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
