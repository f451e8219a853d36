"""The program with screens. Rulesets and sessions are imported and read only after the first paint."""

from __future__ import annotations

import datetime
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from textual.app import App
from textual.events import Event, InputEvent, Key, Paste, Resize
from textual.screen import Screen

from hands_on.plain_text import shell_word, visible
from hands_on.tui.ending import (
    LOOK,
    SIGNALLED,
    end_at_once,
    outlive_the_terminal,
    terminal_gone,
    watch_signals,
)
from hands_on.tui.frame import Frame, Home
from hands_on.tui.key_order import KeyOrder
from hands_on.tui.screens.start import StartScreen
from hands_on.tui.screens.too_small import LEAST_HEIGHT, LEAST_WIDTH, TooSmallScreen

if TYPE_CHECKING:
    from hands_on.store.library import Library
    from hands_on.tui.asks import Ask
    from hands_on.tui.current_examination import CurrentExamination
    from hands_on.tui.easel import Answer, Easel, Way

PLAIN_TERMINALS = ("linux", "vt100", "vt102", "vt220", "ansi", "cons25")
"""Terminals with the basic colours at most."""


class HandsOn(App[int]):
    """The screens of Hands On."""

    TITLE = "Hands On"
    CSS_PATH = ["app.tcss", "screens/start.tcss"]
    """The start screen's styles too: of a default screen Textual loads none of its own."""
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (36, "-tall")]

    def __init__(
        self,
        sessions: Path,
        rulesets: Sequence[Path],
        *,
        notice: str = "",
        opens: Ask | None = None,
    ) -> None:
        # Before Textual takes NO_COLOR out of the environment; with its own colours it would only turn grey.
        plain = bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM", "") in PLAIN_TERMINALS
        super().__init__(ansi_color=True if plain else None)
        self.sessions, self.ruleset_folders = sessions, tuple(rulesets)
        self.notice, self.opens = notice, opens
        self.easel: Easel | None = None
        """How drawings are shown in pixels; None where they are shown in characters."""
        self._answer: Answer | None = None
        self._order = KeyOrder(self, super().on_event)
        self.examiner = ""
        self.farewell: list[str] = []
        """Lines printed when the screens have closed."""
        self._library: Library | None = None
        if plain:
            self.theme = "ansi-dark"

    @property
    def library(self) -> Library:
        """The rulesets known; imported when first asked for."""
        if self._library is None:
            from hands_on.store.library import Library

            self._library = Library(self.ruleset_folders)
        return self._library

    @property
    def own_rulesets(self) -> Path:
        """The folder of the user's own editions."""
        return self.ruleset_folders[-1]

    @property
    def examiner_shown(self) -> str:
        """Whose name stands on the screen: of the examination that is open, else who examines here."""
        for screen in reversed(self.screen_stack):
            sheet = getattr(screen, "sheet", None)
            if sheet is not None:
                return str(sheet.session.examination.evaluator)
        return self.examiner

    @staticmethod
    def now() -> datetime.datetime:
        """The time now, to the second, with its offset."""
        from hands_on.exam.dates import as_written  # not before the first paint

        return as_written(datetime.datetime.now().astimezone().replace(microsecond=0))

    def get_default_screen(self) -> Screen[None]:
        """The start screen: nothing else is drawn before it."""
        return StartScreen()

    def on_mount(self) -> None:
        """What was asked for on the command line opens over the start screen."""
        if not self.is_headless:
            watch_signals(self.told_to_end)
            outlive_the_terminal()
            self.set_interval(LOOK, self._look_for_terminal)
            self.call_after_refresh(self._look_for_pictures)
        if self.opens is not None:
            self.call_after_refresh(self.go, self.opens)

    def on_resize(self, event: Resize) -> None:
        """Say so where the terminal is too small, rather than show half of everything."""
        if self.easel is not None:
            self.easel = self.easel.fitted()
        small = event.size.width < LEAST_WIDTH or event.size.height < LEAST_HEIGHT
        if small and not isinstance(self.screen, TooSmallScreen):
            self.push_screen(TooSmallScreen())
        elif not small and isinstance(self.screen, TooSmallScreen):
            self.pop_screen()

    async def on_event(self, event: Event) -> None:
        """Take what is pasted as text: control characters in it become visible signs, lines stay lines."""
        if isinstance(event, (InputEvent, Paste)) and not self.screen_stack:
            return  # typed while the program closes
        if isinstance(event, Paste):
            lines = event.text.replace("\r\n", "\n").replace("\r", "\n")
            event.text = visible(lines, keep="\n\t")
        if not isinstance(event, (Key, Paste)) or event.is_forwarded:
            await super().on_event(event)
        elif isinstance(event, Key) and self._answer is not None and self._answer.takes(event.character):
            if self._answer.sixel:
                self._show_pictures("sixel")
        else:
            await self._order.take(event)

    async def _on_key(self, event: Key) -> None:
        """A key that nothing took; one pressed ahead of another screen or line goes to that now."""
        if self._order.comes_back(event):
            event.prevent_default()

    async def action_quit(self) -> None:
        """Ctrl+Q: as leaving by the screen's own key, so that nothing unsaved is lost unasked."""
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Frame) and screen.would_lose():
                if isinstance(self.screen, Frame):  # first the questions over it, as by Esc
                    self.screen.ask_to_leave()
                return
        self._close_examinations()
        self.exit(0)

    def told_to_end(self, code: int) -> None:
        """From outside: keep what is being written, give back terminal and session."""
        for screen in self.screen_stack:
            if isinstance(screen, Frame):
                screen.keep_typed()
        self._close_examinations()
        if terminal_gone():
            end_at_once(code)
        self.exit(return_code=code)

    def _look_for_pictures(self) -> None:
        from hands_on.tui.easel import PATIENCE, QUESTION, Answer, installed, wanted

        way = wanted(dict(os.environ))
        if way == "no" or self._driver is None or not installed():
            return
        if way != "ask":
            self._show_pictures(way)
            return
        self._answer = Answer()
        self._driver.write(QUESTION)
        self._driver.flush()
        self.set_timer(PATIENCE, self._answer.too_late)

    def _show_pictures(self, way: Way) -> None:
        from hands_on.tui.easel import easel_of

        self.easel = easel_of(way)
        for drawing in self.screen.query("PicturedText"):
            drawing.post_message(Resize(drawing.size, drawing.virtual_size))

    def _look_for_terminal(self) -> None:
        if terminal_gone():
            self.told_to_end(SIGNALLED + 1)

    def _close_examinations(self) -> None:
        from hands_on.tui.session_screen import SessionScreen

        for sheet in {screen.sheet for screen in self.screen_stack if isinstance(screen, SessionScreen)}:
            self.farewell = farewell(sheet)
            sheet.close()

    def go(self, ask: Ask) -> None:
        """Do what a screen asks for; `tui.routes` tells where that leads."""
        from hands_on.tui.routes import follow

        follow(self, ask)

    def say(self, title: str, text: str) -> None:
        """Show a text that must be read, until a key closes it."""
        from hands_on.tui.questions.reading import Paragraph, ReadingScreen

        self.push_screen(ReadingScreen(title, [Paragraph(text)]))

    def leave_session(self, sheet: CurrentExamination) -> None:
        """Close the session and show the screen it was begun from; how to go on is told on leaving too."""
        self.farewell = farewell(sheet)
        sheet.close()
        while len(self.screen_stack) > 1 and not isinstance(self.screen, Home):
            self.pop_screen()
        if isinstance(self.screen, Home):
            self.screen.refresh_lists()


def farewell(sheet: CurrentExamination) -> list[str]:
    """What is told when an examination was left: only of what is on the disk that it is saved."""
    if sheet.read_only:
        return []
    if not sheet.on_disk:
        return [f"Not saved: {sheet.path}: {sheet.unsaved or 'the file is not there any more'}."]
    if sheet.session.signature is not None:
        return [f"Saved: {sheet.path}"]
    return [f"Saved: {sheet.path}", f"Go on with: hands-on examine {shell_word(str(sheet.path))}"]
