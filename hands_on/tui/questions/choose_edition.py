"""An edition chosen: for a new examination, or another one beside it."""

from __future__ import annotations

from textual.app import ComposeResult

from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.widgets.edition_list import EditionList
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class ChooseEdition(Frame[str]):
    """Dismissed with the edition's id, or None."""

    NAME = "choose-edition"
    BINDINGS = keys.bindings("choose-edition")

    def __init__(
        self,
        title: str = "New examination: under which edition?",
        *,
        breed: str = "",
        without: str = "",
        broken: bool = False,
    ) -> None:
        """`breed`: its editions come first; `without`: the id that is left out; `broken` ones tell why."""
        super().__init__()
        self.ask_title, self.breed, self.without, self.broken = title, breed, without, broken

    def compose(self) -> ComposeResult:
        """The editions to choose from."""
        heads = self.program.library.heads(whole=self.broken)
        rows = [head for head in heads if not self.without or head.id != self.without]
        yield TitleLine(self.ask_title)
        yield EditionList(rows, broken=self.broken, breed=self.breed)
        yield FooterLine(self.NAME)

    def on_search_list_chosen(self, event: EditionList.Chosen) -> None:
        """Take it, or tell what is wrong with it."""
        head = self.query_one(EditionList).head(event.id)
        if head.problem is None:
            self.dismiss(head.id)
        else:
            self.program.say("This edition can't be used", str(head.problem))
