"""A line to be typed, over the screen that asks for it."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Input, Static

from hands_on.plain_text import visible
from hands_on.tui import keys
from hands_on.tui.frame import Over, Unasked
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class TypedScreen(Unasked[str], Over[str]):
    """Asks for a line of text; dismissed with it, or None."""

    NAME = "typed"
    CSS_PATH = "typed.tcss"
    BINDINGS = keys.bindings("typed")

    def __init__(
        self, title: str, ask: str, value: str = "", *, wrong: Callable[[str], str] | None = None
    ) -> None:
        """`wrong` says what is wrong with a text; empty takes it. Without it any text but none is taken."""
        super().__init__()
        self.question_title, self.ask, self.start = title, ask, visible(value)
        self.wrong = wrong or (lambda text: "" if text else "Something must be typed here.")

    def compose(self) -> ComposeResult:
        """The question, the line, what is wrong with it."""
        with Vertical(id="box"):
            yield TitleLine(self.question_title)
            yield Static(plain(self.ask), id="ask", markup=False)
            yield Input(self.start, select_on_focus=False)
            yield Static("", id="message", classes="message", markup=False)
            yield FooterLine(self.NAME)

    def typed(self) -> str:
        """The line."""
        return self.query_one(Input).value

    def say_typed(self, text: str) -> None:
        """Tell something under the line."""
        self.query_one("#message", Static).update(plain(text))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the line, or say what is wrong with it."""
        event.stop()
        text = event.value.strip()
        wrong = self.wrong(text)
        if wrong:
            self.told_of = self.typed()
            self.say_typed(wrong)
        else:
            self.dismiss(text)
