"""Of which measurement a figure is, by the words round it and the heading it stands under."""

from __future__ import annotations

import re
from typing import Final

from hands_on.standard_text.margins import TOLERANCE
from hands_on.standard_text.measures import SIDES, Mention, mentions
from hands_on.standard_text.numbers import Figure, figures
from hands_on.standard_text.own_measures import coat_place, docked_tail

__all__ = ["which_measure"]

_MASS: Final = ("kg", "g", "lb")
_LENGTHS: Final = ("cm", "mm", "in", "ft")
_WIDE: Final = ("head-length", "height", "weight", "body-length", "skull-length")
"""Parts of a heading under which other parts are measured."""


def which_measure(
    low: str, heading: str, figure: Figure, named: list[Mention], *, before_it: str, of_a_group: bool
) -> str | None:
    """The measurement of a figure in a plain sentence, or None.

    `named`: the measurements that the sentence names; `before_it`: the one of the figure before;
    `of_a_group`: the sentence names a sex or a size of the breed.
    """
    name = _any_measure(low, heading, figure, named, before_it, of_a_group=of_a_group)
    elsewhere = name == "coat-length-flank" and coat_place(low, figure, figures(low))
    docked = name == "tail-length" and docked_tail(low, heading.split("/")[-1])
    return None if elsewhere or docked else name


def _any_measure(
    low: str, heading: str, figure: Figure, named: list[Mention], before_it: str, *, of_a_group: bool
) -> str | None:
    if figure.unit is None:
        return "teeth-count" if figure.single and 28 <= figure.single <= 42 else None
    if figure.unit in _MASS:
        return "weight"
    if figure.unit not in _LENGTHS:
        return None
    lengths = [one for one in named if one.measure not in ("weight", "teeth-count")]
    parts = [one for one in lengths if one.measure in SIDES and one.measure not in _WIDE]
    if parts:  # `the hair measures 7 cm`: of the hair, and no height
        lengths = [one for one in lengths if not low[one.start : one.end].startswith(("measur", "stand"))]
    before = [
        one
        for one in lengths
        if one.end <= figure.start or (one.start < figure.start and figure.end <= one.end)
    ]
    after = [
        one
        for one in lengths
        if figure.end <= one.start <= figure.end + 45
        and not re.search(r"[,;]| on (?:the )?$", low[figure.end : one.start])
    ]
    tall = re.match(r"\s*(?:tall|high|in height|at (?:the )?(?:withers|shoulders?))", low[figure.end :])
    if tall:
        return "height"
    long = re.match(r"\s*(?:long|in length|deep|wide|in (?:circumference|girth|diameter))", low[figure.end :])
    label = [
        one
        for one in mentions(heading.split("/")[-1])
        if one.measure in SIDES and one.measure not in ("teeth-count", "weight")
    ]
    if re.search(r",|/| and |&", heading.split("/")[-1]) and before:
        label = []  # `Neck, topline, body` says not which
    wide = bool(label) and label[-1].measure in _WIDE
    own = [one for one in before if one.measure in SIDES and one.measure not in _WIDE] if wide else []
    firm = [one for one in before if one.outright] or own or label or before
    if (
        firm
        and label
        and not before
        and not long
        and firm[-1].measure in ("head-length", "neck-length", "height", "weight")
    ):
        firm = []
    if firm and (firm[-1].outright or long or re.search(r"\blong|length|exceed|than|about|reach", low)):
        name = firm[-1].measure
        if name in SIDES:
            return name
    if after and after[0].measure in SIDES and after[0].measure != "body-length":
        return after[0].measure
    if (
        re.search(r"\bheight|size[sd]?\b|withers|\btall\b|measurements", heading + " " + low)
        or before_it == "height"
    ):
        return "height"
    if firm and firm[-1].measure in SIDES and firm[-1].measure not in ("head-length",):
        return firm[-1].measure
    if TOLERANCE.search(low) and figure.unit in ("cm", "in") and not lengths and not label:
        return "height"
    sexed = of_a_group and not re.search(r"\blength\b", low)
    return "height" if sexed and figure.unit in ("cm", "in") else before_it or None
