"""Lines and closed figures in character cells, in two marks that can be told apart without colour.

`fine` lines are braille dots (2 x 4 a cell), `heavy` ones quarter blocks (2 x 2 a cell); on a terminal whose
font has neither, both are letters, one a cell. A cell is taken to be twice as high as wide.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from operator import or_
from typing import Literal

__all__ = ["MARKS", "Dots", "Lettering", "Mark", "Place", "Stroke"]

Mark = Literal["fine", "heavy"]
Stroke = Literal["thick", "plain", "dotted"]
Place = tuple[float, float]

MARKS: dict[Mark, tuple[str, str]] = {"fine": ("⠒⠒⠒", "ooo"), "heavy": ("▘▖▘", "###")}
"""How a line of each mark looks in a legend: with the full font, and in letters."""

_BRAILLE = (0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80)
"""Bit of each dot by row and column (Unicode, block 2800)."""

_QUARTERS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""Quarter blocks by bits: 1 upper left, 2 upper right, 4 lower left, 8 lower right."""

_QUARTER_BITS = (1, 2), (4, 8), (1, 2), (4, 8)
_FINE = [" ", *(chr(0x2800 + bits) for bits in range(1, 256))]
_GAP: dict[Mark, int] = {"fine": 3, "heavy": 3}
"""A dotted line has one dot of so many."""


class Lettering:
    """The words in a drawing of `width` x `height` cells, none over another."""

    def __init__(self, width: int, height: int, *, letters: bool = False) -> None:
        self.width, self.height, self.letters = width, height, letters
        self._texts: dict[tuple[int, int], str] = {}

    def text(self, x: int, y: int, words: str) -> None:
        """Letters over whatever is drawn there."""
        for place, letter in enumerate(words):
            if 0 <= x + place < self.width and 0 <= y < self.height:
                self._texts[x + place, y] = letter

    def free(self, x: int, y: int, length: int) -> bool:
        """Is there room for so many letters, and none of another text in it?"""
        if y < 0 or y >= self.height or x < 0 or x + length > self.width:
            return False
        return not any((x + n, y) in self._texts for n in range(-1, length + 1))


class Dots(Lettering):
    """Cells to draw in; places are in cells from the upper left, in fractions."""

    def __init__(self, width: int, height: int, *, letters: bool = False) -> None:
        super().__init__(width, height, letters=letters)
        # A row of dots is a row of bytes, each dot already the bit it has in its cell.
        self._fine_grid: tuple[int, int] = (1, 1) if letters else (2, 4)
        self._heavy_grid: tuple[int, int] = (1, 1) if letters else (2, 2)
        self._fine = [bytearray(width * self._fine_grid[0]) for _ in range(height * self._fine_grid[1])]
        self._heavy = [bytearray(width * self._heavy_grid[0]) for _ in range(height * self._heavy_grid[1])]
        self._any_heavy = False
        ones = ((1, 1),) * 4
        self._bits: dict[Mark, tuple[tuple[int, int], ...]] = (
            {"fine": ones, "heavy": ones} if letters else {"fine": _BRAILLE, "heavy": _QUARTER_BITS}
        )

    def line(self, places: Sequence[Place], mark: Mark, stroke: Stroke = "plain") -> None:
        """Straight lines from place to place."""
        across, down = self._fine_grid if mark == "fine" else self._heavy_grid
        rows = self._fine if mark == "fine" else self._heavy
        self._any_heavy = self._any_heavy or mark == "heavy"
        wide, high = self.width * across, self.height * down
        gap = _GAP[mark] if stroke == "dotted" else 1
        thick = stroke == "thick"
        bits = self._bits[mark]
        walked, last = 0, len(places) - 2
        for number, ((ax, ay), (bx, by)) in enumerate(pairwise(places)):
            x0, y0, x1, y1 = ax * across, ay * down, bx * across, by * down
            steps = max(1, math.ceil(max(abs(x1 - x0), abs(y1 - y0))))
            if steps > 4 * (wide + high):
                continue  # far outside
            dx, dy = (x1 - x0) / steps, (y1 - y0) / steps
            x0, y0 = x0 + 0.5, y0 + 0.5
            for step in range(-walked % gap, steps + (number == last), gap):
                x, y = int(x0 + dx * step), int(y0 + dy * step)
                if 0 <= x < wide and 0 <= y < high:
                    rows[y][x] = bits[y & 3][x & 1]
                    if thick:
                        if x + 1 < wide:
                            rows[y][x + 1] = bits[y & 3][x + 1 & 1]
                        if y + 1 < high:
                            rows[y + 1][x] = bits[y + 1 & 3][x & 1]
            walked += steps

    def dot(self, x: float, y: float, mark: Mark) -> None:
        """One dot."""
        across, down = self._fine_grid if mark == "fine" else self._heavy_grid
        rows = self._fine if mark == "fine" else self._heavy
        self._any_heavy = self._any_heavy or mark == "heavy"
        column, row = round(x * across), round(y * down)
        if 0 <= column < self.width * across and 0 <= row < self.height * down:
            rows[row][column] = self._bits[mark][row & 3][column & 1]

    def clear(self, places: Sequence[Place]) -> None:
        """Take away what was drawn in fine lines within a closed figure: it lies behind."""
        for y, left, right in self._spans(places):
            self._fine[y][left:right] = bytes(right - left)

    def fill(self, places: Sequence[Place]) -> None:
        """All of a closed figure, in fine dots."""
        for y, left, right in self._spans(places):
            for x in range(left, right):
                self._fine[y][x] = self._bits["fine"][y & 3][x & 1]

    def rows(self) -> list[str]:
        """What was drawn, a line a row."""
        found = []
        for y in range(self.height):
            fine = self._cells(self._fine, y, self._fine_grid)
            heavy = self._cells(self._heavy, y, self._heavy_grid) if self._any_heavy else b""
            if self.letters:
                cells = [
                    "o" if a else "#" if b else " "
                    for a, b in zip(fine, heavy or bytes(self.width), strict=True)
                ]
            elif any(heavy):
                # Where both meet the fine one shows: the heavy one goes on to both sides of it.
                cells = [_FINE[a] if a else _QUARTERS[b] for a, b in zip(fine, heavy, strict=True)]
            else:
                cells = list(map(_FINE.__getitem__, fine))
            for (x, row), letter in self._texts.items():
                if row == y:
                    cells[x] = letter
            found.append("".join(cells).rstrip())
        return found

    @staticmethod
    def _cells(rows: list[bytearray], y: int, grid: tuple[int, int]) -> bytes:
        across, down = grid
        parts = [rows[y * down + n][k::across] for n in range(down) for k in range(across)]
        whole = bytes(parts[0])
        for part in parts[1:]:
            whole = bytes(map(or_, whole, part))
        return whole

    def _spans(self, places: Sequence[Place]) -> list[tuple[int, int, int]]:
        """Row, first and last column of what lies within, in fine dots (even and odd crossings)."""
        across, down = self._fine_grid
        wide, high = self.width * across, self.height * down
        crossings: list[list[float]] = [[] for _ in range(high)]
        closed = [*places, places[0]] if places else []
        for (ax, ay), (bx, by) in pairwise(closed):
            x0, y0, x1, y1 = ax * across, ay * down, bx * across, by * down
            if y0 == y1:
                continue
            if y0 > y1:
                x0, y0, x1, y1 = x1, y1, x0, y0
            for y in range(max(0, math.ceil(y0)), min(high, math.ceil(y1))):
                # A share from 0 to 1: a slope would overflow where an edge is all but level.
                crossings[y].append(x0 + (x1 - x0) * ((y - y0) / (y1 - y0)))
        spans = []
        for y, found in enumerate(crossings):
            found.sort()
            for left, right in zip(found[::2], found[1::2], strict=False):
                first, last = max(0, math.ceil(left)), min(wide, math.floor(right) + 1)
                if first < last:
                    spans.append((y, first, last))
        return spans
