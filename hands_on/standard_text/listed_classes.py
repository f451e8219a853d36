"""Headings of classes by where they stand: in the part on faults, over a list of departures."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from hands_on.standard_text.headings import class_of_heading, is_known_heading

__all__ = ["ListedClass", "bare_label", "listed_classes"]


@dataclass(frozen=True, slots=True)
class ListedClass:
    """A heading over a list of departures.

    `line` is the whole line, `label` its words in small letters without number, and `said` what the text
    tells of it: behind its dash, between it and the list, and in the opening of the part on faults.
    """

    line: str
    label: str
    said: str = ""


_PART: Final = re.compile(
    r"^(?:[\w'-]+ ){0,3}(?:faults?|errors?|failings?|defects?|departures|deviations|deductions|demerits|"
    r"shortcomings|blemishes|weaknesses|imperfections|what (?:counts|tells|speaks) against)\b.{0,40}$",
    re.IGNORECASE,
)
_NUMBER: Final = re.compile(
    r"^\W*(?:(?:class|group|category|section|grade)\s+(?:[A-Z]|[IVX]{1,5}|\d{1,2})\s*[.:)\u2013-]+\s*(?=\w)|"
    r"\(?(?:[A-Za-z]|[IVX]{1,5}|\d{1,2})(?:\.\d{1,2})*(?:[.)]\s+|\))(?=\w)|(?:[A-Z]|\d{1,2})(?:\.\d{1,2})+\s+)",
    re.IGNORECASE,
)
_SIGN: Final = re.compile(
    r"^\s*(?:[\u2022\u25cf\u25aa\u25e6\u2023\u00b7\uf0b7*\u2013\u2014]|-{1,2})\s*(?=\w)"
)
_FIRST: Final = re.compile(r"^\s*\(?(?:(?:a|A|1|i|I)[.)]|(?:[A-Z]|\d{1,2})(?:\.\d{1,2})*\.1\b[.)]?)\s")
_ITEM: Final = re.compile(r"^\s*\(?(?:[a-z]|\d{1,2}|[ivx]{1,5})\)\s")
_SPLIT: Final = re.compile(r"\s*(?::\s+|\s-{1,2}\s|\s*[\u2013\u2014]\s+|\((?=\w))")
_VERB: Final = re.compile(
    r"\b(?:is|are|was|were|be|has|have|had|should|must|shall|will|may|can|cannot|does|do|means?)\b"
)
_POINTS: Final = re.compile(r"(?:\s|\.{2})\d{1,3}(?:\s*points?\.?)?$")


def bare_label(label: str) -> str:
    """A heading's words in small letters, without number, quotes and stops."""
    label = _NUMBER.sub("", label.strip(), count=1)
    return re.sub(r"[\"'\u201c\u201d\u2018\u2019]", "", label).strip(" .:-\u2013\u2014").lower()


def listed_classes(lines: Sequence[str]) -> list[ListedClass]:
    """The headings within the part on faults under which departures are listed, in the text's order."""
    out: list[ListedClass] = []
    opening: list[str] = []
    inside = False
    for n, line in enumerate(lines):
        text = line.strip()
        if not text or _ITEM.match(text) or _SIGN.match(text):
            continue
        bare = _NUMBER.sub("", text, count=1)
        if _PART.match(bare) and _alone(lines, n) and _over_list(lines, n) is None:
            inside, opening = True, []
            continue
        if _PART.match(bare) and _alone(lines, n):
            inside = True
        if not inside:
            continue
        found = _heading(lines, n, bare)
        if found is None:
            if not out:
                opening.append(text)
            if is_known_heading(bare) and not class_of_heading(bare) and bare.isupper():
                inside = False
            continue
        label, said = found
        out.append(ListedClass(text, label, said))
    told = " ".join(opening)
    return [
        ListedClass(one.line, one.label, f"{one.said} {_told_of(one.label, told)}".strip()) for one in out
    ]


def _alone(lines: Sequence[str], n: int) -> bool:
    text = lines[n].strip()
    above = lines[n - 1].strip() if n else ""
    return text[:1].isalnum() and (not above or text.isupper()) and not text.endswith((".", ";", ","))


def _heading(lines: Sequence[str], n: int, bare: str) -> tuple[str, str] | None:
    """The label of the heading that line `n` is and what is said beside it, or nothing."""
    parts = _SPLIT.split(bare, maxsplit=1)
    label, beside = parts[0].strip(), (parts[1].strip(" )") if len(parts) > 1 else "")
    words = label.split()
    if not 1 <= len(words) <= 6 or not label[:1].isupper() or label.endswith((".", ";", ",")):
        return None
    if is_known_heading(label) and not class_of_heading(label):
        return None
    between = _over_list(lines, n)
    if between is None:
        return None
    return bare_label(label), f"{beside} {between}".strip()


def _over_list(lines: Sequence[str], n: int) -> str | None:
    """What stands between line `n` and the list under it; nothing where no list stands there."""
    between: list[str] = []
    for at in range(n + 1, min(n + 9, len(lines))):
        row = lines[at].strip()
        if not row:
            continue
        if _style(row) and _style(row) == _style(lines[n]):
            return None
        if _SIGN.match(row) or _FIRST.match(row):
            item = not _POINTS.search(row) and _over_list(lines, at) is None
            return " ".join(between) if item and (not between or between[-1].endswith((".", ":"))) else None
        if not between and not _VERB.search(row.lower()):
            return "" if _alone(lines, n) and _terse(lines, at) else None
        between.append(row)
        if len(between) > 3:
            return None
    return None


def _style(row: str) -> str:
    """The form of an item's mark: `-`, `a)`, `1.`, `A.1`; empty without one."""
    sign, number = _SIGN.match(row), _NUMBER.match(row)
    mark = row[: sign.end()] if sign else row[: number.end()] if number else ""
    return re.sub(r"\d+", "1", re.sub(r"[a-z]+", "a", re.sub(r"[A-Z]+", "A", mark))).strip()


def _terse(lines: Sequence[str], n: int) -> bool:
    """Whether a departure, or several, stand in line `n` without any sign of a list."""
    row = lines[n].strip()
    heading = is_known_heading(_NUMBER.sub("", row)) or _PART.match(row) or _over_list(lines, n) is not None
    return len(row.split()) > 1 and not heading and not _POINTS.search(row)


def _told_of(label: str, opening: str) -> str:
    """What the opening of the part on faults says of one of its classes."""
    for sentence in re.split(r"(?<=[.;])\s", opening.lower()):
        said = re.search(rf"\b{re.escape(label)}\b", sentence)
        if said is not None:
            return sentence[said.end() :]
    return ""
