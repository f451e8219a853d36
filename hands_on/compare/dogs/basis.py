"""What dogs may be compared on: points answered for all of them, departures that none is too young for.

What was not examined is no merit and no fault; what cannot be judged yet of one dog would be a fault in the
others alone, so it counts in none.
"""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.compare.answer import answer_at
from hands_on.compare.dogs.class_rank import InCommon
from hands_on.compare.dogs.order_found import Basis
from hands_on.compare.examined import Examined
from hands_on.exam.left_out import left_out
from hands_on.exam.walk import stops
from hands_on.ruleset.points import MeasurePoint, Point, faults_of
from hands_on.ruleset.rules import Limit

__all__ = ["basis_of"]


def basis_of(sessions: Sequence[Examined]) -> tuple[Basis, InCommon]:
    """The points answered for all dogs, and who answers the rest; of measurements those with a limit."""
    limits = {name for limit in sessions[0].ruleset.edition.limits for name in limit.measures}
    own = [{stop.point.id: stop.point for stop in stops(one.ruleset, one.session)} for one in sessions]
    asked = {
        name: point
        for one, points in zip(sessions, own, strict=True)
        for name, point in points.items()
        if (not isinstance(point, MeasurePoint) or name in limits) and not left_out(one.session, point)
    }
    measures = _measures_too_young(sessions)
    ids = _too_young(sessions, measures)
    common: list[str] = []
    young: list[str] = []
    rest: list[tuple[str, tuple[int, ...]]] = []
    for name, point in asked.items():
        # A point not asked of a dog (of the other sex, of another coat) leaves nothing open in it.
        of = [place for place, points in enumerate(own) if name in points]
        given = tuple(place for place in of if answer_at(sessions[place], own[place][name]).given)
        if given and _nothing_left(point, ids, measures):
            young.append(point.label)
        elif len(given) == len(of):
            common.append(name)
        elif given:
            rest.append((point.label, given))
    return Basis(tuple(common), len(asked), tuple(rest), tuple(young)), InCommon(frozenset(common), ids)


def _nothing_left(point: Point, ids: frozenset[str], measures: frozenset[str]) -> bool:
    """Is one of the dogs too young for all that is asked at this point?"""
    if isinstance(point, MeasurePoint):
        return point.id in measures
    faults = faults_of(point)
    return bool(faults) and ids.issuperset(faults)


def _measures_too_young(sessions: Sequence[Examined]) -> frozenset[str]:
    return frozenset(
        name for one in sessions for name, measured in one.measures.by_point.items() if measured.too_young
    )


def _too_young(sessions: Sequence[Examined], measures: frozenset[str]) -> frozenset[str]:
    """Faults and limits that cannot be judged yet of one of the dogs at least."""
    faults = {
        name
        for one in sessions
        for name, fault in one.ruleset.faults.items()
        if one.circumstances.too_young(fault.too_young)
    }
    found = {finding.id for one in sessions for finding in one.evaluation.findings if finding.too_young}
    limits = {
        limit.id
        for limit in sessions[0].ruleset.edition.limits
        if measures.intersection(limit.measures) or _not_yet(limit, sessions)
    }
    called = {
        fault
        for one in sessions
        for rule in one.evaluation.rules
        if rule.id in limits
        for fault in (rule.fault, *(rung.fault for rung in rule.ladder))
        if fault
    }
    return frozenset(faults | found | limits | called)


def _not_yet(limit: Limit, sessions: Sequence[Examined]) -> bool:
    """Does it hold only from an age that not all of them are known to have?"""
    start = limit.from_age
    return start is not None and any(one.age is None or one.age < start for one in sessions)
