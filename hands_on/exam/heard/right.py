"""What a note calls right, as answers at its points: `well laid back shoulders` answers the shoulder.

Only what is sure enough or was taken by hand, and only where nothing stands yet: no answer, no skip and no
finding of a note, neither of this one nor of an earlier one. The tooth chart is filled after a question.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Literal, TypeVar

from hands_on.exam.answers import Answers, Stamp, amended, answers_at, place_of, put
from hands_on.exam.dialogue.for_point import dialogue_for
from hands_on.exam.heard.hands import Hands
from hands_on.exam.session import Choice, Grade, Note, Session, Teeth
from hands_on.exam.walk import state_of
from hands_on.frozen import dataclass
from hands_on.notes import FoundAffirmed
from hands_on.ruleset.points import ChoicePoint, GradePoint, Point, TeethPoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["CALLED", "HeardRight", "Hindrance", "as_it_stands", "heard_right", "put_right", "still_open"]


CALLED = "called out: "
"""Before the words of a note, beside an answer that they gave."""

Hindrance = Literal["not here", "answered", "skipped", "found", "own answer"]
"""Why a point called right is not answered: this edition has no such point, something is recorded there, it
was skipped, a note finds a fault there, as asked is no single answer or another one than the words name."""


@dataclass(frozen=True)
class HeardRight:
    """A point heard to be right."""

    read: FoundAffirmed
    words: str
    """Its piece of the note."""
    point: Point | None
    """None: this edition has no such point."""
    taken: bool
    """Goes on record: the program is sure enough, or it was taken by hand, and nothing hinders it."""
    by_hand: bool = False
    """Somebody took or dropped it."""
    hindered: Hindrance | None = None

    @property
    def id(self) -> str:
        """What it is called among the things heard; no fault and no measurement has such a name."""
        return f"right:{self.read.point}"

    @property
    def span(self) -> tuple[int, int]:
        """Its piece of the note."""
        return self.read.span

    @property
    def asks(self) -> bool:
        """Is it asked about before it is recorded?"""
        return self.taken and isinstance(self.point, TeethPoint)

    @property
    def seen(self) -> str | None:
        """A shade is recorded as seen, by this option: what it is worth, the edition says."""
        shade = isinstance(self.point, ChoicePoint) and bool(self.point.instead_of)
        return self.read.option if shade else None


def heard_right(
    affirmed: Iterable[FoundAffirmed], note: str, ruleset: Ruleset, hands: Hands
) -> tuple[HeardRight, ...]:
    """All that are called right, with what was changed by hand.

    The same words may say a shade and the grade that it is seen instead of: in doubt the shade alone is told.
    """
    found = tuple(_heard(read, note, ruleset, hands) for read in affirmed)
    replaced = {one.point.instead_of for one in found if isinstance(one.point, ChoicePoint)}
    return tuple(one for one in found if one.read.accepted or one.read.point not in replaced)


def _heard(read: FoundAffirmed, note: str, ruleset: Ruleset, hands: Hands) -> HeardRight:
    point = ruleset.points.get(read.point)
    words = note[read.span[0] : read.span[1]]
    one = HeardRight(read, words, point, taken=point is not None and read.accepted)
    hand = hands.get(one.id, {})
    if point is None:
        return replace(one, hindered="not here")
    return replace(one, taken=hand.get("taken", read.accepted), by_hand=bool(hand))


def as_it_stands(
    right: Iterable[HeardRight], session: Session, ruleset: Ruleset, note: Note
) -> tuple[HeardRight, ...]:
    """Each with what hinders it: recorded at its point, or found there by `note` or an earlier one."""
    now = amended(session)
    departed = {
        place_of(ruleset, said, row)
        for said in (*now.notes, note)
        for row in said.findings
        if row.status != "absent"
    }

    def standing(one: HeardRight) -> HeardRight:
        why = _hindrance(one, now, ruleset, departed)
        return one if why is None else replace(one, hindered=why, taken=False)

    return tuple(map(standing, right))


def still_open(
    right: Iterable[HeardRight], session: Session, ruleset: Ruleset, note: Note
) -> tuple[HeardRight, ...]:
    """Those that go on record, once the tooth chart was asked about."""
    return tuple(one for one in as_it_stands(right, session, ruleset, note) if one.taken)


def _hindrance(one: HeardRight, now: Session, ruleset: Ruleset, departed: set[str]) -> Hindrance | None:
    if one.point is None:
        return "not here"
    state = state_of(now, one.point)
    if state != "open":
        return state
    if one.seen is None and one.point.id in departed:
        return "found"
    if not isinstance(one.point, TeethPoint) and _answers(one, now, ruleset) is None:
        return "own answer"
    return None


def put_right(
    session: Session, ruleset: Ruleset, right: Iterable[HeardRight], stamp: Stamp, reason: str = ""
) -> Session:
    """A session with these points answered as asked, the words of the note beside each.

    Raises SignedSession when signed and no `reason` is given.
    """
    for one in right:
        new = _answers(one, session, ruleset)
        if one.point is not None and new is not None and not answers_at(session, one.point).given:
            session = put(session, one.point, new, stamp, reason)
    return session


def _answers(one: HeardRight, session: Session, ruleset: Ruleset) -> Answers | None:
    """What the key 0 records at the point; None where the note names another answer."""
    told = f"{CALLED}{one.words}"
    if one.point is not None and one.seen is not None:
        return Answers(choices=(Choice(point=one.point.id, choice=(one.seen,), note=told),))
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
