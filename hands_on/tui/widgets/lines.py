"""The first and the last line of every screen."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from hands_on.tui import keys
from hands_on.tui.show import plain


class TitleLine(Static):
    """What this screen is."""

    def __init__(self, title: str) -> None:
        super().__init__(plain(title), markup=False)


class FooterLine(Static):
    """The keys that matter on this screen."""

    def __init__(self, screen: str) -> None:
        parts: list[str | tuple[str, str]] = []
        for shown, label in keys.footer(screen):
            if parts:
                parts.append("  ")
            parts += [(shown, "bold"), f" {label}"]
        super().__init__(Content.assemble(*parts), markup=False)
