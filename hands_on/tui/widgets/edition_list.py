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
    from hands_on.store.library import EditionHead


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
        return [
            Found(str(at), head_content(head, "the same breed" if self._same_breed(head) else ""))
            for at, head in enumerate(self.heads)
            if all(
                word in folded(f"{head.breed} {head.title} {head.id} {head.number} {head.body}")
                for word in words
            )
        ]

    def head(self, at: str) -> EditionHead:
        """The edition of a row."""
        return self.heads[int(at)]


def head_content(head: EditionHead, aside: str = "") -> Content:
    """An edition on one line, what is wrong with it or said of it under it."""
    first = Content.assemble(plain(head.title, "bold"), plain(f"  {head.id}"))
    if head.problem is not None:
        return Content.assemble(first, "\n    ", plain(f"BROKEN: {head.problem}"))
    note = dotted(aside, head.note)
    return Content.assemble(first, "\n    ", plain(note)) if note else first
