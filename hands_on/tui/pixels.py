"""The canvas of a terminal that shows pictures: `tui.dots` in pixels, as shades from paper to ink."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import cycle, pairwise
from typing import TYPE_CHECKING

from hands_on.tui.dots import Lettering, Mark, Place, Stroke

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["Pixels"]

FINER = 2
"""Drawn so many times as large and brought down again, so that edges are smooth."""

INK, GREY = 255, 150

SHADES = 8
"""From paper to ink: smooth enough for lines, and fewer than the least of terminals keeps (VT340: 16)."""

_WIDTHS: dict[tuple[Mark, Stroke], float] = {
    ("fine", "thick"): 0.22,
    ("fine", "plain"): 0.13,
    ("fine", "dotted"): 0.1,
    ("heavy", "thick"): 0.3,
    ("heavy", "plain"): 0.3,
    ("heavy", "dotted"): 0.2,
}
"""Widths of lines, as parts of a cell's width."""

_DOTTED, _CHAIN = (0.35, 0.35), (0.9, 0.3, 0.2, 0.3)
"""Lengths of strokes and gaps by turns, in widths of a cell."""


class Pixels(Lettering):
    """Cells of `cell` pixels to draw in; places are in cells from the upper left, in fractions."""

    def __init__(self, width: int, height: int, cell: tuple[int, int]) -> None:
        from PIL import ImageDraw  # part of the extra `pictures`
        from PIL.Image import new

        super().__init__(width, height)
        self._cell = cell
        self._across, self._down = cell[0] * FINER, cell[1] * FINER
        self._size = max(1, width * self._across), max(1, height * self._down)
        self._images: dict[Mark, Image] = {mark: new("L", self._size, 0) for mark in ("fine", "heavy")}
        self._draws = {mark: ImageDraw.Draw(image) for mark, image in self._images.items()}

    def line(self, places: Sequence[Place], mark: Mark, stroke: Stroke = "plain") -> None:
        """Straight lines from place to place."""
        points = self._points(places)
        wide = max(FINER, round(_WIDTHS[mark, stroke] * self._across))
        shade = GREY if (mark, stroke) == ("fine", "dotted") else INK
        if mark == "fine" and stroke != "dotted":
            self._draws[mark].line(points, fill=shade, width=wide, joint="curve")
            return
        turns = [length * self._across for length in (_CHAIN if mark == "heavy" else _DOTTED)]
        for piece in _pieces(points, turns):
            self._draws[mark].line(piece, fill=shade, width=wide, joint="curve")

    def clear(self, places: Sequence[Place]) -> None:
        """Take away what was drawn in fine lines within a closed figure: it lies behind."""
        self._polygon(places, 0)

    def fill(self, places: Sequence[Place]) -> None:
        """Darken a closed figure."""
        self._polygon(places, INK)

    def _polygon(self, places: Sequence[Place], shade: int) -> None:
        if len(places) > 2:
            self._draws["fine"].polygon(self._points(places), fill=shade)

    def _points(self, places: Sequence[Place]) -> list[tuple[float, float]]:
        # What is far outside is brought near: the window of a part leaves most of the dog out.
        wide, high = self._size
        return [
            (min(max(x * self._across, -wide), 2 * wide), min(max(y * self._down, -high), 2 * high))
            for x, y in places
        ]

    def painted(self, paper: tuple[int, int, int], ink: tuple[int, int, int]) -> Image:
        """What was drawn, in a palette from paper to ink."""
        from PIL import Image

        shades = self._shades().point([round(shade * (SHADES - 1) / INK) for shade in range(INK + 1)])
        image = Image.frombytes("P", shades.size, shades.tobytes())
        image.putpalette(
            [
                a + (b - a) * shade // (SHADES - 1)
                for shade in range(SHADES)
                for a, b in zip(paper, ink, strict=True)
            ]
        )
        return image

    def _shades(self) -> Image:
        """One byte a pixel: 0 is paper, 255 ink."""
        from PIL import ImageChops, ImageDraw, ImageFont

        image = ImageChops.lighter(*self._images.values()).reduce(FINER)
        draw, (wide, high) = ImageDraw.Draw(image), self._cell
        font = ImageFont.load_default(max(8.0, 0.72 * high))
        for x, y, words in self._words():
            if words in ("◉", "o"):
                middle, rim = ((x + 0.5) * wide, (y + 0.5) * high), 0.55 * wide
                draw.circle(middle, rim, fill=0, outline=INK, width=max(1, wide // 6))
                draw.circle(middle, rim / 3, fill=INK)
            else:
                place = (x * wide, (y + 0.5) * high)
                box = draw.textbbox(place, words, font=font, anchor="lm")
                draw.rectangle(box, fill=0)
                draw.text(place, words, fill=INK, font=font, anchor="lm")
        return image

    def _words(self) -> Iterator[tuple[int, int, str]]:
        """Letters that stand beside each other, as words with their first cell."""
        run: tuple[int, int, str] | None = None
        for (x, y), letter in sorted(self._texts.items(), key=lambda one: (one[0][1], one[0][0])):
            if run is not None and run[1] == y and run[0] + len(run[2]) == x and letter != "◉" != run[2]:
                run = (run[0], y, run[2] + letter)
                continue
            if run is not None:
                yield run
            run = (x, y, letter)
        if run is not None:
            yield run


def _pieces(
    points: Sequence[tuple[float, float]], turns: Sequence[float]
) -> Iterator[list[tuple[float, float]]]:
    """A line cut into strokes: `turns` are lengths of strokes and gaps, the first a stroke."""
    lengths = cycle(turns)
    left, drawn = next(lengths), True
    piece = list(points[:1])
    for (ax, ay), (bx, by) in pairwise(points):
        far = math.hypot(bx - ax, by - ay)
        gone = 0.0
        while far - gone > left:
            gone += left
            at = (ax + (bx - ax) * gone / far, ay + (by - ay) * gone / far)
            if drawn:
                yield [*piece, at]
            piece, drawn, left = [at], not drawn, next(lengths)
        left -= far - gone
        piece.append((bx, by))
    if drawn and len(piece) > 1:
        yield piece
