"""Editions that a flow is about to use: loaded, or told why they can't be."""

from __future__ import annotations

from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.errors import StoreError
from hands_on.store.library import EditionHead
from hands_on.toml_text.problems import BadText
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
