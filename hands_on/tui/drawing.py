"""A drawn dog in character cells, alone or over another, with its landmarks named where there is room."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from hands_on.figure.curves import Point
from hands_on.figure.drawn import Figure, Line
from hands_on.figure.looks import Window
from hands_on.figure.shapes import Drawing, Shape, ViewName
from hands_on.tui.dots import Dots, Mark, Place, Stroke

__all__ = ["Canvas", "Picture", "draw", "figure_rows", "no_blocks"]

_STROKES: dict[Line, Stroke] = {"full": "thick", "middle": "plain", "light": "dotted"}


def no_blocks() -> bool:
    """Has the terminal's font neither braille nor blocks?"""
    return os.environ.get("TERM", "") in ("linux", "vt100", "vt102", "vt220", "ansi", "cons25")


class Canvas(Protocol):
    """What is drawn on; places are in cells from the upper left, a cell twice as high as wide."""

    width: int
    height: int
    letters: bool

    def line(self, places: Sequence[Place], mark: Mark, stroke: Stroke = "plain") -> None:
        """Straight lines from place to place."""

    def clear(self, places: Sequence[Place]) -> None:
        """Take away what lies behind a closed figure."""

    def fill(self, places: Sequence[Place]) -> None:
        """Darken a closed figure."""

    def text(self, x: int, y: int, words: str) -> None:
        """Letters, from one cell on."""

    def free(self, x: int, y: int, length: int) -> bool:
        """Is there room for so many letters?"""


@dataclass(frozen=True)
class Picture:
    """A figure in one view and all that is shown with it; see `report.figure_svg.svg` for what each means."""

    figure: Figure
    view: ViewName
    over: Figure | None = None
    heavy: Collection[str] = ()
    one_height: bool = False
    marks: Mapping[str, str] | None = None
    window: Window | None = None
    """A part of the dog, shown larger."""
    stick: Sequence[Point] = ()


class _Room:
    """From cm to cells: the drawing in the middle, its feet on the last row."""

    def __init__(self, extents: Collection[Window], width: int, height: int, aside: int) -> None:
        left, right = min(one[0] for one in extents), max(one[1] for one in extents)
        bottom, top = min(one[2] for one in extents), max(one[3] for one in extents)
        wide, tall = max(right - left, 1.0), max(top - bottom, 1.0)
        self.scale = min((width - 1.5 - 2 * aside) / wide, 2 * (height - 0.6) / tall)
        self.left = left - (width - 1 - self.scale * wide) / 2 / self.scale
        self.base = height - 0.35 + bottom * self.scale / 2

    def cell(self, point: Point) -> Place:
        return (point[0] - self.left) * self.scale, self.base - point[1] * self.scale / 2

    def cells(self, points: Collection[Point]) -> list[Place]:
        left, scale, base, half = self.left, self.scale, self.base, self.scale / 2
        return [((x - left) * scale, base - z * half) for x, z in points]


def figure_rows(picture: Picture, width: int, height: int, *, letters: bool | None = None) -> list[str]:
    """In `width` x `height` cells: braille and blocks, or `letters` where the terminal's font has neither."""
    dots = Dots(width, height, letters=no_blocks() if letters is None else letters)
    draw(picture, dots)
    return dots.rows()


def draw(picture: Picture, canvas: Canvas) -> None:
    """Draw as large as the canvas allows.

    Full lines are thick, middle ones plain, light ones dotted; what lies over it is a chain of blocks, as is
    the stick.
    """
    figure, heavy, window = picture.figure, picture.heavy, picture.window
    drawing = figure.view(picture.view)
    other = None
    if picture.over is not None:
        other = picture.over.view(picture.view)
        if picture.one_height:
            other = other.scaled(figure.height / picture.over.height)
    extents = [window] if window else [one.extent for one in (drawing, other) if one is not None]
    width = canvas.width
    room = _Room(extents, width, canvas.height, 8 if picture.marks and width > 60 and not window else 0)
    if other is not None:
        for shape in other.shapes:
            if shape.kind in ("body", "tail", "ear") and shape.pieces:
                _stroked(canvas, shape, room, lambda part: "plain" if part in heavy else "dotted", "heavy")
    bones = (width >= 50 or window is not None) and not canvas.letters
    for shape in drawing.shapes:
        _shape(canvas, shape, room, figure, heavy, bones=bones)
    if picture.stick:
        canvas.line(room.cells(picture.stick), "heavy")
    if picture.marks:
        _name(canvas, drawing, room, picture.marks)


def _shape(
    canvas: Canvas, shape: Shape, room: _Room, figure: Figure, heavy: Collection[str], *, bones: bool
) -> None:
    if not shape.pieces:
        return
    if shape.kind == "dark":
        spots = room.cells(shape.places)
        canvas.fill(spots)
        canvas.line(spots, "fine")
    elif shape.kind == "bone":
        if bones:
            canvas.line(room.cells(shape.places), "fine", "dotted")
    elif shape.kind == "far":
        canvas.clear(room.cells(shape.places))
        canvas.line(room.cells(shape.places), "fine", "dotted")
    elif shape.kind == "fold":
        if bones:
            canvas.line(room.cells(shape.places), "fine")
    else:
        canvas.clear(room.cells(shape.places))
        _stroked(
            canvas,
            shape,
            room,
            lambda part: "thick" if part in heavy else _STROKES[figure.line(part)],
            "fine",
        )


def _stroked(canvas: Canvas, shape: Shape, room: _Room, stroke: Callable[[str], Stroke], mark: Mark) -> None:
    for part, points in shape.runs:
        canvas.line(room.cells(points), mark, stroke(part))


def _name(canvas: Canvas, drawing: Drawing, room: _Room, marks: Mapping[str, str]) -> None:
    """A ring at each landmark and its name beside it, on the side where there is room."""
    middle = canvas.width / 2
    for name, words in sorted(marks.items(), key=lambda item: -drawing.marks.get(item[0], (0.0, 0.0))[1]):
        if name not in drawing.marks:
            continue
        x, y = room.cell(drawing.marks[name])
        column, row = round(x - 0.5), int(y)
        ring = "o" if canvas.letters else "◉"
        right = column + 2, column - 1 - len(words)
        for at in right if x >= middle else reversed(right):
            for down in (0, -1, 1, -2, 2):
                if canvas.free(at, row + down, len(words)):
                    canvas.text(at, row + down, words)
                    break
            else:
                continue
            break
        canvas.text(column, row, ring)
