"""Keys as the dialogue at a point names them."""

from __future__ import annotations

from textual.events import Key

NAMED = ("enter", "backspace", "escape", "up", "down", "left", "right")

KEYPAD = {"add": "+", "subtract": "-", "multiply": "*", "divide": "/", "decimal": ".", "separator": ","}
"""Names that some terminals give to keys of the numeric keypad."""


FIGURES = "0123456789"


def figure(event: Key) -> int | None:
    """The number of a figure pressed; None for every other key, `²` and the figures of other scripts too."""
    key = dialogue_key(event)
    return int(key) if key is not None and len(key) == 1 and key in FIGURES else None


def dialogue_key(event: Key) -> str | None:
    """The key for a dialogue: a character, or one of NAMED; None for others."""
    if event.key in NAMED:
        return event.key
    if event.key in KEYPAD:
        return KEYPAD[event.key]
    character = event.character
    if character and len(character) == 1 and character.isprintable():
        return character
    return event.key if len(event.key) == 1 and event.key.isprintable() else None
