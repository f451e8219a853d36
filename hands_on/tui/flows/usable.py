"""Editions and sessions that a flow is about to use: there they are, or it is told why they can't be used."""

from __future__ import annotations

from pathlib import Path

from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.edition_heads import EditionHead
from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText
from hands_on.tui.current_examination import CurrentExamination, open_sheet
from hands_on.tui.program import Stage

CANT = "This edition can't be used"


def loaded(stage: Stage, name: str) -> Ruleset | None:
    """The edition `name`; None where it can't be used, which is told."""
    try:
        return stage.library.load(name)
    except (StoreError, BadText) as error:
        stage.say(CANT, str(error))
        return None


def usable(stage: Stage, head: EditionHead) -> Ruleset | None:
    """The edition of a row as its file is now; None where it can't be used, which is told."""
    if head.problem is None:
        stage.library.look_again()
        return loaded(stage, head.id)
    stage.say(CANT, str(head.problem))
    return None


def opened(stage: Stage, path: Path) -> CurrentExamination | None:
    """The session of a file, held while it is open; None where it can't be opened, which is told."""
    try:
        return open_sheet(path, stage.library, stage.sessions, stage.now)
    except (StoreError, BadText) as error:
        stage.say("This session can't be opened", f"{error}\n\nThe file is left as it is.")
        return None
