"""A small drawing of lines in character cells, in two marks that can be told apart without colour.

`fine` lines are braille dots (2 x 4 a cell), `heavy` ones quarter blocks (2 x 2 a cell); on a terminal whose
font has neither, both are letters, one a cell. A cell is taken to be twice as high as wide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

__all__ = ["MARKS", "Canvas", "Mark"]

Mark = Literal["fine", "heavy"]

MARKS: dict[Mark, tuple[str, str]] = {"fine": ("⠒⠒⠒", "ooo"), "heavy": ("▀▀▀", "###")}
"""How a line of each mark looks in a legend: with the full font, and in letters."""

_BRAILLE = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Bit of each dot by row and column (Unicode, block 2800)."""

_QUARTERS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""Quarter blocks by bits: 1 upper left, 2 upper right, 4 lower left, 8 lower right."""

_GAP = 2
"""A dotted line has one dot of so many."""


@dataclass
class Canvas:
    """Cells to draw in; coordinates are cells from the upper left, in fractions."""

    width: int
    height: int
    letters: bool = False
    """Only letters: the font has no braille."""
    _fine: dict[tuple[int, int], int] = field(default_factory=dict)
    _heavy: dict[tuple[int, int], int] = field(default_factory=dict)
    _texts: dict[tuple[int, int], str] = field(default_factory=dict)

    def line(
        self, start: tuple[float, float], end: tuple[float, float], mark: Mark, *, dotted: bool = False
    ) -> None:
        """Draw a straight line; a dotted one has gaps."""
        across, down = self._grid(mark)
        x0, y0, x1, y1 = start[0] * across, start[1] * down, end[0] * across, end[1] * down
        steps = max(1, math.ceil(max(abs(x1 - x0), abs(y1 - y0))))
        for step in range(steps + 1):
            if dotted and step % _GAP:
                continue
            share = step / steps
            self._dot(round(x0 + share * (x1 - x0)), round(y0 + share * (y1 - y0)), mark)

    def dot(self, x: float, y: float, mark: Mark) -> None:
        """One dot."""
        across, down = self._grid(mark)
        self._dot(round(x * across), round(y * down), mark)

    def text(self, x: int, y: int, words: str) -> None:
        """Letters over whatever is drawn there."""
        for place, letter in enumerate(words):
            if 0 <= x + place < self.width and 0 <= y < self.height:
                self._texts[x + place, y] = letter

    def rows(self) -> list[str]:
        """What was drawn, a line a row."""
        return ["".join(self._cell(x, y) for x in range(self.width)).rstrip() for y in range(self.height)]

    def _grid(self, mark: Mark) -> tuple[int, int]:
        if self.letters:
            return 1, 1
        return (2, 4) if mark == "fine" else (2, 2)

    def _dot(self, x: int, y: int, mark: Mark) -> None:
        across, down = self._grid(mark)
        cell = (x // across, y // down)
        if not (0 <= cell[0] < self.width and 0 <= cell[1] < self.height):
            return
        if self.letters:
            bit = 1
        elif mark == "fine":
            bit = _BRAILLE[y % down][x % across]
        else:
            bit = 1 << (x % across + 2 * (y % down))
        drawn = self._fine if mark == "fine" else self._heavy
        drawn[cell] = drawn.get(cell, 0) | bit

    def _cell(self, x: int, y: int) -> str:
        if (x, y) in self._texts:
            return self._texts[x, y]
        fine, heavy = self._fine.get((x, y), 0), self._heavy.get((x, y), 0)
        if self.letters:
            return "o" if fine else "#" if heavy else " "
        # Where both meet the fine one shows: the heavy one goes on to both sides of it.
        return chr(0x2800 + fine) if fine else _QUARTERS[heavy]
