"""What a note calls right, as answers at its points: `well laid back shoulders` answers the shoulder.

Only what would be taken unasked, and only where nothing stands yet: no answer, no skip and no finding of a
note, neither of this one nor of an earlier one. The tooth chart is filled after a question alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from hands_on.exam.answers import Answers, Stamp, amended, answers_at, place_of, put
from hands_on.exam.dialogue.for_point import dialogue_for
from hands_on.exam.session import Choice, Grade, Note, Session, Teeth
from hands_on.exam.walk import state_of
from hands_on.frozen import dataclass
from hands_on.notes import FoundAffirmed
from hands_on.ruleset.points import ChoicePoint, GradePoint, Point, TeethPoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["CALLED", "HeardRight", "heard_right", "put_right", "still_open"]


CALLED = "called out: "
"""Before the words of a note, beside an answer that they gave."""


@dataclass(frozen=True)
class HeardRight:
    """A point heard to be right."""

    read: FoundAffirmed
    words: str
    """Its piece of the note."""
    point: Point

    @property
    def asks(self) -> bool:
        """Is it asked about before it is recorded?"""
        return isinstance(self.point, TeethPoint)


def heard_right(affirmed: Iterable[FoundAffirmed], note: str, ruleset: Ruleset) -> tuple[HeardRight, ...]:
    """Those sure enough that this edition has a point for."""
    return tuple(
        HeardRight(read, note[read.span[0] : read.span[1]], ruleset.points[read.point])
        for read in affirmed
        if read.accepted and read.point in ruleset.points
    )


def still_open(
    right: Iterable[HeardRight], session: Session, ruleset: Ruleset, note: Note
) -> tuple[HeardRight, ...]:
    """Those at points where nothing stands, nor anything is found by `note` or an earlier one."""
    now = amended(session)
    departed = {
        place_of(ruleset, said, row)
        for said in (*now.notes, note)
        for row in said.findings
        if row.status != "absent"
    }
    return tuple(
        one
        for one in right
        if state_of(now, one.point) == "open"
        and one.point.id not in departed
        and (one.asks or _answers(one, now, ruleset) is not None)
    )


def put_right(
    session: Session, ruleset: Ruleset, right: Iterable[HeardRight], stamp: Stamp, reason: str = ""
) -> Session:
    """A session with these points answered as asked, the words of the note beside each.

    Raises SignedSession when signed and no `reason` is given.
    """
    for one in right:
        own = answers_at(session, one.point)
        new = _answers(one, session, ruleset)
        if new is not None and not own.given:
            session = put(session, one.point, new, stamp, reason)
    return session


def _answers(one: HeardRight, session: Session, ruleset: Ruleset) -> Answers | None:
    """What the key 0 records at the point; None where the note names another answer."""
    told = f"{CALLED}{one.words}"
    if isinstance(one.point, TeethPoint):
        return Answers(teeth=Teeth(note=told))
    if not isinstance(one.point, GradePoint | ChoicePoint):
        return None
    step = dialogue_for(one.point, ruleset, Answers(), None, session.dog.sex).press("0")
    if step.answers is None or not step.go_on:
        return None
    named = one.read.option
    if isinstance(one.point, ChoicePoint) and named is not None:
        options = {option.id for option in one.point.options}
        if named in options and any(named not in row.choice for row in step.answers.choices):
            return None
    return replace(
        step.answers,
        grades=tuple(_told(row, told) for row in step.answers.grades),
        choices=tuple(_told(row, told) for row in step.answers.choices),
    )


Row = TypeVar("Row", Grade, Choice)


def _told(row: Row, words: str) -> Row:
    return row.model_copy(update={"note": words})
