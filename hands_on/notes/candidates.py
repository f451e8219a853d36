"""A finding before its status is known, and the findings that the steps of binding collect."""

from dataclasses import dataclass
from typing import Final

from hands_on.notes.belonging import Belonging
from hands_on.notes.clauses import Item
from hands_on.notes.context import Context
from hands_on.notes.meanings import Meanings, twin

__all__ = ["DOUBTFUL", "Candidate", "Found", "Step"]

DOUBTFUL: Final = 0.4


@dataclass(slots=True)
class Candidate:
    """A finding before its status, degree and side are known. `anchor` is the word the fault hangs on."""

    faults: tuple[str, ...]
    segment: int
    anchor: Item
    words: tuple[int, ...]
    origin: str
    cost: float
    marks: str = ""  # those of Gives, and `c` for a single everyday word
    ambiguous: bool = False
    foreign: int = 0
    part: Item | None = None
    about: tuple[int, ...] = ()
    """The words of a part named in another clause: the `lips` of `lips: too long`."""


class Found:
    """The findings of one stretch so far, and the part to which each quality was bound."""

    def __init__(self, context: Context) -> None:
        self.context = context
        self.lexicon = context.lexicon
        self.region = context.region
        self.meanings = Meanings(context)
        self.belongs = Belonging(context)
        self.out: list[Candidate] = []
        self.part_of: dict[int, Item] = {}

    def add(
        self,
        faults: tuple[str, ...],
        number: int,
        anchor: Item,
        words: tuple[int, ...],
        origin: str,
        cost: float,
        marks: str = "",
        part: Item | None = None,
        foreign: int = 0,
        about: tuple[int, ...] = (),
    ) -> None:
        ordered, ambiguous = self.meanings.rank(faults, number)
        moved = self.lexicon.moving.get(ordered[0])
        moving = self.context.moving_here(number) or self.region == "movement"
        if moved is not None and moved in self.lexicon.regions and moving:
            ordered = (moved, *(f for f in ordered if f != moved))
        vague = part is not None and all(q in ("lack", "excess") for q, _ in anchor.qualities)
        if cost >= DOUBTFUL and vague and self.lexicon.regions.get(ordered[0]) != self.region:
            return
        if cost >= DOUBTFUL and not self.meanings.at_home(ordered[0], words):
            return
        pair = [(f,) for f in ordered if f == ordered[0] or f == twin(ordered[0])]
        readings = pair if len(pair) > 1 and self.context.both_ends(anchor) else [ordered]
        for faults in readings:
            unsure = ambiguous and len(readings) == 1
            self.out.append(
                Candidate(faults, number, anchor, words, origin, cost, marks, unsure, foreign, part, about)
            )


class Step:
    """One step of binding: looks at the clauses in their order and adds to what was found."""

    def __init__(self, found: Found) -> None:
        self.found = found
        self.context = found.context
        self.meanings = found.meanings
        self.belongs = found.belongs
        self.parsed = found.context.parsed
        self.lexicon = found.context.lexicon
        self.region = found.context.region
