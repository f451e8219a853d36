"""Text from people and files made safe to show: nothing in it can move the cursor or turn the line round."""

from __future__ import annotations

import os
import unicodedata

_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that change the direction of what follows (Unicode Standard Annex 9)."""


def visible(text: str, keep: str = "") -> str:
    """`text` with control, direction and unpaired surrogate characters as visible signs.

    `keep` names characters let through, for instance a line break. Control characters become the
    pictures of Unicode block 2400 (`␛` for escape), the others `⟨U+202E⟩`.
    """
    if text.isprintable():
        return text
    return "".join(char if char in keep else _sign(char) for char in text)


def one_line(text: str) -> str:
    """`text` on one line: line breaks and tabs become spaces, the rest as in `visible`."""
    return visible(" ".join(text.split()))


def shell_word(text: str) -> str:
    """A path or word as this system's shell takes it back, with nothing in it that a terminal would obey.

    Signs that can't be shown are written as a POSIX shell knows them between $' and ' (POSIX.1-2024, 2.2.4).
    """
    if text.startswith("-"):  # a name, not an option
        text = f"./{text}"
    if os.name == "nt":
        return f'"{visible(text)}"' if not text.isalnum() else text
    if visible(text) != text:
        return "$'" + "".join(map(_escaped, text)) + "'"
    import shlex

    return shlex.quote(text)


def _escaped(char: str) -> str:
    if char in "\\'":
        return f"\\{char}"
    if visible(char) == char:
        return char
    # Three octal digits end the escape, whatever follows.
    return "".join(f"\\{byte:03o}" for byte in os.fsencode(char))


def _sign(char: str) -> str:
    code = ord(char)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    if char in _TURNING or unicodedata.category(char) in ("Cc", "Cs", "Zl", "Zp"):
        return f"\u27e8U+{code:04X}\u27e9"
    return char


def spreadsheet_text(text: str) -> str:
    """A text as a cell that no spreadsheet takes for a formula: an apostrophe stands before one.

    Beginnings after OWASP's page on CSV injection: `=`, `+`, `-`, `@`, tab and carriage return, also behind
    blanks.
    """
    start = text.lstrip(" \u00a0\ufeff")[:1]
    return f"'{text}" if start in tuple("=+-@\t\r\n|%＝＋－＠") and start else text
