"""The scribe's line: whatever the evaluator calls out, for the whole dog, call after call."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from hands_on.exam.heard import Draft, Heard
from hands_on.tui import keys
from hands_on.tui.heard_rows import in_few_words
from hands_on.tui.screens.scribing import Scribing
from hands_on.tui.show import line, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.note_line import NoteLine

HEAD = "Call out in any order · ↑ ↓ mark what was heard · Enter records · Esc leaves"

CALLS = 3
"""How many of the last calls are shown."""


class ScribeScreen(Scribing):
    """The line stays open; below it the last calls and what came of them."""

    NAME = "scribe"
    CSS_PATH = "scribe.tcss"
    BINDINGS = keys.bindings("scribe")
    AUTO_FOCUS = ""

    def compose(self) -> ComposeResult:
        """State, line, last calls."""
        dog = self.sheet.session.dog
        yield TitleLine(
            f"Scribe's line · {dog.call_name or dog.registered_name} · {self.sheet.ruleset.edition.title}"
        )
        yield Static("", id="saved", markup=False)
        yield NoteLine(self.sheet.ruleset, self.NAME, HEAD)
        yield Static("", id="message", classes="message", markup=False)
        yield Static("", id="calls", markup=False)
        yield FooterLine(self.NAME)

    def on_mount(self) -> None:
        """An empty line, or what was put aside."""
        self.calls: list[Content] = []
        self.query_one("#message").display = False
        self.note_line.open(self.sheet.draft)
        self.show()

    def show(self) -> None:
        """State and last calls."""
        saved = self.query_one("#saved", Static)
        signed = " · SIGNED: calls become amendments" if self.sheet.signed else ""
        saved.update(plain(self.sheet.saved_state() + signed))
        saved.set_class(bool(self.sheet.unsaved or self.sheet.read_only), "-trouble")
        calls = self.query_one("#calls", Static)
        calls.update(Content("\n").join(reversed(self.calls[-CALLS:])))
        calls.display = bool(self.calls)

    def say_here(self, text: str) -> None:
        """Tell something between the line and the calls."""
        message = self.query_one("#message", Static)
        message.update(plain(text))
        message.display = bool(text)
        self.show()

    def recorded(self, heard: Heard, *, saved: bool) -> None:
        """The next call may come at once."""
        number = len(self.calls) + 1
        came_of_it = in_few_words(heard, self.sheet.ruleset)
        self.calls.append(
            Content("\n").join([line(f"{number}. {heard.text}"), plain(f"   = {came_of_it}", "bold")])
        )
        self.note_line.fill(Draft())
        self.say_here("" if saved else self.sheet.saved_state())

    def put_aside(self) -> None:
        """Leave; what is typed waits."""
        self.dismiss(None)
