"""Seminar rounds: begin one, take part in one, open its file."""

from __future__ import annotations

import os
from pathlib import Path

from hands_on.exam.dialogue import Line
from hands_on.exam.round import Round
from hands_on.store.errors import StoreError
from hands_on.store.places import typed_path
from hands_on.store.round_file import read_round, rounds_folder, rounds_in
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.flows.usable import loaded
from hands_on.tui.kept import evaluators_here, rounds_among
from hands_on.tui.program import Stage
from hands_on.tui.questions.choose_edition import ChooseEdition
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.screens.host import HostScreen
from hands_on.tui.screens.round import RoundScreen


def open_round(stage: Stage, path: Path) -> bool:
    """Open the round in `path`, or tell what is wrong with it; False where the file holds no round."""
    try:
        found = read_round(path)
    except BadText as error:
        stage.say("This round can't be opened", f"{error}\n\nThe file is left as it is.")
        return True
    if found is None:
        return False
    show_round(stage, path, found)
    return True


def show_round(stage: Stage, path: Path, found: Round) -> None:
    """The dogs of a round, once its edition is known to be here."""
    try:
        ruleset = stage.library.load(found.ruleset.id)
    except (StoreError, BadText) as error:
        stage.say("This round can't be opened", f"{error}\n\nIts edition must be here first.")
        return
    stage.push_screen(RoundScreen(path, found, ruleset))


def begin_round(stage: Stage, _: asks.SeminarRound) -> None:
    """Ask whether to begin a round or to take part in one."""
    here = [*rounds_in(rounds_folder(stage.sessions)), *rounds_among(stage)]
    lines = [
        Line("1", "begin a new round: edition, dogs, a small file for everybody"),
        Line("2", "take part: the round's file is somewhere else (typed)"),
        *(
            Line(str(n), f"open: {one.round.title or one.round.id}", aside=_in_short(one))
            for n, (_, one) in enumerate(here, 3)
        ),
    ]
    ask = "Everybody goes over the same dogs on their own; how well they agree is shown afterwards."

    def chosen(key: str | None) -> None:
        if key == "1":
            _host(stage)
        elif key == "2":
            screen = TypedScreen("Take part in a round", "The round's file:", wrong=_wrong_path)
            stage.push_screen(screen, lambda name: _open_typed(stage, name))
        elif key is not None:
            path, one = here[int(key) - 3]
            show_round(stage, path, one)

    stage.push_screen(NumberedScreen("Seminar round", ask, lines), chosen)


def who_examines(stage: Stage, ask: asks.WhoExamines) -> None:
    """Somebody who has examined here, by number, or another name; never taken for granted."""
    known = evaluators_here(stage)

    def take(name: str | None) -> None:
        if name:
            stage.examiner = name
            ask.done(name)

    def typed() -> None:
        screen = TypedScreen(ask.title or "Who examines?", "Your name, as it is to stand in the sessions:")
        stage.push_screen(screen, take)

    if not known:
        typed()
        return
    lines = [*(Line(str(n), name) for n, name in enumerate(known, 1)), Line("0", "somebody else (typed)")]

    def chosen(key: str | None) -> None:
        if key == "0":
            typed()
        elif key is not None:
            take(known[int(key) - 1])

    question = NumberedScreen(ask.title or "Who examines?", "Who examines here?", lines)
    stage.push_screen(question, chosen)


def round_written(stage: Stage, ask: asks.RoundWritten) -> None:
    """The round whose file was just written."""
    stage.switch_screen(RoundScreen(ask.path, ask.round, ask.ruleset, written=True))


def _host(stage: Stage) -> None:
    def chosen(edition: str | None) -> None:
        ruleset = loaded(stage, edition) if edition is not None else None
        if ruleset is not None:
            stage.push_screen(HostScreen(ruleset))

    stage.push_screen(ChooseEdition("New round: under which edition?"), chosen)


def _open_typed(stage: Stage, name: str | None) -> None:
    if name is not None and not open_round(stage, typed_path(name)):
        stage.say("This is no round", f"{name}\n\nA round's file has a table [round] and its [[dogs]].")


def _wrong_path(text: str) -> str:
    if not text:
        return "Type the name of the round's file."
    return "" if os.path.isfile(typed_path(text)) else "There is no such file."


def _in_short(one: Round) -> str:
    dogs = len(one.dogs)
    held = f", {one.round.held}" if one.round.held else ""
    return f"{dogs} dog{'' if dogs == 1 else 's'}{held}"
