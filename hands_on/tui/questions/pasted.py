"""A text of many lines pasted or typed."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static, TextArea

from hands_on.tui import keys
from hands_on.tui.frame import Unasked
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class PastedScreen(Unasked[str]):
    """Dismissed with the text, or None."""

    NAME = "pasted"
    CSS_PATH = "pasted.tcss"
    BINDINGS = keys.bindings("pasted")
    AUTO_FOCUS = "TextArea"

    def __init__(self, title: str, ask: str) -> None:
        super().__init__()
        self.ask_title, self.ask = title, ask
        self.taken = False

    def compose(self) -> ComposeResult:
        """What is asked, and room for the text."""
        yield TitleLine(self.ask_title)
        yield Static(plain(self.ask), id="ask", markup=False)
        yield TextArea(soft_wrap=True, show_line_numbers=False)
        yield FooterLine(self.NAME)

    def typed(self) -> str:
        """The text. It is nobody's work and no standard's text is kept: none of it goes to the disk."""
        return self.query_one(TextArea).text.strip()

    def say_typed(self, text: str) -> None:
        """Tell something above the text."""
        self.query_one("#ask", Static).update(plain(text))

    def action_take(self) -> None:
        """Read the text; it takes a moment, which the screen says first."""
        if not self.taken:
            self.taken = True
            self.query_one("#ask", Static).update(plain("Reading the text ..."))
            self.call_after_refresh(self._close)

    def _close(self) -> None:
        # what a callback returns is awaited, and a screen that awaits its own closing waits for ever
        self.dismiss(self.query_one(TextArea).text)
