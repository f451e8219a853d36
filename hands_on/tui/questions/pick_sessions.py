"""Marking examinations: which are compared, which is gone back to."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content
from textual.events import Key
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from hands_on.store.headers import SessionHeader
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.kept import kept_rows
from hands_on.tui.keys.dialogue import figure
from hands_on.tui.show import dotted, line, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine

SEXES = {"male": "dog", "female": "bitch"}


class PickSessions(Frame[list[Path]]):
    """Dismissed with the files in the order in which they were marked, or None."""

    NAME = "pick-sessions"
    CSS_PATH = "pick_sessions.tcss"
    BINDINGS = keys.bindings("pick-sessions")
    AUTO_FOCUS = "OptionList"

    def __init__(self, title: str, ask: str, least: int, most: int, marked: Sequence[Path] = ()) -> None:
        """`least` and `most`: how many must and may be marked; `marked` are from the start."""
        super().__init__()
        self.pick_title, self.ask, self.least, self.most = title, ask, least, most
        self.marked: list[Path] = list(marked)
        self.rows: list[SessionHeader] = []
        self.names: dict[Path, str] = {}
        """What the dogs of all rows seen so far are called."""

    def compose(self) -> ComposeResult:
        """What is asked, the search line, the list, what is marked."""
        yield TitleLine(self.pick_title)
        yield Static(plain(self.ask), id="ask", markup=False)
        yield Input(placeholder="name, evaluator, place, number, date, ruleset", select_on_focus=False)
        yield OptionList(id="sessions")
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The newest first."""
        self.query_one(Input).display = False
        self._find("")

    def _find(self, text: str) -> None:
        self.rows = kept_rows(self.program, text, fresh=not self.names)
        self.names.update((row.path, row.call_name or row.path.name) for row in self.rows)
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([Option(self._line(n, row), id=str(n)) for n, row in enumerate(self.rows)])
        options.highlighted = 0 if self.rows else None
        self._tell(
            "" if self.rows else "No examination fits." if text else "No examination is kept here yet."
        )

    def _line(self, n: int, row: SessionHeader) -> Content:
        number = f"{n + 1}" if n < 9 else " "
        place = self.marked.index(row.path) + 1 if row.path in self.marked else 0
        mark = "" if self.most == 1 else f"[{place or ' '}] "
        day = f"{row.started:%Y-%m-%d}" if row.started else "no date   "
        name = row.call_name or row.registered_name or row.path.name
        state = "signed" if row.signed else "unfinished"
        copy = f"conflict copy of {row.copy_of}" if row.copy_of else ""
        aside = dotted(copy, SEXES.get(row.sex, ""), row.evaluator, row.ruleset, state)
        return Content.assemble((number, "bold"), f" {mark}{day}  ", line(name, "bold"), "  ", line(aside))

    def _tell(self, text: str) -> None:
        if not text and self.most > 1:
            told = ", ".join(
                f"{n} {self.names.get(path, path.name)}" for n, path in enumerate(self.marked, 1)
            )
            text = f"Marked: {told}" if told else "Nothing is marked yet."
        self.query_one("#message", Static).update(line(text))

    # --- keys

    def on_key(self, event: Key) -> None:
        """Digits mark a line."""
        if self.focused is self.query_one(Input):
            if event.key == "escape":
                event.stop()
                event.prevent_default()
                self._end_search()
            return
        number = figure(event)
        if number and number <= len(self.rows):
            event.stop()
            self.query_one(OptionList).highlighted = number - 1
            if self.most == 1:
                self.action_go_on()
            else:
                self.action_mark()

    def action_mark(self) -> None:
        """Mark the line, or take the mark away."""
        row = self._at
        if row is None:
            return
        if row.path in self.marked:
            self.marked.remove(row.path)
        elif len(self.marked) >= self.most:
            self._tell(f"{self.most} at most: take another mark away first.")
            return
        else:
            self.marked.append(row.path)
        options = self.query_one(OptionList)
        for n, one in enumerate(self.rows):
            options.replace_option_prompt_at_index(n, self._line(n, one))
        self._tell("")

    def on_option_list_option_selected(self) -> None:
        """Enter on the list."""
        self.action_go_on()

    def action_go_on(self) -> None:
        """Go on with what is marked."""
        row = self._at
        if self.most == 1:
            if row is not None:
                self.dismiss([row.path])
            return
        if len(self.marked) < self.least:
            self._tell(f"At least {self.least} must be marked: Space, or the line's number.")
            return
        self.dismiss(list(self.marked))

    def action_search(self) -> None:
        """To the search line."""
        search = self.query_one(Input)
        search.display = True
        search.focus()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Search as it is typed."""
        self._find(event.value.strip())

    def on_input_submitted(self) -> None:
        """Back to the list."""
        self._end_search()

    def _end_search(self) -> None:
        self.query_one(Input).display = bool(self.query_one(Input).value)
        self.query_one(OptionList).focus()

    @property
    def _at(self) -> SessionHeader | None:
        at = self.query_one(OptionList).highlighted
        return self.rows[at] if at is not None and at < len(self.rows) else None
