"""One or two drawn dogs, one over the other: two marks, words beside them, a legend of the lines."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from textual.content import Content

from hands_on.figure.drawn import Figure
from hands_on.figure.shapes import ViewName
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui.dots import MARKS, Mark
from hands_on.tui.drawing import Picture, no_blocks
from hands_on.tui.show import line, plain, wrapped
from hands_on.tui.widgets.pictures import FigureRows, PicturedText
from hands_on.wording.figure import lines_words, size_words

LEAST = (24, 6)
"""Cells below which nothing is drawn."""


@dataclass(frozen=True)
class Drawn:
    """A figure with the word it is told by."""

    label: str
    ruleset: Ruleset
    figure: Figure


class FigurePane(PicturedText):
    """Fits the drawing to its room."""

    def __init__(self, *, id: str | None = None, legend: bool = True) -> None:
        super().__init__(id=id)
        self._drawn: tuple[Drawn, ...] = ()
        self._view: ViewName = "side"
        self._heavy: frozenset[str] = frozenset()
        self._one_height = False
        self._marks: Mapping[str, str] = {}
        self._legend = legend

    def show(
        self,
        drawn: Sequence[Drawn],
        *,
        view: ViewName = "side",
        heavy: Collection[str] = (),
        one_height: bool = False,
        marks: Mapping[str, str] | None = None,
    ) -> None:
        """At most two figures, the second under the first; see `drawing.figure_rows` for the rest."""
        self._drawn, self._view = tuple(drawn)[:2], view
        self._heavy, self._one_height, self._marks = frozenset(heavy), one_height, dict(marks or {})
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        size = self.content_size
        if self._drawn and size.width and size.height:
            self.put(lambda rows: self._lines(rows, size.width, size.height))
        else:
            self.put(lambda rows: [])

    def _lines(self, rows: FigureRows, width: int, height: int) -> list[Content]:
        told = legend(self._drawn, self._heavy, one_height=self._one_height) if self._legend else []
        below = [text for row in told for text in wrapped(row, width)]
        room = height - len(below)
        if width < LEAST[0] or room < LEAST[1]:
            below, room = below[:1], height - 1
        picture = Picture(
            self._drawn[0].figure,
            self._view,
            over=self._drawn[1].figure if len(self._drawn) > 1 else None,
            heavy=self._heavy,
            one_height=self._one_height,
            marks=self._marks,
        )
        return [*map(plain, rows(picture, width, max(1, room))), *(line(text) for text in below)]


def legend(drawn: Sequence[Drawn], heavy: Collection[str] = (), *, one_height: bool = False) -> list[str]:
    """What stands below: each dog by its mark, then what the lines mean."""
    letters = no_blocks()
    marks: tuple[Mark, ...] = ("fine", "heavy")
    if len(drawn) == 1:
        rows = [f"{drawn[0].label}: {size_words(drawn[0].figure)}."]
    else:
        words = {"fine": "line", "heavy": "chain"}
        rows = [
            f"{MARKS[mark][letters]} {words[mark]}: {one.label}, {size_words(one.figure)}."
            for one, mark in zip(drawn, marks, strict=False)
        ]
        rows.append("Brought to one height." if one_height else "Both to one scale.")
    rows += lines_words(drawn[0].ruleset, drawn[0].figure)
    if heavy:
        rows.append("Heaviest: where the difference is real.")
    return rows
