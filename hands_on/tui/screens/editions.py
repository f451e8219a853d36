"""The editions known: one of them to read with its sources, two rule by rule, a new one begun."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from hands_on.tui import keys
from hands_on.tui.asks import AgainstAnother, NewEdition, ReadEdition, WriteEdition
from hands_on.tui.frame import Frame
from hands_on.tui.widgets.edition_list import EditionList
from hands_on.tui.widgets.lines import FooterLine, TitleLine

if TYPE_CHECKING:
    from hands_on.store.edition_heads import EditionHead


class EditionsScreen(Frame[None]):
    """A list; Enter reads an edition, or tells what is wrong with it."""

    NAME = "editions"
    BINDINGS = keys.bindings("editions")

    def compose(self) -> ComposeResult:
        """All editions, broken ones too."""
        yield TitleLine("Rulesets: the breed standards known here")
        yield EditionList(self.program.library.heads(whole=True), broken=True)
        yield FooterLine(self.NAME)

    @property
    def marked(self) -> EditionHead | None:
        """The edition of the marked row."""
        editions = self.query_one(EditionList)
        return editions.head(editions.marked) if editions.marked is not None else None

    def action_compare(self) -> None:
        """The marked edition and another, rule by rule."""
        if self.marked is not None:
            self.program.go(AgainstAnother(self.marked))

    def action_new(self) -> None:
        """Begin a new edition."""
        self.program.go(NewEdition(self.marked, self._begun))

    def action_write(self) -> None:
        """Go on writing the marked edition, where it is one of the user's own."""
        marked = self.marked
        if marked is None:
            return
        if os.path.realpath(marked.path.parent) == os.path.realpath(self.program.own_rulesets):
            self.program.go(WriteEdition(marked.path, lambda: self._begun(marked.id)))
        else:
            self.program.say(
                "Shipped with the program", "Begin your own from it with F2, then write that one."
            )

    def _begun(self, name: str) -> None:
        self.query_one(EditionList).show(self.program.library.heads(whole=True), name)

    def on_search_list_chosen(self, event: EditionList.Chosen) -> None:
        """Read it."""
        self.program.go(ReadEdition(self.query_one(EditionList).head(event.id)))
