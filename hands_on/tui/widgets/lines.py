"""The first and the last line of every screen."""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content
from textual.widgets import Static

from hands_on.plain_text import one_line
from hands_on.tui import keys
from hands_on.tui.show import fitted, line


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

    def on_resize(self) -> None:
        """Fit again."""
        self.update(footer_content(self._screen_name, self.content_size.width))


def footer_content(screen: str, width: int) -> Content:
    """Whole keys only: where not all fit, those at the end are left out and help is told last."""
    told = keys.footer(screen)
    if _width(told) > width:
        last = keys.help_key(screen)
        kept = [key for key in told if key not in last]
        while kept and _width([*kept, *last]) > width:
            kept.pop()
        told = [*kept, *last]
    parts: list[str | tuple[str, str]] = []
    for shown, label in told:
        if parts:
            parts.append("  ")
        parts += [(shown, "bold"), f" {label}"]
    return Content.assemble(*parts)


def _width(told: list[tuple[str, str]]) -> int:
    return cell_len("  ".join(f"{shown} {label}" for shown, label in told))
