"""The editions known, found as you type."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from hands_on.store.letters import folded
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.search_list import Found, SearchList

if TYPE_CHECKING:
    from hands_on.store.library import EditionHead


class EditionList(SearchList):
    """Editions; broken ones with their problem, or left out."""

    def __init__(self, heads: Sequence[EditionHead], *, broken: bool) -> None:
        super().__init__(self._fitting, "breed, title or number")
        self.heads = [head for head in heads if broken or head.problem is None]

    def _fitting(self, text: str) -> list[Found]:
        words = folded(text).split()
        return [
            Found(str(at), head_content(head))
            for at, head in enumerate(self.heads)
            if all(
                word in folded(f"{head.breed} {head.title} {head.id} {head.number} {head.body}")
                for word in words
            )
        ]

    def head(self, at: str) -> EditionHead:
        """The edition of a row."""
        return self.heads[int(at)]


def head_content(head: EditionHead) -> Content:
    """An edition on one line, what is wrong with it under it."""
    first = Content.assemble(plain(head.title, "bold"), plain(f"  {head.id}"))
    if head.problem is not None:
        return Content.assemble(first, "\n    ", plain(f"BROKEN: {head.problem}"))
    note = dotted(head.note)
    return Content.assemble(first, "\n    ", plain(note)) if note else first
