"""What was put right by hand in a note, as words of the evaluator's own to be known again.

Another fault was meant, a finding that would have been taken was dropped, or a fault was added for words that
nothing was read from. Taking what was offered, or another degree or side, is no such correction.
"""

from __future__ import annotations

import re

from hands_on.exam.heard.note import Heard, HeardFault
from hands_on.exam.heard.right import HeardRight
from hands_on.notes import OwnWords
from hands_on.notes.own_words import LONGEST

__all__ = ["put_right_by_hand"]

_CUT = re.compile(r"[.;:!?\n]|,(?!\d)|\b(?:and|but)\b", re.IGNORECASE)


def put_right_by_hand(heard: Heard, region: str = "") -> tuple[OwnWords, ...]:
    """The phrases that a note's corrections teach; `region` is the one on the screen, empty for any."""
    found = []
    for fault in heard.faults:
        said = _said(heard, fault)
        change = _change(fault)
        if change is not None and 0 < len(said) <= LONGEST:
            means, read_as = change
            found.append(OwnWords(said=said, means=means, read_as=read_as, region=region))
    return tuple(found)


def _change(fault: HeardFault) -> tuple[str, str] | None:
    """What was meant and what had been read; None where nothing was put right."""
    if fault.added:
        return (fault.fault, "") if fault.taken else None
    if not fault.by_hand:
        return None
    if not fault.taken:
        return ("", fault.read.id) if fault.read.accepted else None
    return (fault.fault, fault.read.id) if fault.fault != fault.read.id else None


def _said(heard: Heard, fault: HeardFault) -> str:
    """The clause a finding stands in; its own words alone where the clause tells more."""
    start, end = fault.span
    cuts = [0, *(m.end() for m in _CUT.finditer(heard.text)), len(heard.text)]
    first = max(cut for cut in cuts if cut <= start)
    after = [m.start() for m in _CUT.finditer(heard.text) if m.start() >= end]
    last = after[0] if after else len(heard.text)
    others = [
        thing.span
        for thing in heard.things
        if thing.id != fault.id and (thing.taken or not isinstance(thing, HeardRight))
    ]
    if any(begin < last and first < stop for begin, stop in others):
        first, last = start, end
    return " ".join(heard.text[first:last].split())
