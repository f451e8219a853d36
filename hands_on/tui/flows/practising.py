"""Practice on drawn dogs: of which edition, then the series."""

from __future__ import annotations

import random

from hands_on.figure.practice import series
from hands_on.store.practice_file import practice_path
from hands_on.tui import asks
from hands_on.tui.flows.usable import loaded
from hands_on.tui.program import Stage
from hands_on.tui.questions.choose_edition import ChooseEdition
from hands_on.tui.screens.practise import PractiseScreen

COUNT = 12


def practise(stage: Stage, ask: asks.Practise) -> None:
    """A series of figures of the edition named, or of one that is asked for."""

    def chosen(name: str | None) -> None:
        ruleset = loaded(stage, name) if name is not None else None
        if ruleset is None:
            return
        seed = ask.seed if ask.seed is not None else random.SystemRandom().randrange(1_000_000)
        try:
            exercises = series(ruleset, seed, ask.count or COUNT)
        except LookupError as error:
            stage.say("Practise", str(error))
            return
        stage.push_screen(PractiseScreen(ruleset, exercises, seed, practice_path()))

    if ask.ruleset:
        chosen(ask.ruleset)
    else:
        stage.push_screen(ChooseEdition("Practise: dogs of which edition?"), chosen)
