"""What screens and flows may ask of the program that shows them."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from hands_on.store.library import Library
    from hands_on.tui.asks import Ask
    from hands_on.tui.current_examination import CurrentExamination


class Program(Protocol):
    """What a screen may ask of the program."""

    sessions: Path
    """The folder of the sessions."""
    notice: str
    """Said on the start screen."""
    examiner: str
    """Who said that they examine here, since the program was started; empty until somebody did."""

    @property
    def own_rulesets(self) -> Path:
        """The folder of the user's own editions."""

    @property
    def library(self) -> Library:
        """The rulesets known."""

    def now(self) -> datetime.datetime:
        """The time now, to the second, with its offset."""

    def go(self, ask: Ask) -> None:
        """Do what is asked for; `tui.routes` tells where that leads."""

    def say(self, title: str, text: str) -> None:
        """Show a text that must be read, until a key closes it."""

    def leave_session(self, sheet: CurrentExamination) -> None:
        """Close the examination and go back to where it was begun from."""


class Stage(Program, Protocol):
    """What a flow may ask of the program beyond that: to show screens."""

    def push_screen(self, screen: Any, callback: Callable[[Any], None] | None = None) -> object:
        """Show a screen over the one shown; the callback gets what it is dismissed with."""

    def switch_screen(self, screen: Any) -> object:
        """Show a screen in place of the one shown."""
