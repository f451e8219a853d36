"""From the agreement of evaluators to one dog: who says what of it, side by side."""

from __future__ import annotations

from typing import Any

from textual.widgets import Static

from hands_on.compare.agreement.board import Board
from hands_on.compare.dogs.side_by_side import MOST
from hands_on.exam.dialogue import Line
from hands_on.tui.asks import ShowSideBySide
from hands_on.tui.frame import Frame
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.show import plain


def compare_on_one_dog(screen: Frame[Any], board: Board, told: Static) -> None:
    """Ask which dog, and show its evaluators side by side; `told` says where no dog has two."""
    of = [[one for (dog, _), one in sorted(board.cells.items()) if dog == n] for n in range(len(board.dogs))]
    lines = [
        Line(str(n), board.dogs[n - 1], aside=f"{len(found)} examinations")
        for n, found in enumerate(of, 1)
        if len(found) > 1
    ]
    if not lines:
        told.update(plain("No dog here was examined by two evaluators.", "bold"))
        return

    def chosen(key: str | None) -> None:
        if key is not None:
            screen.program.go(ShowSideBySide(of[int(key) - 1][:MOST]))

    screen.app.push_screen(NumberedScreen("The evaluators side by side", "On which dog?", lines), chosen)
