"""Screens that are simply shown."""

from __future__ import annotations

from hands_on.tui.asks import Editions, Help, Records
from hands_on.tui.program import Stage
from hands_on.tui.screens.editions import EditionsScreen
from hands_on.tui.screens.help import HelpScreen
from hands_on.tui.screens.records import RecordsScreen


def help_on(stage: Stage, ask: Help) -> None:
    """The keys of a screen."""
    stage.push_screen(HelpScreen(ask.screen))


def records(stage: Stage, _: Records) -> None:
    """The examinations kept."""
    stage.push_screen(RecordsScreen())


def editions(stage: Stage, _: Editions) -> None:
    """The editions known."""
    stage.push_screen(EditionsScreen())
