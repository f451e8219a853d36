"""The answers at one point, and a session with other answers there.

Before the signature an answer takes the place of another, which stays on record as replaced; after it
answers stand, and a change becomes an amendment.
"""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Protocol, TypeVar

from hands_on.exam.session import (
    Amendment,
    Choice,
    CritiqueText,
    Given,
    Grade,
    Note,
    NoteFinding,
    Replaced,
    Session,
    Skip,
    Summary,
    Take,
    Teeth,
)
from hands_on.frozen import dataclass
from hands_on.ruleset.points import Point, TeethPoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "Answers",
    "SignedSession",
    "Stamp",
    "add_note",
    "amended",
    "answers_at",
    "edited_critique",
    "place_of",
    "put",
    "put_summary",
    "skip_region",
    "unskip_region",
    "without_answer",
]


class _AtPoint(Protocol):
    @property
    def point(self) -> str: ...


Row = TypeVar("Row", bound=_AtPoint)


class SignedSession(ValueError):
    """A signed session is changed only with a reason, as an amendment."""

    def __init__(self) -> None:
        super().__init__("this session is signed; a change needs a reason and is kept as an amendment")


@dataclass(frozen=True)
class Stamp:
    """Who gives an answer, and when."""

    at: datetime.datetime | None = None
    by: str = ""


@dataclass(frozen=True)
class Answers:
    """Everything recorded at one point."""

    takes: tuple[Take, ...] = ()
    grades: tuple[Grade, ...] = ()
    choices: tuple[Choice, ...] = ()
    teeth: Teeth | None = None
    skip: Skip | None = None

    @property
    def given(self) -> bool:
        """Is there an answer (a skip is none, nor are takes that were all struck)?"""
        counted = any(not take.struck for take in self.takes)
        return bool(counted or self.grades or self.choices or self.teeth is not None)


def answers_at(session: Session, point: Point) -> Answers:
    """What is recorded at `point`, amendments put in."""
    now = amended(session)
    return Answers(
        takes=tuple(row for row in now.takes if row.point == point.id),
        grades=tuple(row for row in now.grades if row.point == point.id),
        choices=tuple(row for row in now.choices if row.point == point.id),
        teeth=now.teeth if isinstance(point, TeethPoint) else None,
        skip=_skip(now, point),
    )


def put(session: Session, point: Point, answers: Answers, stamp: Stamp, reason: str = "") -> Session:
    """A session in which `answers` are what is recorded at `point`.

    Rows without a time or a name get those of `stamp`. A region's skip stands for its other points.
    Raises SignedSession when the session is signed and no `reason` is given.
    """
    takes = tuple(_stamped(row, stamp) for row in answers.takes)
    grades = tuple(_stamped(row, stamp) for row in answers.grades)
    choices = tuple(_stamped(row, stamp) for row in answers.choices)
    teeth = _stamped(answers.teeth, stamp) if answers.teeth is not None else None
    skips = (_stamped(answers.skip, stamp),) if answers.skip is not None and answers.skip.point else ()
    if session.signature is not None:
        if not reason:
            raise SignedSession
        amendment = Amendment(
            at=stamp.at,
            by=stamp.by,
            reason=reason,
            point=point.id,
            takes=takes,
            grades=grades,
            choices=choices,
            teeth=teeth,
            skips=skips,
        )
        return session.model_copy(update={"amendments": (*session.amendments, amendment)})
    return session.model_copy(
        update={
            "takes": _replaced(session.takes, takes, point),
            "grades": _replaced(session.grades, grades, point),
            "choices": _replaced(session.choices, choices, point),
            "teeth": teeth if isinstance(point, TeethPoint) else session.teeth,
            "skips": _replaced(session.skips, skips, point),
            "replaced": (*session.replaced, *_no_longer(session, point, answers, stamp)),
        }
    )


def _no_longer(session: Session, point: Point, new: Answers, stamp: Stamp) -> tuple[Replaced, ...]:
    """What stood at the point and stands no more; an answer only completed is not replaced."""
    old = answers_at(session, point)
    grades = tuple(row for row in old.grades if not any(_goes_on(row, now) for now in new.grades))
    choices = tuple(row for row in old.choices if not any(_goes_on(row, now) for now in new.choices))
    teeth = old.teeth if old.teeth is not None and not _all_kept(old.teeth, new.teeth) else None
    if not (grades or choices or teeth):
        return ()
    row = Replaced(
        point=point.id,
        at=stamp.at,
        by=stamp.by,
        taken_back=not new.given,
        grades=grades,
        choices=choices,
        teeth=teeth,
    )
    return (row,)


def _goes_on(old: Grade | Choice, new: Grade | Choice) -> bool:
    """Is `new` the same answer, perhaps with degree or side said by now?"""
    open_: set[str] = {"at", "by"} | {name for name in ("degree", "side") if getattr(old, name) is None}
    return old.model_dump(exclude=open_) == new.model_dump(exclude=open_)


def _all_kept(old: Teeth, new: Teeth | None) -> bool:
    """Does every mark of the old chart stand in the new one?"""
    if new is None:
        return False
    names = ("missing", "unseen", "worn", "broken", "extra", "milk")
    return all(set(getattr(old, name)) <= set(getattr(new, name)) for name in names)


def skip_region(session: Session, region: str, why: str, stamp: Stamp) -> Session:
    """A session in which the whole region is skipped; answers already given there stay.

    Raises SignedSession.
    """
    if session.signature is not None:
        raise SignedSession
    kept = tuple(row for row in session.skips if row.region != region)
    skip = Skip(region=region, reason=why, at=stamp.at, by=stamp.by)
    return session.model_copy(update={"skips": (*kept, skip)})


def unskip_region(session: Session, region: str) -> Session:
    """A session in which the region is open again."""
    return session.model_copy(update={"skips": tuple(row for row in session.skips if row.region != region)})


def add_note(session: Session, note: Note, stamp: Stamp, reason: str = "") -> Session:
    """A session with one more note. Raises SignedSession when signed and no `reason` is given."""
    stamped = _stamped(note, stamp)
    if session.signature is None:
        return session.model_copy(update={"notes": (*session.notes, stamped)})
    if not reason:
        raise SignedSession
    amendment = Amendment(at=stamp.at, by=stamp.by, reason=reason, notes=(stamped,))
    return session.model_copy(update={"amendments": (*session.amendments, amendment)})


def put_summary(session: Session, summary: Summary, stamp: Stamp, reason: str = "") -> Session:
    """A session with this summary. Raises SignedSession when signed and no `reason` is given."""
    if session.signature is None:
        return session.model_copy(update={"summary": summary})
    if not reason:
        raise SignedSession
    amendment = Amendment(at=stamp.at, by=stamp.by, reason=reason, summary=summary)
    return session.model_copy(update={"amendments": (*session.amendments, amendment)})


def put_critique(session: Session, critique: CritiqueText, stamp: Stamp, reason: str = "") -> Session:
    """A session with this critique in place of that of its language and length.

    Raises SignedSession when signed and no `reason` is given.
    """
    stamped = _stamped(critique, stamp)
    if session.signature is None:
        return session.model_copy(update={"critiques": _with_critique(session.critiques, stamped)})
    if not reason:
        raise SignedSession
    amendment = Amendment(at=stamp.at, by=stamp.by, reason=reason, critique=stamped)
    return session.model_copy(update={"amendments": (*session.amendments, amendment)})


def edited_critique(session: Session, language: str, length: str) -> CritiqueText | None:
    """The critique kept in this language and length, amendments put in; None where there is none."""
    kept = amended(session).critiques
    return next((one for one in kept if (one.language, one.length) == (language, length) and one.text), None)


def _with_critique(kept: tuple[CritiqueText, ...], new: CritiqueText) -> tuple[CritiqueText, ...]:
    others = (one for one in kept if (one.language, one.length) != (new.language, new.length))
    return (*others, new)


def amended(session: Session) -> Session:
    """The session as it stands now: later amendments put in place of what they replace."""
    if not session.amendments:
        return session
    takes, grades, choices, skips = session.takes, session.grades, session.choices, session.skips
    teeth, notes, summary = session.teeth, session.notes, session.summary
    critiques = session.critiques
    for amendment in session.amendments:
        if amendment.point:
            takes = (*(row for row in takes if row.point != amendment.point), *amendment.takes)
            grades = (*(row for row in grades if row.point != amendment.point), *amendment.grades)
            choices = (*(row for row in choices if row.point != amendment.point), *amendment.choices)
            skips = (*(row for row in skips if row.point != amendment.point), *amendment.skips)
        if amendment.teeth is not None:
            teeth = amendment.teeth
        notes = (*notes, *amendment.notes)
        summary = amendment.summary or summary
        if amendment.critique is not None:
            critiques = _with_critique(critiques, amendment.critique)
    return session.model_copy(
        update={
            "takes": takes,
            "grades": grades,
            "choices": choices,
            "skips": skips,
            "teeth": teeth,
            "notes": notes,
            "summary": summary,
            "critiques": critiques,
            "amendments": (),
        }
    )


def without_answer(answers: Answers) -> Answers:
    """Everything taken back; struck takes stay on record."""
    struck = tuple(take for take in answers.takes if take.struck)
    return replace(Answers(), takes=struck)


def _skip(session: Session, point: Point) -> Skip | None:
    own = next((row for row in session.skips if row.point == point.id), None)
    return own or next((row for row in session.skips if row.region == point.region), None)


def _replaced(rows: tuple[Row, ...], new: tuple[Row, ...], point: Point) -> tuple[Row, ...]:
    """`new` where the point's rows stood, or at the end."""
    place = next((index for index, row in enumerate(rows) if row.point == point.id), len(rows))
    return (*rows[:place], *new, *(row for row in rows[place:] if row.point != point.id))


Stamped = TypeVar("Stamped", bound=Given)


def _stamped(row: Stamped, stamp: Stamp) -> Stamped:
    update: dict[str, object] = {}
    if row.at is None and stamp.at is not None:
        update["at"] = stamp.at
    if not row.by and stamp.by:
        update["by"] = stamp.by
    return row.model_copy(update=update) if update else row


def place_of(ruleset: Ruleset, note: Note, finding: NoteFinding) -> str:
    """The point a noted finding belongs to: the note's own where that can answer the fault, else the fault's
    first; a fault without a point stays where it was noted. Empty when there is none.

    A note may speak of another part of the dog than the one it was written at.
    """
    places = ruleset.points_of_fault.get(finding.fault, ())
    return note.point if note.point in places or not places else places[0]
