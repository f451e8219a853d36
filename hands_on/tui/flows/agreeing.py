"""How well several evaluators agree: of which examinations, and the screen for it."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from hands_on.compare.agreement.by_point import agreement
from hands_on.exam.dialogue import Line
from hands_on.exam.round import group_rounds
from hands_on.store.places import typed_path
from hands_on.store.session_file import read_session
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.kept import NEWEST, by_several, dog_of, held_here, kept_rows
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.pick_sessions import PickSessions
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.screens.agree import AgreeScreen
from hands_on.tui.screens.agree_grid import GridScreen


def pick_agreement(stage: Stage, _: asks.Agreement) -> None:
    """A round, all dogs that several evaluators examined, a folder, or sessions marked by hand."""
    rows = kept_rows(stage)
    named = []
    for row in rows:
        if row.kind == "round":
            try:
                named.append((str(row.path), read_session(row.path)))
            except BadText:
                continue
    groups = [group for group in group_rounds(named) if len(group.evaluators) > 1]
    shared = by_several(rows)
    dogs = len({dog_of(row) for row in shared})
    lines = [
        Line("1", "all dogs here that several evaluators examined", aside=f"{dogs} of them"),
        Line("2", "a folder (typed)"),
        Line("3", "mark the examinations"),
        *(
            Line(str(n), f"the round {group.round}", aside=_size(len(group.dogs), len(group.evaluators)))
            for n, group in enumerate(groups, 4)
        ),
    ]

    def chosen(key: str | None) -> None:
        if key == "1":
            _show(stage, [row.path for row in shared])
        elif key == "2":
            _ask_folder(stage)
        elif key == "3":
            _mark(stage)
        elif key is not None:
            _show(stage, [Path(name) for name in groups[int(key) - 4].names])

    ask = "Of which examinations? The same dogs, gone over by several evaluators."
    stage.push_screen(NumberedScreen("Agreement of evaluators", ask, lines), chosen)


def show_agreement(stage: Stage, ask: asks.ShowAgreement) -> None:
    """How well the evaluators of some sessions agree."""
    if not ask.sessions:
        stage.say("Agreement", "No examinations to compare here: it takes two evaluators on the same dog.")
        return
    stage.push_screen(GridScreen(agreement(ask.sessions)))


def show_figures(stage: Stage, ask: asks.AgreementFigures) -> None:
    """The statistics, point by point."""
    stage.push_screen(AgreeScreen(ask.found))


def _mark(stage: Stage) -> None:
    ask = "Mark the examinations of the same dogs by several evaluators."
    screen = PickSessions("Agreement: which examinations?", ask, 2, NEWEST)
    stage.push_screen(screen, lambda paths: _show(stage, paths) if paths else None)


def _ask_folder(stage: Stage) -> None:
    def wrong(text: str) -> str:
        return "" if text and os.path.isdir(typed_path(text)) else "There is no such folder."

    def typed(name: str | None) -> None:
        if name is not None:
            _show(stage, sorted(typed_path(name).glob("*.toml")), strict=False)

    screen = TypedScreen("Agreement", "The folder in which the sessions were gathered:", wrong=wrong)
    stage.push_screen(screen, typed)


def _size(dogs: int, evaluators: int) -> str:
    return f"{dogs} dog{'' if dogs == 1 else 's'}, {evaluators} evaluators"


def _show(stage: Stage, paths: Sequence[Path], *, strict: bool = True) -> None:
    show_agreement(stage, asks.ShowAgreement(held_here(stage, paths, strict=strict)))
