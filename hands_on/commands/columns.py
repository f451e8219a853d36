"""Text in columns that wrap, for output that must fit a page."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest

from hands_on.plain_text import one_line

WIDTH = 100

_GAP = 2

_BRACKETS = re.compile(r"\[[^\[\]]*\]")

_HELD = "\0"
"""Stands for a space at which no line may end; no text that is printed holds it."""


def columns(cells: Sequence[str], widths: Sequence[int], indent: int = 0) -> Iterator[str]:
    """One row: each cell wrapped within its width, two spaces between; the first is set in by `indent`.

    The lines have no trailing space. What stands in square brackets stays on one line where it fits.
    """
    wrapped = [
        _wrapped(one_line(cell), width)
        for cell, width in zip(cells, [widths[0] - indent, *widths[1:]], strict=True)
    ]
    wrapped[0] = [" " * indent + part for part in wrapped[0]]
    for parts in zip_longest(*wrapped, fillvalue=""):
        padded = (part.ljust(width) for part, width in zip(parts, widths, strict=True))
        yield (" " * _GAP).join(padded).rstrip()


def _wrapped(text: str, width: int) -> list[str]:
    def hold(found: re.Match[str]) -> str:
        return found[0].replace(" ", _HELD) if len(found[0]) <= width else found[0]

    held = _BRACKETS.sub(hold, text)
    return [line.replace(_HELD, " ") for line in textwrap.wrap(held, width, break_on_hyphens=False)] or [""]


def shared_widths(first: int, others: int, last: int = 0, *, width: int = WIDTH) -> list[int]:
    """Widths of a first column, `others` equal ones and, unless 0, a last one, that together fill a page."""
    gaps = _GAP * (others + (1 if last else 0))
    each = max(8, (width - first - last - gaps) // max(others, 1))
    return [first, *[each] * others, *([last] if last else [])]


def paragraph(text: str, indent: int = 2, *, hanging: int = 2, width: int = WIDTH) -> Iterator[str]:
    """A text wrapped to the page, further lines farther in."""
    yield from textwrap.wrap(
        one_line(text),
        width,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + hanging),
        break_on_hyphens=False,
    )


def paragraphs(texts: Iterable[str]) -> Iterator[str]:
    """Texts, each a paragraph."""
    for text in texts:
        yield from paragraph(text)


def section(title: str, lines: Iterator[str], empty: str = "") -> Iterator[str]:
    """A title with lines below; without lines the word `empty`, or nothing at all."""
    first = next(lines, None)
    if first is None and not empty:
        return
    yield ""
    yield title
    yield from paragraph(empty) if first is None else (first, *lines)
