"""A figure answered question by question -> the table of its limit, and back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from hands_on.standard_text.limit_tables import Facts, Key, Sex, limit_bands, width_of
from hands_on.standard_text.measures import RATIO_SIDES, SIDES
from hands_on.standard_text.own_points import OWN_KINDS

__all__ = ["ANGLES", "RATIOS", "FigureAnswers", "answers_of", "figure_limit", "figure_number", "figure_unit"]

Firmness = Literal["limit", "about", "ideal"]

ANGLES: Final = tuple(name for name in SIDES if name.endswith(("-angle", "-slope")))
"""Angles that standards give."""
RATIOS: Final = tuple(RATIO_SIDES)
"""Pairs of measurements that standards set against each other, the way they are usually written."""
_OURS: Final = "One figure is named and no width: {width:g} either way is ours."


@dataclass(frozen=True, slots=True)
class FigureAnswers:
    """What was answered of one figure. None: no such end, nothing tolerated, no heavier class.

    `tolerated` and `heavier_from` are how far beyond an end; `heavier` is the class that begins there.
    """

    low: float | None = None
    high: float | None = None
    tolerated: float | None = None
    heavier_from: float | None = None
    heavier: str = ""
    firm: Firmness = "limit"


def figure_unit(name: str, lengths_in: str, own: str = "") -> str:
    """The unit in which a figure is asked; none for a ratio or a count. `own`: an own point's."""
    if own:
        return own
    if "-to-" in name or name == "teeth-count":
        return ""
    if name in ANGLES:
        return "deg"
    return {"cm": "kg", "in": "lb"}[lengths_in] if name == "weight" else lengths_in


def figure_number(text: str) -> float | None:
    """`56`, `56,5`, `10 : 9`, `1/2`, `50 %` as a number; None where it is none."""
    plain = text.strip().replace(",", ".").rstrip(" %")
    pair = re.fullmatch(r"(\d+(?:\.\d+)?)\s*[:/]\s*(\d+(?:\.\d+)?)", plain)
    if pair:
        second = float(pair.group(2))
        return round(float(pair.group(1)) / second, 4) if second else None
    if not re.fullmatch(r"\d{1,4}(?:\.\d{1,4})?", plain):
        return None
    return float(plain) / 100 if text.strip().endswith("%") else float(plain)


def figure_limit(
    name: str, sex: Sex, answers: FigureAnswers, lengths_in: str, own: str = ""
) -> dict[str, Any]:
    """The limit's table, without its source. `name` is a measurement or a ratio as `a-to-b`."""
    pair = tuple(name.split("-to-"))
    ratio = len(pair) == 2
    unit = figure_unit(name, lengths_in, own)
    low, high, reading = answers.low, answers.high, ""
    if low is not None and low == high and name != "teeth-count":
        width = answers.tolerated or (OWN_KINDS[own][4] if own in OWN_KINDS else width_of(name, low))
        low, high = round(low - width, 4), round(low + width, 4)
        reading = "" if answers.tolerated else _OURS.format(width=width)
    facts = Facts(unit or "teeth", low, high)
    tolerated = None if answers.low is not None and answers.low == answers.high else answers.tolerated
    for beyond, kind in ((tolerated, "tolerated"), (answers.heavier_from, answers.heavier)):
        if beyond is None or not kind:
            continue
        if high is not None:
            facts.over.append((round(high + beyond, 4), False, kind))
        if low is not None:
            facts.under.append((round(low - beyond, 4), False, kind))
    key = Key(name, sex)
    table: dict[str, Any] = {"id": key.id}
    table |= {"ratio": list(pair)} if ratio else {"measure": name, "unit": unit or "teeth"}
    if sex:
        table["when"] = {"sex": sex}
    table["asked"] = {end: value for end, value in (("from", low), ("to", high)) if value is not None}
    sides = RATIO_SIDES.get((pair[0], pair[-1]), ("", "")) if ratio else SIDES.get(name, ("", ""))
    bands = [] if answers.firm == "ideal" else limit_bands(facts, sides)
    if bands:
        table["bands"] = bands
    if answers.firm != "limit":
        table[answers.firm] = True
    if reading:
        table["reading"] = reading
    return table


def answers_of(table: Mapping[str, Any]) -> FigureAnswers:
    """What a limit's table says, as answers; what no question asks for is left out."""
    asked = table.get("asked", {})
    low, high = asked.get("from", asked.get("above")), asked.get("to", asked.get("below"))
    tolerated = heavier_from = None
    heavier = ""
    for band in table.get("bands", ()):
        start, end = band.get("above", band.get("from")), band.get("to", band.get("below"))
        if band.get("tolerated") and high is not None and start is not None and end is not None:
            tolerated = round(end - high, 4) if start >= high else tolerated
        if band.get("class") and high is not None and start is not None and end is None and start > high:
            heavier_from, heavier = round(start - high, 4), band["class"]
    firm: Firmness = "ideal" if table.get("ideal") else "about" if table.get("about") else "limit"
    return FigureAnswers(low, high, tolerated, heavier_from, heavier, firm)
