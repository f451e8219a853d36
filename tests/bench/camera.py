"""A camera for screens: each is shown at every size and in a light theme, and what is odd about it told."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.cells import cell_len
from textual.screen import ModalScreen

from tests.tui.driving import Sitting

__all__ = ["LOOKS", "Camera", "folder_of"]

SIZES = ((60, 20), (80, 24), (160, 45), (200, 60))
LOOKS = (
    *((size, "textual-dark") for size in SIZES),
    ((80, 24), "textual-light"),
    ((160, 45), "textual-light"),
)
LEAST_CONTRAST = 4.5


def folder_of(size: tuple[int, int], theme: str) -> str:
    """The folder of one look's pictures: 80x24, 80x24-light."""
    return f"{size[0]}x{size[1]}{'-light' if 'light' in theme else ''}"


class Camera:
    """Takes the screen that stands, in every look."""

    def __init__(
        self, table: Sitting, out: Path, *, svg: bool, looks: Sequence[tuple[tuple[int, int], str]] = LOOKS
    ) -> None:
        self.table, self.out, self.svg, self.looks = table, out, svg, looks
        self.taken = 0

    async def take(self, name: str, *keys: str) -> None:
        """Press the keys and keep what shows as `name`."""
        app, pilot = self.table.app, self.table.pilot
        await self.table.press(*keys)
        await self.table.settle()
        for (width, height), theme in self.looks:
            app.theme = theme
            await pilot.resize_terminal(width, height)
            await self.table.settle()
            await pilot.pause()
            folder = self.out / folder_of((width, height), theme)
            folder.mkdir(parents=True, exist_ok=True)
            text = self.table.text
            (folder / f"{name}.txt").write_text(text + "\n", encoding="utf-8")
            if self.svg:
                (folder / f"{name}.svg").write_text(app.export_screenshot(), encoding="utf-8")
            place = f"{folder.name}/{name}"
            for worst, words in self.faint():
                print(f"{place}: contrast {worst:.1f}: {words!r}")
            if any(cell_len(line) > width for line in text.split("\n")):
                print(f"{place}: wider than the window")
        app.theme = "textual-dark"
        await pilot.resize_terminal(80, 24)
        await self.table.settle()
        self.taken += 1

    def faint(self) -> list[tuple[float, str]]:
        """Texts of too little contrast: the ratio, and the first such words with it."""
        found: dict[float, str] = {}
        app = self.table.app
        if isinstance(app.screen, ModalScreen):
            return []  # what lies faint behind a question is not to be read; its box is as the other screens
        for strip in app.screen._compositor.render_strips(app.size):
            for segment in strip:
                style = segment.style
                words = segment.text.strip()
                if style is None or style.color is None or style.bgcolor is None:
                    continue
                if not any(letter.isalnum() for letter in words):
                    continue
                ratio = contrast(style.color.get_truecolor(), style.bgcolor.get_truecolor())
                if ratio < LEAST_CONTRAST:
                    found.setdefault(round(ratio, 1), words[:40])
        return sorted(found.items())


def contrast(one: Sequence[int], other: Sequence[int]) -> float:
    """The ratio of contrast of two colours of 8 bits a channel, 1 to 21 (WCAG 2.1)."""

    def luminance(colour: Sequence[int]) -> float:
        linear = [
            part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4
            for part in (value / 255 for value in colour)
        ]
        return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)
