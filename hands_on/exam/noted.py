"""Where a finding accepted from a note belongs."""

from __future__ import annotations

from hands_on.exam.session import Note, NoteFinding
from hands_on.ruleset.ruleset import Ruleset


def place_of(ruleset: Ruleset, note: Note, finding: NoteFinding) -> str:
    """The point a noted finding belongs to: the note's own where that can answer the fault, else the fault's
    first; a fault without a point stays where it was noted. Empty when there is none.

    A note may speak of another part of the dog than the one it was written at.
    """
    places = ruleset.points_of_fault.get(finding.fault, ())
    return note.point if note.point in places or not places else places[0]
