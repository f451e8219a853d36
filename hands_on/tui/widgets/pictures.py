"""Text with drawings in it: in characters, or in pixels where the terminal shows pictures."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from textual.content import Content
from textual.widgets import Static

from hands_on.tui.drawing import Picture, draw, figure_rows
from hands_on.tui.easel import Easel
from hands_on.tui.pixels import Pixels

FigureRows = Callable[[Picture, int, int], list[str]]
"""Draws a picture in so many cells, as lines of text."""

_SIGN = 0xF0000
"""First of the letters that keep the place of a picture in a text (private use, plane 15)."""


@dataclass(frozen=True)
class _Hung:
    """Where a picture lies in the text, in cells, and its pixels."""

    x: int
    y: int
    width: int
    height: int
    image: Any


class PicturedText(Static):
    """A text that is put together from lines of words and of drawings."""

    DEFAULT_CSS = """
    PicturedText {
        layers: words pictures;
    }
    PicturedText > * {
        layer: pictures;
        position: absolute;
    }
    """

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__("", markup=False, id=id)

    @property
    def easel(self) -> Easel | None:
        """How pictures are shown here, if at all."""
        found: Easel | None = getattr(self.app, "easel", None)
        return found

    def put(self, lines: Callable[[FigureRows], Sequence[Content]]) -> None:
        """Show what `lines` gives; it draws with the function it is handed."""
        easel = self.easel
        if easel is None:
            self.update(Content("\n").join(lines(figure_rows)))
            return
        frame = _Frame(easel, self._colours())
        rows = list(lines(frame.rows))
        self.update(Content("\n").join(frame.without_signs(row, y) for y, row in enumerate(rows)))
        self._hang(easel, frame.hung)

    def _colours(self) -> tuple[tuple[int, int, int], tuple[int, int, int]]:
        paper, ink = self.background_colors[1], self.styles.color
        if self.app.console.color_system != "truecolor":
            # Text stands on the nearest of few colours there, and so do pictures.
            black, white = (0, 0, 0), (255, 255, 255)
            return (black, white) if paper.brightness < 0.5 else (white, black)
        return (paper.r, paper.g, paper.b), (ink.r, ink.g, ink.b)

    def _hang(self, easel: Easel, hung: Sequence[_Hung]) -> None:
        before: list[Any] = list(self.children)
        for widget in before[len(hung) :]:
            widget.remove()
        for n, one in enumerate(hung):
            widget = before[n] if n < len(before) else easel.widget()
            widget.styles.width, widget.styles.height = one.width, one.height
            widget.styles.offset = one.x, one.y
            widget.image = one.image
            if n >= len(before):
                self.mount(widget)


class _Frame:
    """Draws pictures and keeps their places in the text."""

    def __init__(self, easel: Easel, colours: tuple[tuple[int, int, int], tuple[int, int, int]]) -> None:
        self._easel, self._colours = easel, colours
        self._drawn: list[tuple[int, int, Any]] = []
        self.hung: list[_Hung] = []

    def rows(self, picture: Picture, width: int, height: int) -> list[str]:
        canvas = Pixels(width, height, self._easel.cell)
        draw(picture, canvas)
        image = canvas.painted(*self._colours)
        sign = chr(_SIGN + len(self._drawn))
        self._drawn.append((width, height, image))
        return [sign * width for _ in range(height)]

    def without_signs(self, row: Content, y: int) -> Content:
        """The line with room where pictures will lie; each is hung where its sign is met first."""
        text = row.plain
        for n, (width, height, image) in enumerate(self._drawn):
            x = text.find(chr(_SIGN + n))
            if x < 0:
                continue
            if n >= len(self.hung):
                self.hung.append(_Hung(x, y, width, height, image))
        if not any(ord(letter) >= _SIGN for letter in text):
            return row
        return Content("".join(" " if ord(letter) >= _SIGN else letter for letter in text).rstrip())
