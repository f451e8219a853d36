"""The scribe's line: whatever the evaluator calls out, for the whole dog, call after call."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Static
from textual.worker import Worker

from hands_on.exam.heard.hands import Draft
from hands_on.exam.heard.note import Heard
from hands_on.ruleset.base import UnitName
from hands_on.tui import keys
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.heard_rows import in_few_words
from hands_on.tui.parts.note_reader import NoteReader
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.show import fitted, line, plain
from hands_on.tui.widgets.findings import FindingList
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.note_line import NoteLine

HEAD = "Call out in any order · ^P ^N mark one · Enter records · Esc leaves"

CALLS = 3
"""How many of the last calls are shown."""

NEWEST = 4
"""Lines for what came of the newest."""


class ScribeScreen(SessionScreen):
    """The line stays open; below it the last calls and what came of them."""

    NAME = "scribe"
    CSS_PATH = "scribe.tcss"
    BINDINGS = keys.bindings("scribe")
    AUTO_FOCUS = ""

    def __init__(self, sheet: CurrentExamination, unit: UnitName | None = None) -> None:
        """`unit` is the one lengths are asked in on the screen before."""
        super().__init__(sheet)
        self.calls: list[tuple[str, str]] = []
        """What was called, and what came of it."""
        self.notes = NoteReader(self, recorded=self.recorded, put_aside=self.put_aside, unit=lambda: unit)

    def compose(self) -> ComposeResult:
        """State, line, last calls."""
        dog = self.sheet.session.dog
        yield TitleLine(
            f"Scribe's line · {dog.call_name or dog.registered_name} · {self.sheet.ruleset.edition.title}"
        )
        yield Static("", id="saved", markup=False)
        with Horizontal(id="body"):
            yield NoteLine(self.sheet.ruleset, self.NAME, HEAD, self.notes)
            with VerticalScroll(id="beside", can_focus=False):
                yield FindingList()
        yield Static("", id="message", classes="message", markup=False)
        yield Static("", id="calls", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """An empty line, or what was put aside."""
        self.query_one("#message").display = False
        self.notes.begin()
        self.notes.line.open(self.sheet.draft)
        self.show()

    def show(self) -> None:
        """State and last calls."""
        saved = self.query_one("#saved", Static)
        signed = " · SIGNED: calls become amendments" if self.sheet.signed else ""
        saved.update(plain(self.sheet.saved_state() + signed))
        saved.set_class(bool(self.sheet.unsaved or self.sheet.read_only), "-trouble")
        self.query_one(FindingList).show(self.sheet.ruleset, self.sheet.evaluation, in_short=False)
        calls = self.query_one("#calls", Static)
        calls.update(Content("\n").join(self._told_calls()))
        calls.set_class(not self.calls, "-none")

    def _told_calls(self) -> list[Content]:
        """The last calls, the newest first; what came of that one is told whole where there is room."""
        told, newest = [], len(self.calls)
        for number in range(newest, max(0, newest - CALLS), -1):
            text, came_of_it = self.calls[number - 1]
            rows = fitted(came_of_it, self.size.width - 6, NEWEST if number == newest else 1).split("\n")
            signs = ["=", *" " * len(rows)]
            told.append(line(f"{number}. {text}"))
            told += [plain(f"   {sign} {row}", "bold") for sign, row in zip(signs, rows, strict=False)]
        return told

    def say_here(self, text: str) -> None:
        """Tell something between the line and the calls."""
        message = self.query_one("#message", Static)
        message.update(plain(text))
        message.display = bool(text)
        self.show()

    def recorded(self, heard: Heard, saved: bool) -> None:
        """The next call may come at once."""
        self.calls.append((heard.text, in_few_words(heard, self.sheet.ruleset)))
        self.notes.line.fill(Draft())
        self.say_here("" if saved else self.sheet.saved_state())

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """The wording is ready, or can't be."""
        self.notes.worker_changed(event)

    def put_aside(self) -> None:
        """Leave; what is typed waits."""
        self.dismiss(None)
