"""One or two outlines to scale, one over the other: two marks, words beside them, assumed parts dotted."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from textual.content import Content
from textual.widgets import Static

from hands_on.measure.outline import STROKES, Outline, OutlinePoint
from hands_on.tui.canvas import MARKS, Canvas, Mark
from hands_on.tui.show import line, plain, wrapped

ORDER: tuple[Mark, ...] = ("fine", "heavy")
"""The mark of the first outline, and of the second."""

Cell = Callable[[float, float], tuple[float, float]]
"""From cm to cells."""


@dataclass(frozen=True)
class Drawn:
    """An outline with the word it is told by."""

    label: str
    outline: Outline

    @property
    def size(self) -> str:
        """Height and length as far as they were measured."""
        height, length = self.outline["withers"], self.outline["point-of-shoulder"]
        parts = [
            f"{height.z:.1f} cm high" if height.z_measured else "height assumed",
            f"{length.x:.1f} long" if length.x_measured else "length assumed",
        ]
        return ", ".join(parts)


class OutlinePane(Static):
    """Fits the drawing to its room."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__("", markup=False, id=id)
        self._drawn: tuple[Drawn, ...] = ()
        self._nothing = ""

    def show(self, drawn: Sequence[Drawn], nothing: str = "") -> None:
        """At most two outlines; empty ones are left out. `nothing` is said where none is left."""
        self._drawn = tuple(one for one in drawn if one.outline.points)[:2]
        self._nothing = nothing
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        size = self.content_size
        if not size.width or not size.height:
            return
        if not self._drawn:
            self.update(plain("\n".join(wrapped(self._nothing, size.width))))
            return
        self.update(picture(self._drawn, size.width, size.height, letters=no_blocks()))


def no_blocks() -> bool:
    """Has the terminal's font neither braille nor blocks?"""
    return os.environ.get("TERM", "") in ("linux", "vt100", "vt102", "vt220", "ansi", "cons25")


def picture(drawn: Sequence[Drawn], width: int, height: int, *, letters: bool = False) -> Content:
    """The drawing in `width` x `height` cells, with its legend."""
    legend = [line(text) for text in _legend(drawn, width, letters)]
    rows = max(4, height - len(legend))
    canvas = Canvas(width, rows, letters)
    # Everybody on one scale and one ground; the second is drawn first, so that the first lies over it.
    points = [point for one in drawn for point in one.outline.points]
    left, right = min(p.x for p in points), max(p.x for p in points)
    top = max(p.z for p in points)
    scale = min((width - 1) / max(right - left, 1.0), 2 * (rows - 0.5) / max(top, 1.0))
    shift = (width - 1 - scale * (right - left)) / 2

    def cell(x: float, z: float) -> tuple[float, float]:
        return shift + (x - left) * scale, rows - 0.5 - z * scale / 2

    for one, mark in reversed(list(zip(drawn, ORDER, strict=False))):
        _box(canvas, one.outline, mark, cell)
        for stroke in STROKES:
            for a, b in pairwise(stroke):
                p, q = one.outline[a], one.outline[b]
                canvas.line(cell(p.x, p.z), cell(q.x, q.z), mark, dotted=not (_sure(p) and _sure(q)))
    return Content("\n").join([*map(Content, canvas.rows()), *legend])


def _box(canvas: Canvas, outline: Outline, mark: Mark, cell: Cell) -> None:
    """Height and body length as a box around the trunk, where they were measured."""
    withers, shoulder = outline["withers"], outline["point-of-shoulder"]
    length, height = shoulder.x, withers.z
    sides = (
        ((0.0, height), (length, height), withers.z_measured),
        ((length, height), (length, 0.0), shoulder.x_measured),
        ((length, 0.0), (0.0, 0.0), True),
        ((0.0, 0.0), (0.0, height), True),
    )
    for start, end, measured in sides:
        canvas.line(cell(*start), cell(*end), mark, dotted=not measured)


def _sure(point: OutlinePoint) -> bool:
    """Does at least one coordinate rest on measurements alone?"""
    return point.x_measured or point.z_measured


def _legend(drawn: Sequence[Drawn], width: int, letters: bool) -> list[str]:
    rows = []
    for one, mark in zip(drawn, ORDER, strict=False):
        word = "fine line" if mark == "fine" else "heavy line"
        told = f"{MARKS[mark][letters]} {word}: {one.label}, {one.size}"
        rows += wrapped(told, width)
    box = "The box is height by body length. Dotted: assumed, not measured. All to one scale."
    return [*rows, *wrapped(box, width)]
