"""The program with screens. Rulesets and sessions are imported and read only after the first paint."""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual.app import App
from textual.events import Event, Key, Paste, Resize

from hands_on.plain_text import visible
from hands_on.tui.screens.frame import Home
from hands_on.tui.screens.start import StartScreen
from hands_on.tui.screens.too_small import LEAST_HEIGHT, LEAST_WIDTH, TooSmallScreen

if TYPE_CHECKING:
    from hands_on.store.library import Library
    from hands_on.tui.sheet import Sheet

PLAIN_TERMINALS = ("linux", "vt100", "vt102", "vt220", "ansi", "cons25")
"""Terminals with the basic colours at most."""


class HandsOn(App[int]):
    """The screens of Hands On."""

    TITLE = "Hands On"
    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (36, "-tall")]

    def __init__(
        self,
        sessions: Path,
        rulesets: Sequence[Path],
        *,
        examine: Path | None = None,
        new: bool = False,
        ruleset: str | None = None,
        notice: str = "",
        opens: Callable[[HandsOn], object] | None = None,
    ) -> None:
        # Before Textual takes NO_COLOR out of the environment; with its own colours it would only turn grey.
        plain = bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM", "") in PLAIN_TERMINALS
        super().__init__(ansi_color=True if plain else None)
        self.sessions, self.ruleset_folders = sessions, tuple(rulesets)
        self.examine, self.new, self.ruleset = examine, new, ruleset
        self.notice, self.opens = notice, opens
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

    @staticmethod
    def now() -> datetime.datetime:
        """The time now, to the second, with its offset."""
        return datetime.datetime.now().astimezone().replace(microsecond=0)

    def on_mount(self) -> None:
        """Show the start screen; what was asked for on the command line opens over it."""
        self.push_screen(StartScreen())
        if self.examine is not None:
            self.call_after_refresh(self.open_file, self.examine)
        elif self.new:
            self.call_after_refresh(self.start_new, self.ruleset)
        elif self.opens is not None:
            self.call_after_refresh(self.opens, self)

    def on_resize(self, event: Resize) -> None:
        """Say so where the terminal is too small, rather than show half of everything."""
        small = event.size.width < LEAST_WIDTH or event.size.height < LEAST_HEIGHT
        if small and not isinstance(self.screen, TooSmallScreen):
            self.push_screen(TooSmallScreen())
        elif not small and isinstance(self.screen, TooSmallScreen):
            self.pop_screen()

    async def on_event(self, event: Event) -> None:
        """Take what is pasted as text: control characters in it become visible signs, lines stay lines."""
        if isinstance(event, Paste):
            lines = event.text.replace("\r\n", "\n").replace("\r", "\n")
            event.text = visible(lines, keep="\n\t")
        if isinstance(event, Key) and not event.is_forwarded:
            event.meant_for = self.focused or self.screen  # type: ignore[attr-defined]
        await super().on_event(event)

    async def _on_key(self, event: Key) -> None:
        """A key that nothing took; one pressed ahead of another screen or line goes to that now."""
        now = self.focused or self.screen
        if getattr(event, "meant_for", now) is not now:
            event.prevent_default()
            self.post_message(Key(event.key, event.character))

    async def action_quit(self) -> None:
        """Ctrl+Q: as leaving by the screen's own key, so that nothing unsaved is lost unasked."""
        from hands_on.tui.screens.saving import SheetFrame

        opened = [screen for screen in reversed(self.screen_stack) if isinstance(screen, SheetFrame)]
        for frame in opened:
            if frame.sheet.unsaved or frame.sheet.draft.waits:
                if self.screen is frame:
                    frame.action_leave()
                return
            frame.sheet.close()
        self.exit(0)

    def start_new(self, ruleset: str | None = None) -> None:
        """A new examination: choose the edition unless it is given, then the dog."""
        from hands_on.tui.screens.choose_edition import ChooseEdition

        if ruleset is None:
            self.push_screen(ChooseEdition(), self._chosen)
        else:
            self._chosen(ruleset)

    def _chosen(self, edition: str | None) -> None:
        if edition is None:
            return
        from hands_on.store.errors import StoreError
        from hands_on.toml_text.problems import BadText
        from hands_on.tui.screens.dog import DogScreen

        try:
            ruleset = self.library.load(edition)
        except (StoreError, BadText) as error:
            self.say("This edition can't be used", str(error))
            return
        self.push_screen(DogScreen(ruleset))

    def open_file(self, path: Path) -> None:
        """Open a session: the cautions where they are not read, the walk, or the review once signed.

        The file of a seminar round opens the round.
        """
        from hands_on.store.errors import StoreError
        from hands_on.toml_text.problems import BadText
        from hands_on.tui.rounds import open_round
        from hands_on.tui.sheet import open_sheet

        if open_round(self, path):
            return
        try:
            sheet = open_sheet(path, self.library, self.sessions, self.now)
        except (StoreError, BadText) as error:
            self.say("This session can't be opened", f"{error}\n\nThe file is left as it is.")
            return
        self.push_screen(self.screen_for(sheet))

    def screen_for(self, sheet: Sheet) -> Any:
        """The screen on which an opened session goes on."""
        if sheet.session.signature is not None:
            from hands_on.tui.screens.review import ReviewScreen

            return ReviewScreen(sheet)
        from hands_on.tui.screens.cautions import CautionsScreen, all_read

        if not sheet.read_only and not all_read(sheet, self.library):
            return CautionsScreen(sheet)
        from hands_on.tui.screens.walk import WalkScreen

        return WalkScreen(sheet)

    def say(self, title: str, text: str) -> None:
        """Show a text that must be read, until a key closes it."""
        from hands_on.tui.screens.reading import Paragraph, ReadingScreen

        self.push_screen(ReadingScreen(title, [Paragraph(text)]))

    def leave_session(self, sheet: Sheet) -> None:
        """Close the session and show the screen it was begun from; how to go on is told on leaving too."""
        sheet.close()
        if not sheet.read_only:
            done = "" if sheet.session.signature else f"Go on with: hands-on examine {sheet.path}"
            self.farewell = [line for line in (f"Saved: {sheet.path}", done) if line]
        while len(self.screen_stack) > 2 and not isinstance(self.screen, Home):
            self.pop_screen()
        if isinstance(self.screen, Home):
            self.screen.refresh_lists()
