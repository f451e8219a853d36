"""The first and the last line of every screen."""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content
from textual.geometry import Size
from textual.widgets import Static

from hands_on.plain_text import one_line
from hands_on.tui import keys
from hands_on.tui.show import fitted, line

HIGH = 20
"""Lines from which the keys may take two of them."""

TWO_LINES = 2


class TitleLine(Static):
    """What this screen is."""

    def __init__(self, title: str) -> None:
        super().__init__(line(title), markup=False)
        self._title = title

    def say(self, title: str) -> None:
        """Another title."""
        self._title = title
        self.draw()

    def on_resize(self) -> None:
        """Fit again."""
        self.draw()

    def draw(self) -> None:
        """The title, and at the right who examines, where somebody does."""
        who = one_line(getattr(self.app, "examiner_shown", ""))
        room = self.content_size.width
        if not who or room < 40:
            self.update(line(self._title))
            return
        who = fitted(who, room // 3, 1)
        title = fitted(self._title, room - cell_len(who) - 2, 1)
        gap = " " * (room - cell_len(title) - cell_len(who))
        self.update(Content.assemble(line(title), gap, line(who)))


class FooterLine(Static):
    """The keys that matter on this screen, as many as there is room for; help is always among them."""

    def __init__(self, screen: str) -> None:
        super().__init__("", markup=False)
        self._screen_name = screen

    def tell(self, screen: str) -> None:
        """The keys of another screen, or of the line that is open."""
        if screen != self._screen_name:
            self._screen_name = screen
            self.on_resize()
            self.refresh(layout=True)

    def on_resize(self) -> None:
        """Fit again."""
        self.update(self._fitted(self.content_size.width))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """A second line where there is need of it and room for it."""
        return str(self._fitted(width)).count("\n") + 1

    def _fitted(self, width: int) -> Content:
        lines = TWO_LINES if self.app.size.height >= HIGH else 1
        return footer_content(self._screen_name, width, lines)


def footer_content(screen: str, width: int, lines: int = 1) -> Content:
    """Whole keys only: where not all fit, those at the end are left out and help is told last."""
    told = keys.footer(screen)
    rows = _rows(told, width)
    if len(rows) > lines:
        last = keys.help_key(screen)
        kept = [key for key in told if key not in last]
        while kept and len(_rows([*kept, *last], width)) > lines:
            kept.pop()
        rows = _rows([*kept, *last], width)
    return Content("\n").join(_line(row) for row in rows)


def _rows(told: list[tuple[str, str]], width: int) -> list[list[tuple[str, str]]]:
    """The keys in as many lines as they need."""
    rows: list[list[tuple[str, str]]] = [[]]
    for key in told:
        if rows[-1] and _width([*rows[-1], key]) > width:
            rows.append([])
        rows[-1].append(key)
    return rows


def _line(told: list[tuple[str, str]]) -> Content:
    parts: list[str | tuple[str, str]] = []
    for shown, label in told:
        if parts:
            parts.append("  ")
        parts += [(shown, "bold"), f" {label}"]
    return Content.assemble(*parts)


def _width(told: list[tuple[str, str]]) -> int:
    return cell_len("  ".join(f"{shown} {label}" for shown, label in told))
