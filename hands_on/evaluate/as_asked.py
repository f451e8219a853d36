"""What the evaluator said is as asked for, and nothing else says otherwise."""

from __future__ import annotations

from collections.abc import Iterable

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.observed import Observed
from hands_on.evaluate.result import Alarm, Finding
from hands_on.exam.session import Session, Teeth
from hands_on.ruleset.points import TeethPoint, faults_of
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["as_asked"]


def as_asked(
    ruleset: Ruleset,
    session: Session,
    circumstances: Circumstances,
    seen: Observed,
    findings: Iterable[Finding],
    alarms: Iterable[Alarm],
) -> tuple[str, ...]:
    """Points that count as right, in the order of the examination.

    Left out are points with a finding that was not ruled out (an unsure or dismissed one too), points that
    contradict another answer, those said to be right on one side only, and those too young to judge.
    """
    sides: dict[str, set[str | None]] = {}
    for one in seen.affirmed:
        sides.setdefault(one.point, set()).add(one.side)
    right = {point for point, said in sides.items() if said & {None, "both"} or {"left", "right"} <= said}
    if session.teeth is not None and _whole(session.teeth):
        right |= {point.id for point in ruleset.points.values() if isinstance(point, TeethPoint)}
    doubted = {
        point
        for one in findings
        for point in one.points
        if one.status != "absent" and not _asked(ruleset, point, one.id)
    }
    doubted |= {point for one in alarms if one.kind == "contradiction" for point in one.points}
    return tuple(
        point.id
        for point in ruleset.points.values()
        if point.id in right - doubted and not _too_young(ruleset, circumstances, faults_of(point))
    )


def _asked(ruleset: Ruleset, point: str, fault: str) -> bool:
    """Is this fault what the edition asks for at the point: a natural tail, where that is right?"""
    known = ruleset.points.get(point)
    return known is not None and known.fault_as_asked == fault


def _whole(chart: Teeth) -> bool:
    """Every tooth seen, there and sound."""
    return not any(getattr(chart, name) for name in ("missing", "unseen", "worn", "broken", "extra", "milk"))


def _too_young(ruleset: Ruleset, circumstances: Circumstances, faults: Iterable[str]) -> bool:
    """Can none of the faults of a point be judged yet?"""
    known = [ruleset.faults[fault] for fault in faults if fault in ruleset.faults]
    return bool(known) and all(circumstances.too_young(fault.too_young) for fault in known)
