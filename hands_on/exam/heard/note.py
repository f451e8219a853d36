"""What was heard in a note, and what whoever types makes of it before it goes on record.

note --read_note--> Reading --hear(by hand)--> Heard --settle--> findings of the Note, takes, answers
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Literal

from hands_on.exam.answers import Stamp, add_note, amended, answers_at, put
from hands_on.exam.dialogue.measure import read_entry, shown, take_of
from hands_on.exam.heard.hands import ByHand, Hands
from hands_on.exam.heard.right import HeardRight, heard_right, put_right
from hands_on.exam.likely import likely_range
from hands_on.exam.session import Note, NoteFinding, Session, Status, Take
from hands_on.frozen import dataclass
from hands_on.measure.asked_reading import Entry
from hands_on.measure.entry import EntryProblem
from hands_on.notes import FoundFault, FoundMeasure, Reading
from hands_on.ruleset.base import DEGREES, Degree, Side, UnitName
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "Heard",
    "HeardFault",
    "HeardMeasure",
    "Thing",
    "as_fault",
    "hear",
    "next_degree",
    "next_side",
    "next_status",
    "put_heard",
    "settled",
    "toggled",
    "unit_in_use",
    "with_added",
]

_SIDES: tuple[Side, ...] = ("left", "right", "both")
Worse = Literal["left", "right"] | None
_STATUSES: tuple[Status, ...] = ("present", "absent", "unsure")


@dataclass(frozen=True)
class HeardFault:
    """A fault heard, as it would go on record."""

    read: FoundFault
    fault: str
    degree: Degree | None
    side: Side | None
    status: Status
    worse: Worse
    """Of both sides the worse, where the note compares them."""
    taken: bool
    """Goes on record: the program is sure enough, or it was taken by hand."""
    by_hand: bool
    """Somebody took, dropped or changed it."""
    added: bool = False
    """Nothing was read from its words: the fault was picked for them."""

    @property
    def id(self) -> str:
        """What it is called as read; once in a note."""
        return self.read.id

    @property
    def span(self) -> tuple[int, int]:
        """Its piece of the note."""
        return self.read.span

    def finding(self, by: str) -> NoteFinding:
        """The finding on record; `by` took it, where it was by hand."""
        as_read = self.fault == self.read.id and self.status == self.read.status
        return NoteFinding(
            fault=self.fault,
            degree=self.degree,
            side=self.side,
            worse=self.worse,
            status=self.status,
            confidence=round(self.read.confidence, 3) if as_read else None,
            taken_by=by if self.by_hand else "",
        )


@dataclass(frozen=True)
class HeardMeasure:
    """A measurement heard: a reading at its point, an odd one, or one that has no point here."""

    read: FoundMeasure
    words: str
    """Its piece of the note."""
    point: MeasurePoint | None
    """None: this edition knows no such point; the number stays in the words."""
    entry: Entry | None
    problem: EntryProblem | None
    """What is odd; it must be settled before anything is recorded."""
    side: Side | None
    taken: bool
    by_hand: bool

    @property
    def id(self) -> str:
        """The measurement's id."""
        return self.read.id

    @property
    def span(self) -> tuple[int, int]:
        """Its piece of the note."""
        return self.read.span

    @property
    def odd(self) -> bool:
        """Must it be asked about?"""
        return self.taken and self.problem is not None

    def take(self) -> Take | None:
        """The reading on record; None where there is none."""
        if self.point is None or self.entry is None or not self.taken:
            return None
        return take_of(self.point, self.entry, self.words, self.side)

    @property
    def told(self) -> str:
        """The value with its unit."""
        if self.entry is not None:
            return shown(self.entry)
        return f"{self.read.value:g} {self.read.unit or ''}".strip()


Thing = HeardFault | HeardMeasure | HeardRight


@dataclass(frozen=True)
class Heard:
    """All that was heard in one note."""

    text: str
    faults: tuple[HeardFault, ...] = ()
    measures: tuple[HeardMeasure, ...] = ()
    right: tuple[HeardRight, ...] = ()
    """Points called right."""
    unread: tuple[tuple[int, int], ...] = ()
    """The stretches that were not understood."""

    @property
    def things(self) -> tuple[Thing, ...]:
        """All of them in the order of the words."""
        return tuple(sorted((*self.faults, *self.measures, *self.right), key=lambda thing: thing.span))

    def findings(self, by: str) -> tuple[NoteFinding, ...]:
        """What goes on record with the words."""
        return tuple(fault.finding(by) for fault in self.faults if fault.taken)

    def takes(self) -> tuple[Take, ...]:
        """The readings that go on record at their points."""
        return tuple(take for measure in self.measures if (take := measure.take()) is not None)

    def first_odd(self) -> HeardMeasure | None:
        """The first reading that must be asked about."""
        return next((measure for measure in self.measures if measure.odd), None)


def hear(
    reading: Reading,
    hands: Hands,
    ruleset: Ruleset,
    unit: UnitName | None = None,
    session: Session | None = None,
) -> Heard:
    """What `reading` says under this edition, with what was changed by hand.

    `unit` (cm or in) is meant where lengths come without one; otherwise each point's own. With the `session`
    a reading far from what the edition asks of this dog is odd too.
    """
    more = _added(reading, hands)
    faults = (
        *(_fault(read, hands.get(read.id, {})) for read in reading.faults),
        *(replace(_fault(read, hands[read.id]), added=True) for read in more),
    )
    measures = tuple(
        _measure(read, reading.note, hands.get(read.id, {}), ruleset, unit, session)
        for read in reading.measures
    )
    unread = tuple(
        (start, end)
        for start, end in reading.unread
        if reading.note[start:end].strip() and not any(f.span[0] < end and start < f.span[1] for f in more)
    )
    right = heard_right(reading.affirmed, reading.note, ruleset, hands)
    return Heard(reading.note, faults, measures, right, unread)


def _added(reading: Reading, hands: Hands) -> list[FoundFault]:
    """The faults added for words that nothing was read from, while those words stand in the note."""
    found = []
    for name, hand in hands.items():
        at = reading.note.find(words) if (words := hand.get("words", "")) else -1
        if at >= 0 and all(read.id != name for read in reading.faults):
            found.append(FoundFault(name, None, None, "present", 1.0, (at, at + len(words)), True))
    return found


def _fault(read: FoundFault, hand: ByHand) -> HeardFault:
    side: Side | None = hand["side"] if "side" in hand else _one_of(_SIDES, read.side)
    return HeardFault(
        read,
        fault=hand.get("fault", read.id),
        degree=hand["degree"] if "degree" in hand else _one_of(DEGREES, read.degree),
        side=side,
        worse=_one_of(_SIDES[:2], read.worse) if side == "both" else None,
        status=hand.get("status", _one_of(_STATUSES, read.status) or "unsure"),
        taken=hand.get("taken", read.accepted),
        by_hand=bool(hand),
    )


def _measure(
    read: FoundMeasure,
    note: str,
    hand: ByHand,
    ruleset: Ruleset,
    unit: UnitName | None,
    session: Session | None,
) -> HeardMeasure:
    known = ruleset.points.get(read.id)
    point = known if isinstance(known, MeasurePoint) else None
    words = note[read.span[0] : read.span[1]]
    entry, problem = None, None
    if point is not None:
        if "entry" in hand and hand.get("number") == read.value:
            entry = hand["entry"]
        else:
            meant = unit if unit is not None and point.quantity == "length" else point.unit
            try:
                likely = likely_range(ruleset, session, point) if session is not None else None
                entry = read_entry(point, f"{read.value:.10g} {read.unit or ''}", meant, likely)
            except EntryProblem as odd:
                problem = odd
    taken = point is not None and hand.get("taken", True)
    return HeardMeasure(read, words, point, entry, problem, hand.get("side"), taken, bool(hand))


def _one_of(known: Sequence[Any], value: str | None) -> Any:
    return value if value in known else None


# --- what can be changed by hand


def changed(hands: Hands, thing: Thing, change: ByHand) -> Hands:
    """`hands` with a change; whoever changes a finding takes it."""
    before: ByHand = hands.get(thing.id, {})
    return {**hands, thing.id: {**before, "taken": True, **change}}


def toggled(hands: Hands, thing: Thing) -> Hands:
    """Taken, or dropped if it was."""
    return changed(hands, thing, {"taken": not thing.taken})


def next_degree(hands: Hands, fault: HeardFault) -> Hands:
    """The next degree; behind the last none."""
    return changed(hands, fault, {"degree": _next((None, *DEGREES), fault.degree)})


def next_side(hands: Hands, thing: HeardFault | HeardMeasure) -> Hands:
    """The next side; behind `both` none. A reading is of one side."""
    sides = _SIDES if isinstance(thing, HeardFault) else _SIDES[:2]
    return changed(hands, thing, {"side": _next((None, *sides), thing.side)})


def next_status(hands: Hands, fault: HeardFault) -> Hands:
    """Present, ruled out, unsure."""
    return changed(hands, fault, {"status": _next(_STATUSES, fault.status)})


def as_fault(hands: Hands, fault: HeardFault, name: str) -> Hands:
    """Another fault was meant."""
    return changed(hands, fault, {"fault": name})


def with_added(hands: Hands, name: str, words: str) -> Hands:
    """A fault added for words of the note that nothing was read from."""
    return {**hands, name: {"taken": True, "words": words}}


def settled(hands: Hands, measure: HeardMeasure, entry: Entry | None) -> Hands:
    """What an odd reading was meant as; None leaves it in the words alone."""
    if entry is None:
        return changed(hands, measure, {"taken": False})
    return changed(hands, measure, {"number": measure.read.value, "entry": entry})


def _next(values: Sequence[Any], value: Any) -> Any:
    return values[(values.index(value) + 1) % len(values)]


# --- on record


def put_heard(
    session: Session,
    ruleset: Ruleset,
    note: Note,
    takes: Sequence[Take],
    stamp: Stamp,
    reason: str = "",
    right: Sequence[HeardRight] = (),
) -> Session:
    """A session with one more note, `takes` added at their points, and what is `right` answered as asked.

    Raises SignedSession when signed and no `reason` is given.
    """
    for name in dict.fromkeys(take.point for take in takes):
        own = answers_at(session, ruleset.points[name])
        more = tuple(take for take in takes if take.point == name)
        answers = replace(own, takes=(*own.takes, *more), skip=None)
        session = put(session, ruleset.points[name], answers, stamp, reason)
    session = put_right(session, ruleset, right, stamp, reason)
    return add_note(session, note, stamp, reason)


def unit_in_use(session: Session) -> UnitName | None:
    """Inches where at least two lengths were taken and most in inches; None: each point's own unit.

    One length called out in inches must not turn the numbers after it into inches.
    """
    taken = [take.unit for take in amended(session).takes if take.unit in ("cm", "in") and not take.struck]
    inches = taken.count("in")
    return "in" if inches > 1 and 2 * inches > len(taken) else None
