"""The editions known, found as you type."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widgets import Input, OptionList

from hands_on.store.letters import folded
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.search_list import Found, SearchList

if TYPE_CHECKING:
    from hands_on.store.edition_heads import EditionHead


class EditionList(SearchList):
    """Editions; broken ones with their problem, or left out."""

    def __init__(self, heads: Sequence[EditionHead], *, broken: bool, breed: str = "") -> None:
        """The editions of `breed` come first and say so."""
        super().__init__(self._fitting, "breed, title or number")
        self.breed = breed.casefold()
        rows = [head for head in heads if broken or head.problem is None]
        self.heads = sorted(rows, key=lambda head: not self._same_breed(head))

    def show(self, heads: Sequence[EditionHead], name: str) -> None:
        """Other editions, all of them found, the one with the id `name` marked."""
        self.heads = list(heads)
        self.query_one(Input).value = ""
        self.search()
        at = next((at for at, head in enumerate(self.heads) if head.id == name), None)
        self.query_one(OptionList).highlighted = at

    def _same_breed(self, head: EditionHead) -> bool:
        return bool(self.breed) and head.breed.casefold() == self.breed

    def _fitting(self, text: str) -> list[Found]:
        words = folded(text).split()
        ranked = [
            (fit, at, head)
            for at, head in enumerate(self.heads)
            if (fit := how_well(head, words)) is not None
        ]
        return [
            Found(str(at), head_content(head, "the same breed" if self._same_breed(head) else ""))
            for _, at, head in sorted(ranked, key=lambda row: row[:2])
        ]

    def head(self, at: str) -> EditionHead:
        """The edition of a row."""
        return self.heads[int(at)]


def how_well(head: EditionHead, words: Sequence[str]) -> int | None:
    """How far an edition is from the folded words typed, 0 the nearest; None when one of them is not in it.

    The number of the standard comes before the names, the names before the year of the edition.
    """
    number, year = folded(head.number), folded(head.edition)
    names = folded(f"{head.breed} {head.title} {head.id} {head.body}").replace("-", " ").replace(year, "")
    text = folded(f"{head.breed} {head.title} {head.id} {head.number} {head.body}")
    far = 0
    for word in words:
        if word == number:
            continue
        if number.startswith(word):
            far += 1
        elif any(name.startswith(word) for name in names.split()):
            far += 2
        elif word in text:
            far += 4 if word in year else 3
        else:
            return None
    return far


def head_content(head: EditionHead, aside: str = "") -> Content:
    """An edition on one line, what is wrong with it or said of it under it."""
    first = Content.assemble(plain(head.title, "bold"), plain(f"  {head.id}"))
    if head.problem is not None:
        return Content.assemble(first, "\n    ", plain(f"BROKEN: {head.problem}"))
    note = dotted(aside, head.note)
    return Content.assemble(first, "\n    ", plain(note)) if note else first
