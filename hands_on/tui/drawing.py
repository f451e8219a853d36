"""A drawn dog in character cells, alone or over another, with its landmarks named where there is room."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Mapping, Sequence

from hands_on.figure.curves import Point
from hands_on.figure.drawn import Figure, Line
from hands_on.figure.looks import Window
from hands_on.figure.shapes import Drawing, Shape, ViewName
from hands_on.tui.dots import Dots, Mark, Place, Stroke

__all__ = ["figure_rows", "no_blocks"]

_STROKES: dict[Line, Stroke] = {"full": "thick", "middle": "plain", "light": "dotted"}


def no_blocks() -> bool:
    """Has the terminal's font neither braille nor blocks?"""
    return os.environ.get("TERM", "") in ("linux", "vt100", "vt102", "vt220", "ansi", "cons25")


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


def figure_rows(
    figure: Figure,
    view: ViewName,
    width: int,
    height: int,
    *,
    over: Figure | None = None,
    heavy: Collection[str] = (),
    one_height: bool = False,
    marks: Mapping[str, str] | None = None,
    window: Window | None = None,
    stick: Sequence[Point] = (),
    letters: bool = False,
) -> list[str]:
    """The figure in `width` x `height` cells; see `report.figure_svg.svg` for what the rest means.

    Full lines are thick, middle ones plain, light ones dotted; what lies over it is a chain of blocks, as is
    the `stick`. `window` shows a part of the dog larger.
    """
    drawing = figure.view(view)
    other = None
    if over is not None:
        other = over.view(view)
        if one_height:
            other = other.scaled(figure.height / over.height)
    extents = [window] if window else [one.extent for one in (drawing, other) if one is not None]
    room = _Room(extents, width, height, 8 if marks and width > 60 and not window else 0)
    dots = Dots(width, height, letters=letters)
    if other is not None:
        for shape in other.shapes:
            if shape.kind in ("body", "tail", "ear") and shape.pieces:
                _stroked(dots, shape, room, lambda part: "plain" if part in heavy else "dotted", "heavy")
    for shape in drawing.shapes:
        _shape(dots, shape, room, figure, heavy, bones=(width >= 50 or window is not None) and not letters)
    if stick:
        dots.line(room.cells(stick), "heavy")
    if marks:
        _name(dots, drawing, room, marks)
    return dots.rows()


def _shape(
    dots: Dots, shape: Shape, room: _Room, figure: Figure, heavy: Collection[str], *, bones: bool
) -> None:
    if not shape.pieces:
        return
    if shape.kind == "dark":
        spots = room.cells(shape.places)
        dots.fill(spots)
        dots.line(spots, "fine")
    elif shape.kind == "bone":
        if bones:
            dots.line(room.cells(shape.places), "fine", "dotted")
    elif shape.kind == "far":
        dots.clear(room.cells(shape.places))
        dots.line(room.cells(shape.places), "fine", "dotted")
    elif shape.kind == "fold":
        if bones:
            dots.line(room.cells(shape.places), "fine")
    else:
        dots.clear(room.cells(shape.places))
        _stroked(
            dots, shape, room, lambda part: "thick" if part in heavy else _STROKES[figure.line(part)], "fine"
        )


def _stroked(dots: Dots, shape: Shape, room: _Room, stroke: Callable[[str], Stroke], mark: Mark) -> None:
    for part, points in shape.runs:
        dots.line(room.cells(points), mark, stroke(part))


def _name(dots: Dots, drawing: Drawing, room: _Room, marks: Mapping[str, str]) -> None:
    """A ring at each landmark and its name beside it, on the side where there is room."""
    middle = dots.width / 2
    for name, words in sorted(marks.items(), key=lambda item: -drawing.marks.get(item[0], (0.0, 0.0))[1]):
        if name not in drawing.marks:
            continue
        x, y = room.cell(drawing.marks[name])
        column, row = round(x - 0.5), int(y)
        ring = "o" if dots.letters else "◉"
        right = column + 2, column - 1 - len(words)
        for at in right if x >= middle else reversed(right):
            for down in (0, -1, 1, -2, 2):
                if dots.free(at, row + down, len(words)):
                    dots.text(at, row + down, words)
                    break
            else:
                continue
            break
        dots.text(column, row, ring)
