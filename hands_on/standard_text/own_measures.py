"""Figures on what common has no point for: the coat of one place, the stop in degrees, shares of white."""

from __future__ import annotations

import re
from typing import Any, Final, NamedTuple

from hands_on.standard_text.numbers import Figure, figures
from hands_on.standard_text.own_points import own_point, own_slug
from hands_on.standard_text.ratio_limit import outside

__all__ = ["OwnMeasure", "coat_place", "docked_tail", "own_measures"]


class OwnMeasure(NamedTuple):
    """A point of the edition's own and the limit on it, both without a source."""

    point: dict[str, Any]
    limit: dict[str, Any]


_COAT: Final = re.compile(r"\b(?:coat|hair|feather(?:ing|s)|fringes?|jacket|mane|ruff|breeches|trousers)\b")
_PLACE: Final = re.compile(
    r"\b(?:on|of|at|over|under|across|along|round|in) (?:the )?"
    r"((?:necks?|legs?|fore ?legs?|hind ?legs?|face|head|skull|muzzle|ears?|tail|belly|chest|thighs?|"
    r"rump|throat|ruff|mane|breeches|trousers|brush|"
    r"fronts? of (?:the )?(?:fore)?legs|trunk|body|back|flanks?|ribs|sides?|shoulders?|saddle|loins?)"
    r"(?:(?:,| and| or) (?:under |on )?(?:the )?(?:neck|legs|face|head|ears|tail|belly|chest|thighs|muzzle|"
    r"fronts? of (?:the )?(?:fore)?legs))*)"
)
_OF_THE_BODY: Final = re.compile(r"^(?:trunk|body|back|flanks?|ribs|sides?|shoulders?|saddle|loins?)\b")
_SHARE_OF_WHITE: Final = re.compile(
    r"\bwhite\b[^.;]{0,80}?\b(?P<more>(?:not |no )?(?:more|over|greater|larger|exceed\w*|as much as|"
    r"up to|at most)) "
    r"(?:than )?(?:more than )?(?:an? )?(?P<n>\d+)(?:/(?P<of>\d+)| ?%| per ?cent) of (?:the )?"
    r"(?:body|coat|dog|surface|whole)"
)
_COLLAR: Final = re.compile(r"\b(?:white (?:\w+ )?)?(collar|blaze|stripe)\b")
_DOCKED: Final = re.compile(r"(?<!un)\bdocked\b(?! by)")
"""A tail that was docked: it has a length of its own beside the natural one."""
_SEX: Final = re.compile(r"\b(?:(dogs?|males?)|bitch(?:es)?|females?)\b")
_REAR_PASTERN: Final = re.compile(r"rear pasterns?|hind pasterns?|metatars")


def coat_place(low: str, figure: Figure, found: list[Figure]) -> str:
    """The place of the coat that a figure is told of, where it is not the body: `neck`, `face and legs`."""
    after_end = min((one.start for one in found if one.start >= figure.end), default=len(low))
    before_start = max((one.end for one in found if one.end <= figure.start), default=0)
    after = re.split(r"[,;]", low[figure.end : after_end])[0]
    before = low[before_start : figure.start].lstrip(" ,;")
    named = _PLACE.search(after) or next(iter(reversed(list(_PLACE.finditer(before)))), None)
    if named is None or _OF_THE_BODY.match(named.group(1)):
        return ""
    return re.sub(r"\bthe ", "", named.group(1))


def docked_tail(low: str, label: str) -> bool:
    """Whether a sentence under the heading `label` speaks of a docked tail and of no natural one."""
    said = f"{label.lower()} {low}"
    return bool(_DOCKED.search(said)) and not re.search(r"undocked|natural", said)


def _of_sex(own: OwnMeasure, low: str, figure: Figure) -> OwnMeasure:
    """The same of the sex that the sentence names before the figure, or begins with."""
    named = [one for one in _SEX.finditer(low) if one.end() <= figure.start]
    if not named:
        return own
    sex = "male" if named[-1].group(1) else "female"
    return OwnMeasure(own.point, {**own.limit, "id": f"{own.limit['id']}-{sex}", "when": {"sex": sex}})


def own_measures(low: str, label: str, cls: str) -> list[OwnMeasure]:
    """What a plain sentence under the heading `label` gives figures for; `cls` is the class that it lists."""
    out: list[OwnMeasure] = []
    found = figures(low)
    hairy = _COAT.search(low) or _COAT.search(label.lower())
    for figure in found:
        unit = figure.unit or ""
        place = coat_place(low, figure, found) if hairy and unit in ("cm", "in") else ""
        if unit in ("cm", "in") and docked_tail(low, label):
            name = "croup-tail.docked-tail-length"
            faults = ("croup-tail.tail-short", "croup-tail.tail-long")
            out.append(
                _of_sex(_measure(name, "Length of the docked tail", unit, figure, faults, cls), low, figure)
            )
            continue
        collar = _COLLAR.search(low[: figure.start])
        if place and not re.search(r"\bwhite\b", low):
            name = f"coat-skin.coat-length-{own_slug(place)}"
            faults = ("coat-skin.short", "coat-skin.long")
            out.append(_measure(name, f"Length of coat: {place}", unit, figure, faults, cls))
        elif collar and unit in ("cm", "in"):
            name = f"colour.white-{collar.group(1)}-width"
            label_ = f"Width of the white {collar.group(1)}"
            out.append(_measure(name, label_, unit, figure, ("", "colour.white"), cls))
        elif (
            unit == "deg"
            and re.search(r"\bstop\b", low + " " + label.lower())
            and not re.search(r"shoulder|blade|arm|stifle|hock|croup|pastern|neck", low)
        ):
            out.append(_measure("head.stop-angle", "Angle of the stop", unit, figure, ("", ""), cls))
        elif unit == "deg" and (
            _REAR_PASTERN.search(low[: figure.start]) or _REAR_PASTERN.search(label.lower())
        ):
            name = "hindquarters.rear-pastern-angle"
            out.append(_measure(name, "Rear pastern to the ground", unit, figure, ("", ""), cls))
    share = _SHARE_OF_WHITE.search(low)
    if share:
        part = float(share.group("n")) / float(share.group("of") or 100)
        figure = Figure(None, round(part, 3), None, *share.span())
        name, faults = "colour.white-share", ("", "colour.white")
        out.append(_measure(name, "White, as a share of the body", "share", figure, faults, cls))
    return out


def _measure(
    name: str, label: str, unit: str, figure: Figure, faults: tuple[str, str], cls: str
) -> OwnMeasure:
    """In a list of faults the figure is where the fault begins, and in a description what is asked."""
    low, high, reading = figure.low, figure.high, ""
    if low is not None and low == high:
        width = 10.0 if unit == "deg" else round(max(0.5, 0.1 * low), 1)
        low, high = low - width, low + width
        reading = f"One figure is named and no width: {width:g} either way is ours."
    if cls and (low is None) != (high is None) and unit != "share":
        low, high = high, low  # `hair on the neck longer than 5 cm` is faulty: up to 5 is asked
    asked = {key: value for key, value in (("from", low), ("to", high)) if value is not None}
    bands = outside(asked, faults)
    if cls:
        bands = [band | {"class": cls} for band in bands]
    limit: dict[str, Any] = {"id": name.split(".")[-1], "measure": name, "unit": unit, "asked": asked}
    limit |= (
        {"bands": bands} if any("fault" in band or "class" in band for band in bands) else {"ideal": True}
    )
    limit |= {"about": True} if figure.about else {}
    limit |= {"reading": reading} if reading else {}
    return OwnMeasure(own_point(name, name.split(".")[0], label, unit=unit), limit)
