"""The summary in the evaluator's own words."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.widgets import Static, TextArea

from hands_on.plain_text import visible
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class SummaryScreen(Frame[str]):
    """Dismissed with the text; leaving keeps it."""

    NAME = "summary"
    CSS_PATH = "summary.tcss"
    BINDINGS = keys.bindings("summary")

    def __init__(self, text: str, changed: Callable[[str], None]) -> None:
        """`changed` gets the text whenever it changes, so that it can be kept while it is written."""
        super().__init__()
        self.text, self._changed = text, changed

    def compose(self) -> ComposeResult:
        """One large text."""
        yield TitleLine("Summary")
        yield Static(
            "The dog in your own words. Esc or F2 keeps what is written.", classes="hint", markup=False
        )
        yield TextArea(
            visible(self.text, keep="\n\t"), soft_wrap=True, show_line_numbers=False, tab_behavior="focus"
        )
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Go on writing at the end."""
        area = self.query_one(TextArea)
        area.move_cursor(area.document.end)
        area.focus()

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """Tell what is written now."""
        if event.text_area.text != visible(self.text, keep="\n\t"):
            self._changed(event.text_area.text)

    def would_lose(self) -> bool:
        """Leaving it keeps what was changed."""
        return self.query_one(TextArea).text != visible(self.text, keep="\n\t")

    def action_back(self) -> None:
        """Keep it."""
        self.dismiss(self.query_one(TextArea).text)
