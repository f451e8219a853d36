"""The summary in the evaluator's own words."""

from __future__ import annotations

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

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

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

    def action_back(self) -> None:
        """Keep it."""
        self.dismiss(self.query_one(TextArea).text)
