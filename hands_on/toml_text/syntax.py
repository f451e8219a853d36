"""Why a text is no TOML, with its line and what would be right."""

from __future__ import annotations

import re

from hands_on.toml_text.problems import Problem

__all__ = ["syntax_problem"]

_COMMA = re.compile(r"=\s*(\d+),(\d+)\b")
"""A decimal comma, which TOML doesn't know."""

_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")


def syntax_problem(message: str, text: str, file: str) -> Problem:
    """The standard library's message as a Problem."""
    place = _PLACE.search(message)
    line = int(place[1]) if place else text.count("\n") + 1
    what = _PLACE.sub("", message).replace("(at end of document)", "").strip()
    shown = _line_text(text, line)
    hint = 'one `key = value` a line, texts in "quotes", tables named in [brackets].'
    if "end of document" in message or not shown:
        what += "; the text stops in the middle of something, as if the file had been cut off"
        hint = "the rest of the file, or the quote or bracket that is still open closed. " + hint
    elif "overwrite" in what.lower() or "declare" in what.lower() or "duplicate" in what.lower():
        hint = "each key and each table once; a list of tables is written [[like this]]."
    if comma := _COMMA.search(shown):
        hint = f"a point for the decimals: {comma[1]}.{comma[2]}."
    return Problem(file, line, "", f"this is not valid TOML: {what}. The line reads: {shown!r}.", hint)


def _line_text(text: str, line: int) -> str:
    rows = text.splitlines()
    return rows[line - 1].strip()[:80] if 0 < line <= len(rows) else ""
