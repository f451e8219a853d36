"""Points that a call has settled already, so that the walk asks only what is still open."""

from __future__ import annotations

import datetime
from collections.abc import Collection

from hands_on.exam.answers import Answers, amended, answers_at, place_of
from hands_on.exam.heard.right import CALLED
from hands_on.exam.session import Session
from hands_on.ruleset.points import MeasurePoint, Point
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["called"]


def called(session: Session, ruleset: Ruleset) -> frozenset[str]:
    """Points at which a note found a fault, that were called right, or whose readings were all called out.

    A fault in doubt or ruled out settles nothing, nor does a measurement that lacks takes.
    """
    now = amended(session)
    if not now.notes:
        return frozenset()
    found = {
        place_of(ruleset, note, row) for note in now.notes for row in note.findings if row.status == "present"
    }
    times = {note.at for note in now.notes}
    for point in ruleset.points.values():
        own = answers_at(now, point)
        if own.given and (_called_right(own) or _all_read(own, point, times)):
            found.add(point.id)
    return frozenset(found & ruleset.points.keys())


def _called_right(own: Answers) -> bool:
    rows = [*own.grades, *own.choices, *([own.teeth] if own.teeth is not None else [])]
    return bool(rows) and all(row.note.startswith(CALLED) for row in rows)


def _all_read(own: Answers, point: Point, times: Collection[datetime.datetime | None]) -> bool:
    """Takes enough, and the newest came with a note."""
    takes = [take for take in own.takes if not take.struck]
    return (
        isinstance(point, MeasurePoint)
        and len(takes) >= max(1, point.takes)
        and takes[-1].at is not None
        and takes[-1].at in times
    )
