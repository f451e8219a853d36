"""Shown while the terminal is too small for any screen."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Static

LEAST_WIDTH = 60
LEAST_HEIGHT = 18


class TooSmallScreen(Screen[None]):
    """Says how large the terminal must be; goes away by itself."""

    def compose(self) -> ComposeResult:
        """One text."""
        yield Static(
            f"This window is too small.\nAt least {LEAST_WIDTH} columns and {LEAST_HEIGHT} lines are needed."
            "\nMake it larger: everything is as it was.",
            markup=False,
        )
