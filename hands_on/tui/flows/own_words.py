"""The evaluator's own words: listed, changed, taken out."""

from __future__ import annotations

from hands_on.store.own_words_file import OwnWordsFile
from hands_on.store.places import own_words_path
from hands_on.toml_text.problems import BadText
from hands_on.tui.asks import OwnWordsList
from hands_on.tui.flows.usable import loaded
from hands_on.tui.program import Stage
from hands_on.tui.screens.own_words import OwnWordsScreen

ANY_DOG = "any-dog"


def own_words(stage: Stage, ask: OwnWordsList) -> None:
    """The list; a file that can't be read is told and left as it is."""
    file = OwnWordsFile(own_words_path(stage.sessions))
    try:
        words = file.read()
    except BadText as error:
        stage.say("Your own words can't be read", str(error))
        return
    ruleset = ask.ruleset or loaded(stage, ANY_DOG)
    if ruleset is None:
        return

    def closed(_: None) -> None:
        if ask.done is not None:
            ask.done()

    stage.push_screen(OwnWordsScreen(file, words, ruleset), closed)
