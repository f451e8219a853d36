"""The critique, from the review and from the records."""

from __future__ import annotations

from hands_on.store.critiques import critique_language, critique_plan
from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.flows.usable import opened
from hands_on.tui.program import Stage
from hands_on.tui.screens.critique import CritiqueScreen


def critique(stage: Stage, ask: asks.Critique) -> None:
    """The critique of an opened examination."""

    def closed(_: None) -> None:
        ask.done()

    if _words_are_there(stage):
        stage.push_screen(CritiqueScreen(ask.sheet), closed)


def critique_of(stage: Stage, ask: asks.CritiqueOf) -> None:
    """The critique of a session's file, which is held while it is open."""
    if not _words_are_there(stage):
        return
    sheet = opened(stage, ask.path)
    if sheet is None:
        return

    def closed(_: None) -> None:
        sheet.close()

    stage.push_screen(CritiqueScreen(sheet), closed)


def _words_are_there(stage: Stage) -> bool:
    """Can a critique be drafted? Says why not."""
    try:
        critique_plan(stage.library)
        critique_language(stage.library, "en")
    except (StoreError, BadText, OSError) as error:
        stage.say("No critique can be drafted", str(error))
        return False
    return True
