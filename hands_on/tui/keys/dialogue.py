"""Keys as the dialogue at a point names them."""

from __future__ import annotations

from textual.events import Key

NAMED = ("enter", "backspace", "escape", "up", "down", "left", "right")

KEYPAD = {"add": "+", "subtract": "-", "multiply": "*", "divide": "/", "decimal": ".", "separator": ","}
"""Names that some terminals give to keys of the numeric keypad."""


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
