"""The limit of a ratio, its ends as the words round the share say, and what lies outside them."""

from __future__ import annotations

import re
from typing import Any, Final

from hands_on.standard_text.limit_tables import LESS, MORE
from hands_on.standard_text.measures import RATIO_SIDES

__all__ = ["ABOUT", "outside", "ratio_limit"]

ABOUT: Final = re.compile(r"about|approx|around|roughly|nearly|almost|practically|more or less|\bca\.?\b")
_FROM_EQUAL: Final = re.compile(
    r"\bequal\w*\b[^.;]*\bor\b|\bmay be (?:longer|greater|deeper|wider)\b[^.;]*\bby\b"
)
"""`equals it or is at most a tenth greater`: equal is the lower end."""
_IDEAL: Final = re.compile(r"\bideal|desir|prefer")
_GREATER: Final = r"(?:more|over|greater|longer|higher|deeper|wider|above)"
_SMALLER: Final = r"(?:less|under|shorter|smaller|lower|shallower|narrower|fewer|below)"
_NOT_BE: Final = r"(?:not|no|never|nor|neither)(?: \w+)?(?: be)?"
_THAN: Final = r"(?:in \w+ )?than (?:an? |the |about )?"
_SPREAD: Final = {"body-length": 0.04, "chest-depth": 0.04, "elbow-height": 0.04, "ground-clearance": 0.04}
"""Half the width put round a single figure, about two standard uncertainties of a careful pair of takes."""


def ratio_limit(
    pair: tuple[str, str], less: float, more: float, low: str, span: tuple[int, int] | None = None
) -> list[tuple[str, dict[str, Any]]]:
    """The limit of a ratio, turned the way it is usually written."""
    if pair not in RATIO_SIDES and (pair[1], pair[0]) in RATIO_SIDES:
        if not less or not more:
            return []
        pair, less, more = (pair[1], pair[0]), 1 / more, 1 / less
    table: dict[str, Any] = {"id": f"{pair[0]}-to-{pair[1]}", "ratio": list(pair)}
    readings: list[str] = []
    said = low if span is None else low[max(0, span[0] - 28) : span[1] + 14]
    at_least = re.search(
        rf"at (?:the )?(?:very )?least|{_NOT_BE} {_SMALLER}\b|minimum|or (?:more|longer|deeper)\b", said
    )
    at_most = re.search(
        rf"at (?:the )?(?:very )?most|{_NOT_BE} {_GREATER}\b|not exceed|up to (?!the)|"
        rf"may reach|as much as|or (?:less|"
        rf"shorter)\b|maximum",
        said,
    ) or re.search(r"\b(?:not|never)(?: to)? (?:\w+ )?exceed", low)
    near = "" if span is None else low[max(0, span[0] - 30) : span[0]]
    over = not at_least and not at_most and re.search(rf"\b{_GREATER} {_THAN}$", near)
    under = not at_most and not at_least and re.search(rf"\b{_SMALLER} {_THAN}$|\b(?:below|under) $", near)
    ends: dict[str, float]
    if at_least or over:
        ends = {("above" if over else "from"): round(less, 3)}
    elif at_most or under:
        ends = {("below" if under else "to"): round(more, 3)}
        if more > 1 and at_most and _FROM_EQUAL.search(low):
            ends = {"from": 1.0, **ends}
    else:
        if less == more:
            spread = _SPREAD.get(pair[0], 0.1) * max(0.5, less)
            less, more = less - spread, more + spread
            readings.append(f"One figure is named and no width: {spread:.2f} either way is ours.")
        ends = {"from": round(less, 3), "to": round(more, 3)}
    table["asked"] = ends
    bands = outside(ends, RATIO_SIDES.get(pair, ("", "")))
    if _IDEAL.search(low):
        table["ideal"] = True
    elif bands:
        table["bands"] = bands
    if ABOUT.search(low):
        table["about"] = True
    if readings:
        table["reading"] = " ".join(readings)
    return [(str(table["id"]), table)]


def outside(ends: dict[str, float], sides: tuple[str, str]) -> list[dict[str, Any]]:
    """The bands on either side of what is asked, each with its departure."""
    out: list[dict[str, Any]] = []
    for key, opposite, fault in (("from", "below", sides[0]), ("above", "to", sides[0])):
        if key in ends:
            out.append({opposite: ends[key]} | ({"fault": fault} if fault else {"label": LESS}))
    for key, opposite, fault in (("to", "above", sides[1]), ("below", "from", sides[1])):
        if key in ends:
            out.append({opposite: ends[key]} | ({"fault": fault} if fault else {"label": MORE}))
    return out
