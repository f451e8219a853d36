"""Every key of every screen, said once: bindings, footer and help are made from this."""

from __future__ import annotations

import re

from textual.binding import Binding, BindingType

from hands_on.tui.keys.comparing import COMPARING
from hands_on.tui.keys.examining import EXAMINING
from hands_on.tui.keys.key import Key
from hands_on.tui.keys.walking import WALKING

KEYS: dict[str, tuple[Key, ...]] = {**EXAMINING, **WALKING, **COMPARING}
"""The keys of each screen and question, by its `NAME`."""


def bindings(screen: str) -> list[BindingType]:
    """The bindings of a screen; keys that a widget handles itself are left to it."""
    return [
        Binding(
            key.keys,
            key.action,
            key.label,
            key_display=key.shown or None,
            show=key.footer,
            priority=key.priority,
            id=_id(screen, key),
        )
        for key in KEYS[screen]
        if key.keys and key.action and not key.in_line
    ]


def in_line(screen: str) -> dict[str, str]:
    """What each key does in the line that has the focus."""
    return {name: key.action for key in KEYS[screen] if key.in_line for name in key.keys.split(",")}


def footer(screen: str) -> list[tuple[str, str]]:
    """What the footer tells: how the key is written, and its word."""
    return [(key.shown or key.keys.split(",")[0], key.label) for key in KEYS[screen] if key.footer]


def help_key(screen: str) -> list[tuple[str, str]]:
    """How help is asked for on a screen; empty where it has none."""
    found = [key for key in KEYS[screen] if key.action == "help"]
    return [(key.shown or key.keys.split(",")[0], key.label) for key in found]


def _id(screen: str, key: Key) -> str:
    return re.sub(r"[^a-z_.]+", "-", f"{screen}.{key.action}").strip("-")
