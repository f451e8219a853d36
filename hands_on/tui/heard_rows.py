"""What was heard in a note as lines: the note with its pieces marked, the findings by region."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from textual.content import Content

from hands_on.exam.heard.note import Heard, HeardFault, HeardMeasure, Thing
from hands_on.exam.heard.right import HeardRight, Hindrance
from hands_on.exam.session import NoteFinding
from hands_on.plain_text import one_line
from hands_on.ruleset.dentition import place_name
from hands_on.ruleset.points import ChoicePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui.show import dotted, line
from hands_on.wording.dogs import chance
from hands_on.wording.findings import side_words

UNREAD = "[?]"
"""Before a piece that was not understood."""

KEPT = "As asked only where nothing is recorded: nothing is overwritten."
"""Said once below points that were called right."""

STATUS_WORDS = {"absent": "ruled out", "unsure": "unsure"}

HINDERED: dict[Hindrance, str] = {
    "not here": "not asked here, stays in the words",
    "answered": "answered already",
    "skipped": "skipped already",
    "found": "a fault is found there",
    "own answer": "no answer as asked there, stays in the words",
}


@dataclass(frozen=True)
class HeardRow:
    """One thing heard, or one piece not understood."""

    region: str
    """Label of its region; empty for what was not understood."""
    sign: str
    """Number in brackets, as in the marked note; `=` before it: called right."""
    text: str
    id: str = ""
    """As read; empty for what was not understood."""


def in_order(heard: Heard, ruleset: Ruleset) -> tuple[Thing, ...]:
    """All that was heard by region, in the order of the examination; what is right after what is not."""
    order = {region.id: place for place, region in enumerate(ruleset.regions)}

    def place(thing: Thing) -> tuple[int, bool, tuple[int, int]]:
        at = order.get(_region(thing, ruleset), len(order))
        return at, isinstance(thing, HeardRight), thing.span

    return tuple(sorted(heard.things, key=place))


def heard_rows(heard: Heard, ruleset: Ruleset) -> tuple[HeardRow, ...]:
    """All that was heard by region, then what was not understood."""
    labels = {region.id: region.label for region in ruleset.regions}
    signs = signs_of(heard)
    rows = [
        HeardRow(
            labels.get(_region(thing, ruleset), "The dog"), signs[thing.id], told(thing, ruleset), thing.id
        )
        for thing in in_order(heard, ruleset)
    ]
    for start, end in heard.unread:
        piece = one_line(heard.text[start:end])
        rows.append(HeardRow("", UNREAD, f"not understood, stays in the words: {piece}"))
    return tuple(rows)


def told(thing: Thing, ruleset: Ruleset) -> str:
    """One thing heard with what becomes of it: `Steep shoulder · slight · taken`."""
    if isinstance(thing, HeardMeasure):
        return _measure_told(thing)
    if isinstance(thing, HeardRight):
        return _right_told(thing)
    side = side_words(thing.side, thing.worse)
    name = fault_words(ruleset, thing.fault, thing.degree, side, thing.status)
    if thing.read.teeth and thing.fault == thing.read.id:
        name = dotted(name, ", ".join(map(place_name, thing.read.teeth)))
    if thing.taken:
        return dotted(name, "taken by hand" if thing.by_hand else "taken")
    if thing.by_hand:
        return dotted(name, "dropped")
    others = ", ".join(ruleset.label(other) for other in thing.read.alternatives)
    return dotted(name, _to_be_confirmed(thing), f"or {others}" if others else "")


def _to_be_confirmed(thing: HeardFault | HeardRight) -> str:
    return f"to be confirmed ({chance(thing.read.confidence)})"


def _measure_told(measure: HeardMeasure) -> str:
    label = measure.point.label if measure.point is not None else measure.id
    name = dotted(f"{label} {measure.told}", measure.side or "")
    if measure.point is None:
        return dotted(name, "not asked here, stays in the words")
    if not measure.taken:
        return dotted(name, "dropped")
    if measure.odd:
        return dotted(name, "odd, will be asked about")
    return dotted(name, "a reading, settled by hand" if measure.by_hand else "a reading")


def _right_told(right: HeardRight) -> str:
    name = f"{_label(right)}: {one_line(right.words)}"
    if right.hindered is not None:
        return dotted(name, HINDERED[right.hindered])
    if right.by_hand and not right.taken:
        return dotted(name, "dropped")
    if right.asks:
        return dotted(name, "the tooth chart: asked about at Enter")
    sure = "taken by hand" if right.by_hand else "" if right.taken else _to_be_confirmed(right)
    return dotted(name, f"seen: {_option(right)}" if right.seen else "as asked", sure)


def _label(right: HeardRight) -> str:
    return right.point.label if right.point is not None else right.read.point


def _option(right: HeardRight) -> str:
    options = right.point.options if isinstance(right.point, ChoicePoint) else ()
    return next((option.label for option in options if option.id == right.seen), right.seen or "")


def fault_words(ruleset: Ruleset, fault: str, degree: str | None, side: str | None, status: str) -> str:
    """A fault with degree, side and status in words."""
    return dotted(ruleset.label(fault), degree or "", side or "", STATUS_WORDS.get(status, ""))


def about(thing: Thing, ruleset: Ruleset) -> str:
    """What must be known of the marked thing."""
    if isinstance(thing, HeardMeasure):
        if thing.point is None:
            return "This edition knows no such point; the number stays in the words."
        if thing.problem is not None and thing.taken:
            return f"! {thing.problem.message} Enter asks what was meant."
        return f"{thing.point.label}: a reading at its point."
    if isinstance(thing, HeardRight):
        if thing.hindered is not None:
            stays = " It stays as it is." if thing.hindered in ("answered", "skipped", "found") else ""
            return f"{_label(thing)}: {HINDERED[thing.hindered]}.{stays}"
        asked = ruleset.asked_at(thing.point) if thing.point is not None else None
        return (
            f"{_label(thing)}, asked: {asked.text}"
            if asked is not None
            else f"{_label(thing)}: called right."
        )
    known = ruleset.faults.get(thing.fault)
    others = ", ".join(ruleset.label(other) for other in thing.read.alternatives if other != thing.fault)
    meaning = f"{known.label}: {known.meaning}" if known is not None else thing.fault
    return f"{meaning} Or {others}: ^O." if others else meaning


def in_few_words(heard: Heard, ruleset: Ruleset) -> str:
    """What went on record, for telling it after Enter."""
    taken = [told_on_record(ruleset, row) for row in heard.findings("")]
    taken += [
        f"{measure.point.label} {measure.told}"
        for measure in heard.measures
        if measure.point is not None and measure.take() is not None
    ]
    if count := sum(one.taken for one in heard.right):
        taken.append(f"{count} point{'' if count == 1 else 's'} as asked")
    left = len(heard.unread) + sum(not thing.taken for thing in heard.things)
    words = f"{left} left in the words" if left and taken else ""
    return "; ".join([*taken, *([words] if words else [])]) or "kept as words, nothing taken from them"


def told_on_record(ruleset: Ruleset, row: NoteFinding) -> str:
    """A noted finding: `Steep shoulder, slight`, `Cow hocks, ruled out`."""
    side = side_words(row.side, row.worse)
    words = (ruleset.label(row.fault), row.degree, side, STATUS_WORDS.get(row.status))
    return ", ".join(filter(None, words))


def marked_note(heard: Heard, marked: str = "") -> Content:
    """The note on one line, each piece understood behind its number, what was not behind a question mark."""
    signs = signs_of(heard)
    spans = [(*thing.span, signs[thing.id], thing.id == marked) for thing in heard.things]
    cuts = {0, len(heard.text)}
    for start, end in ((start, end) for start, end, *_ in spans):
        cuts |= {start, end}
    for start, end in heard.unread:
        cuts |= {start, end}
    places = sorted(cuts)
    parts: list[Content] = []
    for start, end in pairwise(places):
        for begin, _, sign, chosen in spans:
            if begin == start:
                parts.append(Content.styled(sign, "bold reverse" if chosen else "bold"))
        over = [chosen for begin, stop, _, chosen in spans if begin <= start and end <= stop]
        lost = any(begin <= start and end <= stop for begin, stop in heard.unread)
        if lost and not over and any(begin == start for begin, _ in heard.unread):
            parts.append(Content.styled(UNREAD, "bold"))
        style = "bold reverse" if any(over) else "bold underline" if over else "italic" if lost else ""
        # one blank for one line break, so that places stay those of the note
        parts.append(line_piece(heard.text[start:end], style))
    return Content("").join(parts)


def line_piece(text: str, style: str) -> Content:
    """A piece of a line, its blanks kept."""
    head = " " if text[:1].isspace() else ""
    tail = " " if text.strip() and text[-1:].isspace() else ""
    return Content.assemble(head, line(text, style), tail)


def signs_of(heard: Heard) -> dict[str, str]:
    """The sign before each thing heard, by its id."""
    return {
        thing.id: f"[={number}]" if isinstance(thing, HeardRight) else f"[{number}]"
        for number, thing in enumerate(heard.things, 1)
    }


def _region(thing: Thing, ruleset: Ruleset) -> str:
    if isinstance(thing, HeardFault):
        known = ruleset.faults.get(thing.fault)
        return known.region if known is not None else thing.fault.split(".", 1)[0]
    return thing.point.region if thing.point is not None else ""
