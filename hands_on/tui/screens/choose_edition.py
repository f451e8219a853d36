"""Under which edition a new examination is held."""

from __future__ import annotations

from textual.app import ComposeResult

from hands_on.tui import keys
from hands_on.tui.screens.frame import Frame
from hands_on.tui.widgets.edition_list import EditionList
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class ChooseEdition(Frame[str]):
    """Dismissed with the edition's id, or None."""

    NAME = "choose-edition"
    BINDINGS = keys.bindings("choose-edition")

    def __init__(self, title: str = "New examination: under which edition?") -> None:
        super().__init__()
        self.ask_title = title

    def compose(self) -> ComposeResult:
        """The editions that can be used."""
        yield TitleLine(self.ask_title)
        yield EditionList(self.hands_on.library.heads(), broken=False)
        yield FooterLine(self.NAME)

    def on_search_list_chosen(self, event: EditionList.Chosen) -> None:
        """Take it."""
        self.dismiss(self.query_one(EditionList).head(event.id).id)
