"""What cannot all be right: two answers, or an answer and a measurement, that say opposite things."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.evaluate.alarms import About
from hands_on.evaluate.alarms.judged import AsAskedBut, Claim, Denied, FullMouth, MeasuredOtherwise, Opposed
from hands_on.evaluate.departure import Affirmed, Departure, sides_meet
from hands_on.evaluate.limits import Limits
from hands_on.evaluate.result import Alarm
from hands_on.evaluate.teeth import MISSING, Chart
from hands_on.exam.session import Decision
from hands_on.frozen import dataclass
from hands_on.ruleset.labels import Label
from hands_on.ruleset.points import faults_of
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["contradictions"]


@dataclass(frozen=True)
class _Clash:
    faults: tuple[str, ...]
    points: tuple[str, ...]
    about: About


def contradictions(
    ruleset: Ruleset,
    departures: Sequence[Departure],
    affirmed: Sequence[Affirmed],
    limits: Limits,
    chart: Chart,
    decisions: Sequence[Decision],
) -> tuple[Alarm, ...]:
    """An alarm for each contradiction that the evaluator has not decided yet."""
    present = [one for one in departures if one.status == "present"]
    absent = [one for one in departures if one.status == "absent"]
    clashes = [
        *_opposites(ruleset, present),
        *_denied(ruleset, present, absent),
        *_affirmed(ruleset, present, affirmed),
        *_measured_otherwise(ruleset, present, limits),
        *_full_mouth(ruleset, present, chart),
    ]
    decided = {one.fault for one in decisions}
    open_ones = [clash for clash in clashes if decided.isdisjoint(clash.faults)]
    return tuple(
        Alarm("contradiction", clash.points, clash.about)
        for clash in {clash.about: clash for clash in open_ones}.values()
    )


def _opposites(ruleset: Ruleset, present: Sequence[Departure]) -> Iterator[_Clash]:
    """Two faults that cannot hold together on the same side."""
    for place, first in enumerate(present):
        for second in present[place + 1 :]:
            if sides_meet(first.side, second.side) and _opposed(ruleset, first.fault, second.fault):
                yield _Clash(
                    (first.fault, second.fault),
                    _points(first, second),
                    Opposed(_claim(ruleset, first), _claim(ruleset, second)),
                )


def _opposed(ruleset: Ruleset, first: str, second: str) -> bool:
    pairs = ((first, second), (second, first))
    return any(b in ruleset.faults[a].opposite for a, b in pairs if a in ruleset.faults)


def _denied(ruleset: Ruleset, present: Sequence[Departure], absent: Sequence[Departure]) -> Iterator[_Clash]:
    """A fault found at one place and ruled out at another."""
    for one in present:
        for other in absent:
            same = one.fault == other.fault and sides_meet(one.side, other.side)
            if same and (one.detail == other.detail or other.detail is None):
                yield _Clash(
                    (one.fault,),
                    _points(one, other),
                    Denied(_claim(ruleset, one), other.origin),
                )


def _affirmed(
    ruleset: Ruleset, present: Sequence[Departure], affirmed: Sequence[Affirmed]
) -> Iterator[_Clash]:
    """A point graded as asked for, and a fault that belongs to it."""
    for answer in affirmed:
        point = ruleset.points.get(answer.point)
        if point is None:
            continue
        for one in present:
            departs = one.fault in faults_of(point) and one.fault != point.fault_as_asked
            if departs and sides_meet(one.side, answer.side):
                yield _Clash(
                    (one.fault,),
                    tuple(dict.fromkeys((point.id, *one.points))),
                    AsAskedBut(point.id, _claim(ruleset, one)),
                )


def _measured_otherwise(ruleset: Ruleset, present: Sequence[Departure], limits: Limits) -> Iterator[_Clash]:
    """A fault seen, where the measurement that decides it is surely within."""
    for one in present:
        known = ruleset.faults.get(one.fault)
        if one.origin == "take" or (known is not None and known.hand_decides):
            continue
        for kept in limits.kept:
            fault, rule = kept.fault, kept.rule
            same = fault == one.fault and kept.detail in (None, one.detail)
            if same and sides_meet(one.side, rule.side):
                yield _Clash(
                    (fault,),
                    tuple(dict.fromkeys((*one.points, *rule.measures))),
                    MeasuredOtherwise(_claim(ruleset, one), rule),
                )


def _full_mouth(ruleset: Ruleset, present: Sequence[Departure], chart: Chart) -> Iterator[_Clash]:
    """Teeth said to be missing, and a chart with all of them."""
    for one in present:
        if chart.complete and one.fault == MISSING and one.origin in ("grade", "choice", "note"):
            yield _Clash((MISSING,), one.points, FullMouth(_claim(ruleset, one)))


def _claim(ruleset: Ruleset, one: Departure) -> Claim:
    return Claim(one.named or Label(ruleset.label(one.fault)), one.side, one.origin, one.rule)


def _points(*rows: Departure) -> tuple[str, ...]:
    return tuple(dict.fromkeys(point for row in rows for point in row.points))
