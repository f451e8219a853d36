"""Angles in degrees in a sentence -> limits."""

from __future__ import annotations

import re
from typing import Any, Final

from hands_on.standard_text.measures import SIDES
from hands_on.standard_text.numbers import Figure, figures
from hands_on.standard_text.ratio_limit import outside

__all__ = ["angles"]

_ABOUT: Final = re.compile(r"about|approx|around|roughly|nearly|almost|\bca\.?\b")

_FAULTY: Final = re.compile(
    r"^[^.;]*\b(?:considered|regarded|called|is|are|be) (?:as |to be )?(?:too )?"
    r"(?:steep|straight|upright|open|faulty|incorrect|wrong|a fault)\b"
)
_ALLOWED: Final = re.compile(
    r"\b(?:allowed|permitted|tolerated|accepted|admitted)(?: (?:is|are|from|between))* ?$"
)
"""`105 degrees, allowed from 100 to 112`."""
_RIGHT: Final = re.compile(
    r"(?:an? )?(approximate |approximately |about |nearly |almost )?(?:a )?right[- ]angle\b"
)
_TO_THE_BLADE: Final = re.compile(r"\s*(?:to|with) (?:the )?(?:shoulder|blade|scapula)")
_UPPER_ARM: Final = re.compile(r"upper ?arm|humerus")
_BLADE: Final = re.compile(r"blade|scapula|shoulder")
_TO_A_LINE: Final = re.compile(r"\s*(?:to|from|with|below|above|of) the (?:ground|horizontal|vertical)")
_ANGLES: Final = (
    ("", r"coxo-?femoral|hip (?:joint|angle)|humero-?radial|elbow (?:joint|angle)"),  # no measure of ours
    ("blade-slope", r"blade|scapula|shoulder|lay-?back|laid"),
    (
        "shoulder-angle",
        (
            r"(?:blade|scapula|shoulder)[^.;]{0,80}(?:upper arm|humerus)|"
            r"(?:upper arm|humerus)[^.;]{0,80}(?:blade|scapula|shoulder)|"
            r"shoulder (?:joint|angulation)|"
            r"angle (?:at|of) (?:the )?(?:points? of (?:the )?)?shoulders?(?! ?blade)|"
            r"angulation of (?:the )?(?:shoulder|forequarters)|"
            r"scapulo-?humeral|front (?:angulation|assembly)"
        ),
    ),
    ("croup-slope", r"croup|pelvi[sc]|rump"),
    ("pastern-slope", r"(?<!rear )(?<!hind )pasterns?|metacarp"),
    (
        "stifle-angle",
        r"stifle|knee|thigh[^.;]{0,40}lower (?:leg|thigh)|femoro-?tibial|upper (?:and|to) lower thigh|femur",
    ),
    ("hock-angle", r"hock|tars|tibio-?tarsal"),
    ("neck-angle", r"neck"),
)


def angles(low: str, heading: str, cls: str = "") -> tuple[list[tuple[str, dict[str, Any]]], int]:
    """The angles in degrees that a plain sentence asks.

    In a list of faults of the class `cls`, or where it is called steep, an end is where the fault begins.
    """
    out: list[tuple[str, dict[str, Any]]] = []
    joint = _UPPER_ARM.search(low) and _BLADE.search(low)
    if joint or not re.search(r"right angles? to|at right angles", low):
        low = _RIGHT.sub(lambda m: f"{m.group(1) or ''}90 degrees", low)
    found = [one for one in figures(low) if one.unit == "deg"]
    if (
        not found
        and re.search(r"right[- ]angle|at right angles", low)
        and _angle_name(low, len(low), heading) == "shoulder-angle"
    ):
        found = [Figure(90, 90, "deg", len(low), len(low), about=bool(_ABOUT.search(low)))]
    for figure in found:
        name = _angle_name(low, figure.start, heading, figure.end, last=figure is found[-1])
        if not name:
            continue
        less, more = figure.low, figure.high
        if less is not None and less > 180:
            continue
        flipped = ""
        if name == "pastern-slope" and (less or more or 0) > 45:
            less, more = (90 - more if more is not None else None), (90 - less if less is not None else None)
            flipped = "The text counts from the ground, the tool from the vertical."
        if name == "blade-slope" and re.search(r"from the vertical|to the vertical|with the vertical", low):
            less, more = (90 - more if more is not None else None), (90 - less if less is not None else None)
            flipped = "The text counts from the vertical, the tool from the horizontal."
        table: dict[str, Any] = {"id": name, "measure": name, "unit": "deg"}
        readings = [flipped] if flipped else []
        if less is not None and less == more:
            less, more = less - 10, more + 10
            readings.append(
                "One figure is named and no width: 10 degrees either way is ours, "
                "what a careful hand can tell."
            )
        asked: dict[str, float] = {}
        turned = (cls or _FAULTY.search(low[figure.end :])) and (less is None) != (more is None)
        if turned:
            less, more = more, less
        if turned:
            asked = {"to": more} if more is not None else {"from": less or 0.0}
        elif less is not None:
            asked["above" if figure.low_open else "from"] = less
        if more is not None and not turned:
            asked["below" if figure.high_open else "to"] = more
        table["asked"] = asked
        sides = SIDES.get(name, ("", ""))
        table["bands"] = [band | ({"class": cls} if cls else {}) for band in outside(asked, sides)]
        if figure.about:
            table["about"] = True
        if figure.ideal:
            table["ideal"] = True
        if readings:
            table["reading"] = " ".join(readings)
        known = dict(out).get(name)
        if known is None:
            out.append((name, table))
        elif len(asked) == 2 and not readings and "reading" in known and _ALLOWED.search(low[: figure.start]):
            kept = {key: value for key, value in known.items() if key != "reading"}
            out[[one for one, _ in out].index(name)] = (
                name,
                kept | {"asked": asked, "bands": table["bands"]},
            )
        elif len(asked) == 1 and not readings:  # `a right angle; over 110 degrees is steep`
            end = figure.low if figure.low is not None else figure.high
            key = next(iter(asked))
            if (
                key
                and end is not None
                and known["asked"].get("from", 0) < end > known["asked"].get("to", 999) - 60
            ):
                known["asked"] = known["asked"] | {key: end}
                known["bands"] = outside(known["asked"], sides)
    return out, len(found)


def _angle_name(low: str, at: int, heading: str, end: int | None = None, *, last: bool = True) -> str | None:
    since = re.split(r"\d", low[:at])[-1]
    level = end is not None and _TO_A_LINE.match(low[end:])
    if not level and _UPPER_ARM.search(heading.split("/")[-1].lower()) and _BLADE.search(low):
        return "shoulder-angle"
    if re.search(r"upper arm|humerus", since) and re.search(r"blade|scapula|shoulder", low[:at]):
        return "shoulder-angle"
    if end is not None and re.search(r"upper arm|humerus", since) and _TO_THE_BLADE.match(low[end:]):
        return "shoulder-angle"
    if end is not None and _TO_A_LINE.match(low[end:]) and re.search(r"blade|scapula|shoulder", since):
        return "blade-slope"
    near = [(m.end(), name) for name, words in _ANGLES for m in re.finditer(words, since)]
    if near:
        names = {name for _, name in near}
        both = last and "blade-slope" in names and re.match(r"[^.;,]*?\b(?:upper arm|humerus)", low[at:])
        return "shoulder-angle" if "shoulder-angle" in names or both else max(near)[1]
    for text in (low[at : at + 70], low, heading.split("/")[-1].lower(), heading.lower()):
        hits = []
        for name, words in _ANGLES:
            found = re.search(words, text)
            if found:
                hits.append((name, found.start()))
        names = {name for name, _ in hits}
        if "shoulder-angle" in names:
            return "shoulder-angle"
        if hits:
            return min(hits, key=lambda one: one[1])[0]
    return None
