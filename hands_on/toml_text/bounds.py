"""Is a TOML text of a sensible size and shape? Looked at before anything is built on it.

The standard library's parser takes time and memory by the square of a dotted key's parts, and numbers of any
length. A file may come from anywhere, so what no session or ruleset is ever like is refused first, in one
walk over the text whose cost grows as the text does.
"""

from __future__ import annotations

import re
from typing import Any

from hands_on.toml_text.problems import BadText, Problem

__all__ = ["DEEPEST", "LARGEST_TEXT", "LONGEST_WORD", "MOST_VALUES", "check_bounds", "check_numbers"]

LARGEST_TEXT = 2 * 2**20
"""Characters; a session or ruleset has a few dozen thousand."""

DEEPEST = 32
"""Levels of lists and tables, the parts of dotted keys counted with them."""

MOST_VALUES = 50_000
"""Values, list entries and tables in one file."""

LONGEST_WORD = 1_000
"""Characters of a key, number or date without quotes."""

LARGEST_WHOLE = 2**63
"""TOML 1.0, Integer: 64 bits with a sign are what a parser must read."""

_TOKEN = re.compile(
    rf'''
    (?: \#[^\n]*+
      | """(?:[^"\\]++|\\.|"(?!""))*+(?:"""|\Z)"{{0,2}}
      | \'\'\'(?:[^']++|'(?!''))*+(?:\'\'\'|\Z)'{{0,2}}
      | "(?:[^"\\\n]++|\\[^\n])*+"?
      | '[^'\n]*+'?
      | [^\S\n]++
      | [^\s"'\#\[\]{{}},.=]{{1,{LONGEST_WORD}}}+(?![^\s"'\#\[\]{{}},.=])
    )*+
    (?: (?P<mark> [\[\]{{}},.=\n] ) | (?P<word> [^\s"'\#\[\]{{}},.=]++ ) | \Z )
    ''',
    re.VERBOSE | re.DOTALL,
)
"""What says nothing of the shape (comments, texts, words that are not too long), and what comes behind it."""


def check_bounds(text: str, file: str) -> None:
    """Raises BadText with the line where the text is too long, too deep, or has too many values to be built.

    A text that is no TOML may pass: what is wrong with it is the parser's to say.
    """
    if len(text) > LARGEST_TEXT:
        what = f"the text has {len(text):,} characters; this is no session or ruleset."
        raise BadText([Problem(file, None, "", what, f"a file of at most {LARGEST_TEXT:,} characters.")])
    found = _fault(text)
    if found is not None:
        place, what, right = found
        raise BadText([Problem(file, text.count("\n", 0, place) + 1, "", what, right)])


def check_numbers(tables: dict[str, Any], text: str, file: str) -> None:
    """Raises BadText for whole numbers beyond 64 bits, which nobody could show or keep."""
    path = _large_number(tables)
    if path is not None:
        from hands_on.toml_text.explain import dotted
        from hands_on.toml_text.lines import key_lines, line_of

        what = "a whole number of more than 64 bits."
        line = line_of(key_lines(text), path)
        raise BadText([Problem(file, line, dotted(path), what, "a number as it is measured or counted.")])


def _fault(text: str) -> tuple[int, str, str] | None:
    """Where the text leaves its bounds, what is wrong there and what would be right."""
    around: list[int] = []  # dots before each bracket that is open
    deep = dots = values = 0
    for token in _TOKEN.finditer(text):
        kind = token.lastgroup
        if kind is None:
            break
        if kind == "word":
            what = f"a key or number of {token.end() - token.start(kind):,} characters."
            right = f"one of at most {LONGEST_WORD:,}; longer texts stand in quotes."
            return token.start(kind), what, right
        match token[kind]:
            case ".":
                dots += 1
            case "[" | "{":
                around.append(dots)
                deep += dots + 1
                dots = 0
                values += 1
            case "]" | "}":
                if around:
                    deep -= around.pop() + 1
                dots = 0
            case "=":
                values += 1
            case ",":
                values += 1
                dots = 0
            case _:
                dots = 0
        if deep + dots > DEEPEST:
            what = "lists, tables and the parts of keys are nested too deeply to be read."
            return token.start(kind), what, f"lists and tables a few levels deep, {DEEPEST} at most."
        if values > MOST_VALUES:
            what = f"more than {MOST_VALUES:,} values; this is no session or ruleset."
            return token.start(kind), what, "a .toml file of one session or one edition."
    return None


def _large_number(tables: dict[str, Any]) -> tuple[str | int, ...] | None:
    left: list[tuple[tuple[str | int, ...], Any]] = [((), tables)]
    while left:
        path, value = left.pop()
        if isinstance(value, dict):
            left += [((*path, key), entry) for key, entry in value.items() if not isinstance(entry, str)]
        elif isinstance(value, list):
            left += [((*path, n), entry) for n, entry in enumerate(value) if not isinstance(entry, str)]
        elif isinstance(value, int) and not -LARGEST_WHOLE <= value < LARGEST_WHOLE:
            return path
    return None
