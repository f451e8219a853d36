"""A region on one sheet: every point with what stands there, and the rest of them as asked by one key.

As asked in one stroke is only what the eye and the hand see at a glance: graded points, and choices of which
one option is asked for. A reading, a condition score, the tooth chart and a choice without a single answer
are each given by themselves, and so is a point of which a note says that something departs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from hands_on.exam.answers import Answers, Stamp, amended, answers_at, place_of, put
from hands_on.exam.dialogue.for_point import dialogue_for
from hands_on.exam.left_out import left_out
from hands_on.exam.session import Choice, Grade, Session
from hands_on.exam.walk import State, Stop, state_of
from hands_on.frozen import dataclass
from hands_on.ruleset.points import ChoicePoint, GradePoint, Region
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "RegionSheet",
    "SheetRow",
    "at_the_end",
    "given_by_region",
    "region_sheet",
    "rest_as_asked",
    "sheet_of",
    "sheets",
    "without_rest",
]

NOTE = "given with the rest of its region"
"""What the session's file says of such an answer, beside `by_region = true`."""


@dataclass(frozen=True)
class SheetRow:
    """One point of the region."""

    number: int
    """What is typed to open it, counted from 1."""
    stop: Stop
    state: State
    answers: Answers
    recorded: tuple[str, ...]
    """Each thing recorded there, in words."""
    rest: Answers | None
    """What the key for the rest records here; None where the point is answered, skipped or stays open."""
    late: bool = False
    """Is it asked on the last sheet, when all else is done (steadiness over the whole examination)?"""


@dataclass(frozen=True)
class RegionSheet:
    """The points of one region that this examination asks for."""

    region: Region
    rows: tuple[SheetRow, ...]

    @property
    def rest(self) -> tuple[SheetRow, ...]:
        """Those that one key gives as asked."""
        return tuple(row for row in self.rows if row.rest is not None)

    @property
    def stays_open(self) -> tuple[SheetRow, ...]:
        """Those without an answer that are entered one by one."""
        return tuple(row for row in self.open if row.rest is None)

    @property
    def open(self) -> tuple[SheetRow, ...]:
        """Those without an answer that belong here, and not to the end."""
        return tuple(row for row in self.rows if row.state == "open" and not row.late)

    @property
    def by_region(self) -> tuple[SheetRow, ...]:
        """Those that were given by one key."""
        return tuple(row for row in self.rows if given_by_region(row.answers))


def region_sheet(ruleset: Ruleset, session: Session, walk: Sequence[Stop], region: str) -> RegionSheet:
    """The sheet of a region that is part of the walk; on the last one stands what is said at the end, too."""
    now = amended(session)
    spoken_of = {
        place_of(ruleset, note, row) for note in now.notes for row in note.findings if row.status != "absent"
    }
    inside = [stop for stop in walk if stop.region.id == region]
    asked = [stop for stop in inside if not left_out(now, stop.point)] or inside
    late = {stop.index for stop in at_the_end(walk, now)}
    if region == _last(walk, now):
        asked += [stop for stop in walk if stop.index in late and stop.region.id != region]
        late = set()
    rows = []
    for number, stop in enumerate(asked, 1):
        answers, state = answers_at(now, stop.point), state_of(now, stop.point)
        dialogue = dialogue_for(stop.point, ruleset, answers, None, now.dog.sex)
        open_ = state == "open" and stop.point.id not in spoken_of and stop.index not in late
        rows.append(
            SheetRow(
                number,
                stop,
                state,
                answers,
                tuple(row.words for row in dialogue.recorded()),
                _as_asked(stop, ruleset, now) if open_ else None,
                stop.index in late,
            )
        )
    return RegionSheet(inside[0].region, tuple(rows))


def sheets(walk: Sequence[Stop], session: Session) -> tuple[str, ...]:
    """The regions in the order in which their sheets follow one another: that of the paper sheet.

    The one in which the walk begins stands first, since the dog is met before it is touched; one that lies
    wholly at the walk's end stands last.
    """
    asked = _asked(walk, session)
    if not asked:
        return ()
    late = {stop.index for stop in at_the_end(walk, session)}
    only_late = {stop.region.id for stop in asked} - {
        stop.region.id for stop in asked if stop.index not in late
    }
    names = dict.fromkeys(stop.region.id for stop in sorted(asked, key=lambda stop: stop.place))
    first = asked[0].region.id
    return tuple(sorted(names, key=lambda name: (name in only_late, name != first)))


def sheet_of(walk: Sequence[Stop], session: Session, stop: Stop) -> str:
    """The region on whose sheet a stop is asked: its own, or the last one for what is said at the end."""
    return _last(walk, session) if stop in at_the_end(walk, session) else stop.region.id


def _last(walk: Sequence[Stop], session: Session) -> str:
    return next(reversed(sheets(walk, session)), "")


def at_the_end(walk: Sequence[Stop], session: Session) -> tuple[Stop, ...]:
    """What the walk comes back to a region for when all other regions are done."""
    asked = _asked(walk, session)
    late: list[Stop] = []
    for place in range(len(asked) - 1, -1, -1):
        stop = asked[place]
        if late and stop.region.id != late[-1].region.id:
            break
        late.append(stop)
    before = {stop.region.id for stop in asked[: len(asked) - len(late)]}
    return tuple(reversed(late)) if late and late[0].region.id in before and len(before) > 1 else ()


def _asked(walk: Sequence[Stop], session: Session) -> list[Stop]:
    return [stop for stop in walk if not left_out(session, stop.point)]


def rest_as_asked(
    session: Session, ruleset: Ruleset, sheet: RegionSheet, stamp: Stamp, reason: str = ""
) -> Session:
    """The session with the rest of the region as asked, each point with an answer of its own.

    Raises SignedSession when the session is signed and no `reason` is given.
    """
    for row in sheet.rest:
        if row.rest is not None:
            session = put(session, row.stop.point, row.rest, stamp, reason)
    return session


def without_rest(session: Session, sheet: RegionSheet, stamp: Stamp, reason: str = "") -> Session:
    """The session with what was given by the one key taken back, as it may be by mistake.

    Raises SignedSession when the session is signed and no `reason` is given.
    """
    for row in sheet.by_region:
        own = row.answers
        left = replace(
            own,
            grades=tuple(one for one in own.grades if not one.by_region),
            choices=tuple(one for one in own.choices if not one.by_region),
        )
        session = put(session, row.stop.point, left, stamp, reason)
    return session


def given_by_region(answers: Answers) -> bool:
    """Was an answer given with the rest of its region?"""
    return any(row.by_region for row in (*answers.grades, *answers.choices))


def _as_asked(stop: Stop, ruleset: Ruleset, session: Session) -> Answers | None:
    """What 0 records at the point, marked as given by region; None where that is not one plain answer."""
    if not isinstance(stop.point, GradePoint | ChoicePoint):
        return None
    step = dialogue_for(stop.point, ruleset, Answers(), None, session.dog.sex).press("0")
    if step.answers is None or not step.go_on:
        return None
    return replace(
        step.answers,
        grades=tuple(_marked(row) for row in step.answers.grades),
        choices=tuple(_marked(row) for row in step.answers.choices),
    )


Row = TypeVar("Row", Grade, Choice)


def _marked(row: Row) -> Row:
    return row.model_copy(update={"by_region": True, "note": NOTE})
