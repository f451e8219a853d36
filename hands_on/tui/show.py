"""Text for widgets: always plain, never parsed, never wider than its room."""

from __future__ import annotations

import re

from rich.cells import cell_len, chop_cells
from textual.content import Content

from hands_on.plain_text import one_line, visible

DOT = " · "
"""Between things of one line."""

_CHUNKS = re.compile(r"\s+|\S+")


def plain(text: str, style: str = "") -> Content:
    """Text from people or files as content: shown as typed, nothing in it is markup or an escape."""
    return Content.styled(visible(text, keep="\n"), style) if style else Content(visible(text, keep="\n"))


def line(text: str, style: str = "") -> Content:
    """The same on one line: line breaks in it become blanks."""
    return plain(one_line(text), style)


def dotted(*parts: str) -> str:
    """The parts that are not empty, with dots between."""
    return DOT.join(part for part in parts if part)


def fitted(text: str, width: int, lines: int) -> str:
    """`text` wrapped to `width` cells and at most `lines` lines; what is left out is marked with `…`."""
    if width < 2 or lines < 1:
        return ""
    rows = wrapped(one_line(text), width)
    if len(rows) <= lines:
        return "\n".join(rows)
    last = rows[lines - 1]
    while cell_len(last) > width - 2:
        last = last[:-1]
    return "\n".join([*rows[: lines - 1], last.rstrip(" ,;:.") + " …"])


def wrapped(text: str, width: int) -> list[str]:
    """`text` in lines of at most `width` cells, broken between words where that can be done."""
    rows: list[str] = []
    for line in text.split("\n"):
        row = ""
        for word in _CHUNKS.findall(line):
            if cell_len(row + word) <= width:
                row += word
                continue
            if row.strip():
                rows.append(row.rstrip())
            *full, row = chop_cells(word.lstrip(), width) or [""]
            rows += full
        rows.append(row.rstrip())
    return rows


def hanging(content: Content, width: int, indent: int = 0) -> Content:
    """`content` wrapped to `width` cells, lines below the first set in by `indent`, or as it is."""
    text = content.plain
    rows: list[Content] = []
    at = 0
    for row in text.split("\n"):
        start, end = at, at + len(row)
        inset = indent or len(row) - len(row.lstrip()) or 2
        rows.append(content[at:at])
        while start < end:
            below = start > at
            taken = wrapped(text[start:end], max(8, width - inset if below else width))[0]
            rows[-1:] = [
                *rows[-1:] * below,
                Content(" " * inset * below) + content[start : start + len(taken)],
            ]
            start += max(1, len(taken))
            start += len(text[start:end]) - len(text[start:end].lstrip())
        at = end + 1
    return Content("\n").join(rows)
