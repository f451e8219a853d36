"""How the dog was to handle: what makes its places harder to find, and what of an error is its stand's."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from hands_on.exam.conditions import Entered
from hands_on.exam.session import Session
from hands_on.measure.takes import DefaultU
from hands_on.measure.units import convert
from hands_on.ruleset.handling import Harder
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["as_handled", "harder_to_measure"]


def harder_to_measure(ruleset: Ruleset, session: Session) -> tuple[Harder, ...]:
    """What the answers of a session (amendments put in) tell of a coat, fat, or a dog that stood badly."""
    entered = Entered(ruleset, session)
    faults = set(_faults(session))
    return tuple(one for one in ruleset.harder if _tells(one, ruleset, entered, faults))


def as_handled(
    ruleset: Ruleset, point: MeasurePoint, default: DefaultU, harder: Sequence[Harder]
) -> DefaultU:
    """The uncertainty of a careful take at a point of a dog that is so to handle.

    What several make worse adds up as squares do: each brings an error of its own.
    """
    at_point = [one for one in harder if point.quantity in one.quantities and point.region not in one.not_in]
    factor = math.sqrt(1.0 + math.fsum(one.factor**2 - 1.0 for one in at_point))
    stand = max((one.share for one in ruleset.standing if point.id in one.measures), default=0.0)
    return replace(default, factor=factor, because=tuple(one.label for one in at_point), stand_share=stand)


def _tells(one: Harder, ruleset: Ruleset, entered: Entered, faults: set[str]) -> bool:
    if one.restless and entered.examination.restless:
        return True
    if not faults.isdisjoint(one.faults):
        return True
    if any(entered.entered(name) in values for name, values in one.attributes.items()):
        return True
    point = ruleset.points.get(one.measure or "")
    if one.above is None or not isinstance(point, MeasurePoint):
        return False
    taken = [take for take in entered.session.takes if take.point == point.id and not take.struck]
    read = [
        convert(take.value, take.unit or point.unit, point.unit)
        for take in taken
        if not isinstance(take.value, str) and math.isfinite(take.value)
    ]
    return bool(read) and math.fsum(read) / len(read) > one.above


def _faults(session: Session) -> Iterator[str]:
    for grade in session.grades:
        if grade.fault is not None and grade.status == "present":
            yield grade.fault
    for note in session.notes:
        for finding in note.findings:
            if finding.fault is not None and finding.status == "present":
                yield finding.fault
