"""Examinations side by side, a dog that comes back, sire and dam: which ones, and the screen for them."""

from __future__ import annotations

import os
from pathlib import Path

from hands_on.compare.dogs.history import history
from hands_on.compare.dogs.order_found import SEED
from hands_on.compare.dogs.pairing import pairing
from hands_on.compare.dogs.side_by_side import MOST, side_by_side
from hands_on.compare.examined import same_dog
from hands_on.tui import asks
from hands_on.tui.kept import held_here, kept_rows
from hands_on.tui.program import Stage
from hands_on.tui.questions.pick_sessions import PickSessions
from hands_on.tui.screens.compare import CompareScreen
from hands_on.tui.screens.figure import FigureScreen
from hands_on.tui.screens.history import HistoryScreen
from hands_on.tui.screens.pairing import PairingScreen
from hands_on.tui.screens.projector import ProjectorScreen
from hands_on.tui.screens.recheck import RecheckScreen


def pick_compare(stage: Stage, ask: asks.Compare) -> None:
    """Mark two to six sessions and show them side by side."""
    told = f"Mark two to {MOST}; the first is the left column."
    marked = [ask.first] if ask.first is not None else []
    screen = PickSessions("Compare: which examinations?", told, 2, MOST, marked)

    def picked(paths: list[Path] | None) -> None:
        if paths:
            show_side_by_side(stage, asks.ShowSideBySide(held_here(stage, paths)))

    stage.push_screen(screen, picked)


def show_side_by_side(stage: Stage, ask: asks.ShowSideBySide) -> None:
    """A column a session."""
    if ask.sessions:
        seed = SEED if ask.seed is None else str(ask.seed)
        stage.push_screen(CompareScreen(side_by_side(ask.sessions, seed=seed)))


def dogs_drawn(stage: Stage, ask: asks.DogsDrawn) -> None:
    """Dogs over each other, large."""
    stage.push_screen(FigureScreen(ask.title, ask.drawn, heavy=ask.heavy))


def project(stage: Stage, ask: asks.Project) -> None:
    """For a room."""
    stage.push_screen(ProjectorScreen(ask.compared, ask.at, only_different=ask.only_different))


def show_pairing(stage: Stage, ask: asks.Pairing) -> None:
    """Two sessions as sire and dam."""
    stage.push_screen(PairingScreen(pairing(ask.sessions[0], ask.sessions[1])))


def recheck(stage: Stage, ask: asks.Recheck) -> None:
    """What to look at again in a dog, and from there its re-check; which dog is asked unless it is given."""

    def begin(paths: list[Path] | None) -> None:
        for path in paths or []:
            for one in held_here(stage, [path]):
                stage.push_screen(RecheckScreen(path, one))

    if ask.path is not None:
        begin([ask.path])
        return
    told = "Mark its earlier examination. Its answers stay hidden until the new ones are given."
    stage.push_screen(PickSessions("Re-check: which dog?", told, 1, 1), begin)


def show_history(stage: Stage, ask: asks.History) -> None:
    """The dog of a session over all its examinations kept here."""
    path = ask.path
    for one in held_here(stage, [path]):
        rows = kept_rows(stage, one.session.dog.identity)
        others = [row.path for row in rows if os.path.realpath(row.path) != os.path.realpath(path)]
        same = [other for other in held_here(stage, others, strict=False) if same_dog(other, one)]
        if not same:
            text = f"{one.dog} was examined once only; a history begins with the second examination."
            stage.say("History", text)
            return
        stage.push_screen(HistoryScreen(history([*same, one])))
