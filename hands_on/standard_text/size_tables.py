"""Tables of sizes, sexes or varieties across or down, as sentences that the reader of sizes knows."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["mended", "without_tables"]

_GROUP: Final = (
    r"(?:dogs?|males?|bitch(?:es)?|females?|standard|medium|miniature|toy|large|small|giant|dwarf|mini|"
    r"(?:adult )?(?:male|female)s?)"
)
_SAID_UNIT: Final = r"(?:cms?|mm|kgs?|lbs?|ins?|inch(?:es)?|pounds?|\")"
_UNIT: Final = re.compile(rf"(?<![a-z])({_SAID_UNIT})(?![a-z])", re.IGNORECASE)
_ACROSS: Final = re.compile(rf"^\W*({_GROUP}(?:[\s|,/]+{_GROUP})+)\W*$", re.IGNORECASE)
_MEASURE: Final = (
    rf"(?:(?:ideal |shoulder )?(?:height|weight|size|length)(?: at (?:the )?(?:withers|shoulders?))?"
    rf"(?:,? ?(?:\(|in )?{_SAID_UNIT}\)?)?)"
)
_DOWN: Final = re.compile(
    rf"^\W*(?:(?:sex|variety|size)[\s|]+)?({_MEASURE}(?:[\s|]+{_MEASURE})+)\W*$", re.IGNORECASE
)
_SIZED: Final = rf"{_GROUP}(?:[ -](?:variet(?:y|ies)|size|type))?"
_UPPER: Final = re.compile(rf"^\W*({_SIZED}(?:[\s|,/]{{2,}}{_SIZED})+)\W*$", re.IGNORECASE)
"""Sizes of the breed that stand over a line of sexes."""
_ONE_GROUP: Final = re.compile(rf"^\W*{_GROUP}\W*$", re.IGNORECASE)
_GOES_ON: Final = re.compile(r"^\D+$|\d\s*-+\s*$")
"""A label without its figures, or a range without its end."""
_NUMBER: Final = r"\d+(?:[.,]\d+)?(?: ?\d/\d)?"
_CELL: Final = re.compile(
    rf"(?:(?:min|max|about|approx|up to|over|under|ca|at least|at most|not (?:above|over|below|under)|"
    rf"minimum|maximum)\.? ?)?{_NUMBER}(?:\s*(?:-+|to|/)\s*{_NUMBER})?"
    rf"(?:\s*{_SAID_UNIT}(?![a-z]))?",
    re.IGNORECASE,
)


def without_tables(lines: list[str]) -> list[str]:
    """The lines with a sentence for each cell of a table of sizes, a table's own lines left out."""
    out: list[str] = []
    at = 0
    while at < len(lines):
        told, after = _table(lines, at)
        if told:
            out += ["", *told, ""]
            at = after
        else:
            out.append(lines[at])
            at += 1
    return out


def mended(lines: list[str]) -> list[str]:
    """The lines with tables of sizes whole again that a page or a narrow column broke into pieces.

    Groups on lines of their own become one head; a label and a range that go on in the next line are joined.
    """
    out: list[str] = []
    at = 0
    while at < len(lines):
        group = [line.strip() for line in lines[at : at + 4]]
        count = next((n for n, line in enumerate(group) if not _ONE_GROUP.match(line)), len(group))
        rows = [line for line in lines[at + count : at + count + 3] if len(_CELL.findall(line)) >= count]
        if count < 2 or not rows:
            out.append(lines[at])
            at += 1
            continue
        out.append("    ".join(group[:count]))
        at += count
        while at < len(lines) and lines[at].strip():
            line = lines[at]
            if at + 1 < len(lines) and lines[at + 1].strip() and _GOES_ON.search(line):
                line = f"{line} {lines[at + 1].strip()}"
                at += 1
            out.append(line)
            at += 1
    return out


def _table(lines: list[str], at: int) -> tuple[list[str], int]:
    """The sentences of a table whose head stands at `at`, and the line after it."""
    upper = list(re.finditer(_GROUP, lines[at], re.IGNORECASE)) if _UPPER.match(lines[at]) else []
    below = next((n for n in range(at + 1, min(at + 3, len(lines))) if lines[n].strip()), at)
    two = bool(upper) and below > at and bool(_ACROSS.match(lines[below]))
    head = below if two else at
    across, down = _ACROSS.match(lines[head].strip()), _DOWN.match(lines[head].strip())
    if not (across or down):
        return [], at
    columns = list(re.finditer(_GROUP if across else _MEASURE, lines[head], re.IGNORECASE))
    names = [_over(one, upper, columns) if two else one.group() for one in columns]
    out: list[str] = []
    n = head + 1
    while n < len(lines):
        if not lines[n].strip():
            n += 1
            continue
        row = _row(lines[n], named=not across)
        if row is None:
            break
        label, cells = row
        label = label or _measure_above(lines, at)
        under = names if len(cells) == len(names) else [one.group() for one in upper] if two else []
        if len(cells) != len(under):
            break
        for word, cell in zip(under, cells, strict=True):
            measure, group = (label, word) if across else (word, label)
            out.append(_sentence(measure, group, cell))
        n += 1
    return out, n


def _over(column: re.Match[str], upper: list[re.Match[str]], columns: list[re.Match[str]]) -> str:
    """A column's name with that of the group it stands under: as many columns to each, or the nearest."""
    share, rest = divmod(len(columns), len(upper))
    if share and not rest:
        group = upper[columns.index(column) // share]
    else:
        group = min(upper, key=lambda one: abs(one.start() + one.end() - column.start() - column.end()))
    return f"{group.group()} {column.group()}"


def _measure_above(lines: list[str], at: int) -> str:
    """What the line above a table says is measured, or nothing."""
    above = next((line for line in reversed(lines[:at]) if line.strip()), "").strip(" :.")
    return above if re.fullmatch(_MEASURE, above, re.IGNORECASE) else ""


def _row(line: str, *, named: bool) -> tuple[str, list[str]] | None:
    """A row's label, which only an unnamed row may lack, and its cells."""
    if not re.search(r"\d", line):
        return None
    cells = list(_CELL.finditer(line))
    label = line[: cells[0].start()].strip(" |:\t-")
    rest = _CELL.sub(" ", line[cells[0].start() :])
    if (named and not label) or (not label and len(cells) < 2):
        return None
    if len(label.split()) > 6 or re.search(r"[a-z]{3,}", rest, re.IGNORECASE):
        return None
    return label, [found.group().strip() for found in cells]


def _sentence(measure: str, group: str, cell: str) -> str:
    unit = _UNIT.search(measure)
    said = cell if not unit or _UNIT.search(cell) else f"{cell} {unit.group(1)}"
    name = _UNIT.sub(" ", measure).strip(" ,()|:")
    name = name.lower() if name.isupper() else name
    name = re.sub(r"[\s(]+in$|\(\s*\)", "", name.strip()).strip(" ,()")
    group = group.strip(" :|")
    return f"{group[:1].upper()}{group[1:]}: {name[:1].lower()}{name[1:]} {said}.".replace(":  ", ": ")
