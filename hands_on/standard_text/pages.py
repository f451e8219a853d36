"""What a file or a PDF gives -> running lines: no page numbers, no running heads, no joined columns."""

from __future__ import annotations

import re
from collections import Counter
from typing import Final

from hands_on.standard_text.size_tables import mended, without_tables

__all__ = ["running_lines"]

_SIGNS: Final = str.maketrans(
    {
        "\u00ad": "",
        "\u200b": "",
        "\ufeff": "",
        "\u00a0": " ",
        "\u2007": " ",
        "\u2009": " ",
        "\u202f": " ",
        "\u2018": "'",
        "\u2019": "'",
        "\u201c": '"',
        "\u201d": '"',
        "\u2033": '"',
        "\u2032": "'",
        "\u2010": "-",
        "\u2011": "-",
        "\u2012": "-",
        "\u2013": "-",
        "\u2212": "-",
        "\u2014": "--",
        "\ufb00": "ff",
        "\ufb01": "fi",
        "\ufb02": "fl",
        "\ufb03": "ffi",
        "\ufb04": "ffl",
        "\u00bd": " 1/2",
        "\u00bc": " 1/4",
        "\u00be": " 3/4",
        "\u2153": " 1/3",
        "\u2154": " 2/3",
        "\u215b": " 1/8",
        "\u215c": " 3/8",
        "\u215d": " 5/8",
        "\u215e": " 7/8",
        "\u2044": "/",
        "\u00ba": "\u00b0",
        "\u2642": "males",
        "\u2640": "females",
        "\u2026": "...",
        "\t": "    ",
    }
)

_PAGE_NUMBER: Final = re.compile(
    r"^\s*(?:-+\s*)?(?:page|p\.|seite)?\s*\d{1,3}(?:\s*(?:/|of|von)\s*\d{1,3})?(?:\s*-+)?\s*$", re.IGNORECASE
)
_LEAST_COLUMN: Final = 18
"""So many signs have at least two lines of a column of text; less is a table."""
_KEEPS_HYPHEN: Final = frozenset(
    [
        "well",
        "short",
        "close",
        "cow",
        "self",
        "half",
        "medium",
        "almond",
        "deep",
        "long",
        "straight",
        "light",
        "dark",
        "water",
        "weather",
        "clean",
        "level",
        "wide",
        "cat",
        "barrel",
        "hare",
        "hard",
        "soft",
        "double",
        "flat",
        "ill",
        "non",
        "semi",
        "ground",
        "far",
        "good",
        "so",
        "not",
        "left",
        "right",
        "one",
        "two",
        "three",
        "four",
    ]
)
"""First halves that keep their hyphen when a line ends at it."""


def running_lines(text: str) -> list[str]:
    """The lines of `text`, broken words whole again. An empty line stands between paragraphs."""
    text = text.replace("\r\n", "\n").replace("\r", "\n").translate(_SIGNS)
    text = re.sub(r"(\d) ?\.{2,3} ?(\d)", r"\1-\2", text)
    pages = [without_tables(_columns(without_tables(page.split("\n")))) for page in text.split("\f")]
    return without_tables(mended(_whole_words(_without_heads(pages))))


def _columns(lines: list[str]) -> list[str]:
    """Two columns that stand beside each other, one after the other."""
    filled = [line for line in lines if line.strip()]
    if len(filled) < 4:
        return lines
    best, at = 0, 0
    for x in range(_LEAST_COLUMN, max(map(len, filled))):
        both = sum(1 for line in filled if _parted(line, x))
        crossing = sum(1 for line in filled if len(line) > x and not line[x - 1].isspace())
        if both - 2 * crossing > best:
            best, at = both - 2 * crossing, x
    if best < max(4, len(filled) * 0.4):
        return lines
    left = [line[:at].rstrip() for line in lines]
    right = [line[at:].strip() for line in lines]
    full = [sum(1 for row in side if len(row) >= _LEAST_COLUMN) for side in (left, right)]
    return [*left, *right] if min(full) >= 2 else lines


def _parted(line: str, x: int) -> bool:
    return len(line) > x and line[x - 2 : x] == "  " and not line[x].isspace() and bool(line[: x - 2].strip())


def _mark(line: str) -> str:
    return re.sub(r"\d+", "#", " ".join(line.split()).lower())


def _without_heads(pages: list[list[str]]) -> list[str]:
    """Without page numbers, and without what stands beside them or at a page's ends again and again."""
    edges: Counter[str] = Counter()
    counted: Counter[str] = Counter(_mark(line) for page in pages for line in page if line.strip())
    for page in pages:
        filled = [line for line in page if line.strip()]
        ends = [*filled[:3], *filled[-3:]] if len(pages) > 1 else []
        numbers = [n for n, line in enumerate(filled) if _is_number(line, filled, n)]
        beside = {m for n in numbers for m in range(max(0, n - 2), min(len(filled), n + 3))}
        edges.update({_mark(line) for line in ends} | {_mark(filled[m]) for m in beside})
    heads = {
        mark
        for mark in edges
        if len(mark) < 90 and (counted[mark] >= 3 or (counted[mark] == 2 and len(mark.split()) > 1))
    }
    out: list[str] = []
    for page in pages:
        filled = [line for line in page if line.strip()]
        at = -1
        for line in page:
            if line.strip():
                at += 1
                if _is_number(line, filled, at) or _mark(line) in heads:
                    continue
            out.append(line.strip())
        while out and not out[-1] and len(pages) > 1:
            out.pop()  # a paragraph may run on over the page
    return out


def _is_number(line: str, filled: list[str], at: int) -> bool:
    """A page's number; a bare figure within a text is one only where no unit follows on the next line."""
    if not _PAGE_NUMBER.match(line):
        return False
    after = filled[at + 1] if at + 1 < len(filled) else ""
    return not re.match(r"^\s*(?:cm|kg|in\b|inch|lb|mm|%|\u00b0|deg)", after, re.IGNORECASE)


def _whole_words(lines: list[str]) -> list[str]:
    out: list[str] = []
    for line in lines:
        before = out[-1] if out else ""
        broken = re.search(r"([A-Za-z]+)-$", before)
        if broken and re.match(r"[a-z]", line):
            head, rest = _first_word(line)
            keep = broken.group(1).lower() in _KEEPS_HYPHEN
            out[-1] = (before if keep else before[:-1]) + head
            if rest:
                out.append(rest)
        else:
            out.append(line)
    return out


def _first_word(line: str) -> tuple[str, str]:
    word, _, rest = line.partition(" ")
    return word, rest.strip()
