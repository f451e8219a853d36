"""Limits of two editions in words: figures in both units, and what each stretch means. Pure, unwrapped."""

from __future__ import annotations

import math

from hands_on.compare.editions.limits import unit_of_limit
from hands_on.compare.editions.rule_pair import FaultClasses, Lies, Stretch, Unruled
from hands_on.measure.units import convert
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.rules import Band, Limit, Range
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import asked_once, class_words, condition_words, range_words

__all__ = ["asked_words", "fault_classes_words", "lies_words", "limit_words", "shown_unit", "stretch_words"]

_SHARE = "share"

_CONVERTED = 2
"""Decimals of a converted figure."""

_OWN = 4
"""Decimals of a figure in its own unit."""

_UNRULED: dict[Unruled, str] = {
    "general-clause": "general clause",
    "silent": "the standard is silent on it",
    "unknown-fault": "a fault that this edition does not know",
    "in-no-list": "in no list, no general clause",
}


def fault_classes_words(ruleset: Ruleset, found: FaultClasses) -> str:
    """`long-haired: no fault; otherwise slight no fault, from moderate Fault`."""
    parts = []
    for case in found.cases:
        text = _steps(ruleset, case.classes)
        if case.unruled is not None:
            text += f" ({_UNRULED[case.unruled]})"
        if case.when is not None:
            text = f"{condition_words(ruleset, case.when)}: {text}"
        elif len(found.cases) > 1:
            text = f"otherwise {text}"
        parts.append(text)
    return "; ".join(parts)


def _steps(ruleset: Ruleset, classes: tuple[str | None, ...]) -> str:
    """Classes by degree in words; a degree of the same class as the lighter one is not repeated."""
    steps: list[tuple[Degree, str]] = []
    for degree, name in zip(DEGREES, classes, strict=True):
        if name is not None and (not steps or steps[-1][1] != name):
            steps.append((degree, name))
    if len(steps) == 1 and classes[0] is not None:
        return class_words(ruleset, steps[0][1])
    parts = [
        f"{degree if n == 0 and degree == DEGREES[0] else f'from {degree}'} {class_words(ruleset, name)}"
        for n, (degree, name) in enumerate(steps)
    ]
    return ", ".join(parts)


def lies_words(ruleset: Ruleset, lies: Lies) -> str:
    """What it means under an edition that a value lies in a stretch."""
    if lies.kind == "not-limited":
        return "not limited"
    if lies.kind == "as-asked":
        return "as asked"
    if lies.kind == "tolerated":
        return "out of the range, tolerated"
    if lies.kind == "sorted":
        return lies.label
    named = ruleset.label_within(lies.fault) if lies.fault else lies.label
    ruled = lies.ruled
    cls = fault_classes_words(ruleset, ruled) if ruled is not None else class_words(ruleset, lies.cls)
    return f"{named}, {cls}" if named else cls


def asked_words(ruleset: Ruleset, limit: Limit, unit: str = "") -> str:
    """What a limit asks for: `25 to 27 in (63.5 to 68.58 cm)`, converted where `unit` is another one."""
    if limit.classifies is not None or limit.asked is None:
        return f"sorts by {limit.classifies}"
    about = "about " if limit.about else ""
    ideal = ", an ideal" if limit.ideal else ""
    return about + _both_units(limit.asked, unit_of_limit(ruleset, limit), unit) + ideal


def _asked_and_said(ruleset: Ruleset, limit: Limit, unit: str) -> str:
    """The same with the edition's own words, the figure once."""
    if limit.classifies is not None or limit.asked is None:
        return asked_words(ruleset, limit) + (f" ({limit.words.rstrip('.')})" if limit.words else "")
    own = unit_of_limit(ruleset, limit)
    figure, both = (_both_units(limit.asked, own, other) for other in (own, unit))
    return asked_once(limit, figure, ", an ideal", both)


def limit_words(ruleset: Ruleset, limit: Limit, bands: tuple[Lies, ...], other: str) -> str:
    """The whole limit in one statement, in its own unit and in the `other`; `bands` is what each means."""
    unit = unit_of_limit(ruleset, limit)
    parts = [_asked_and_said(ruleset, limit, other)]
    parts += [
        f"{_both_units(band, unit, other)}: {lies_words(ruleset, lies)}"
        for band, lies in zip(limit.bands, bands, strict=True)
    ]
    if limit.from_age is not None:
        parts.append(f"from {limit.from_age:g} months")
    if limit.optional:
        parts.append("practice beside the standard, never counted")
    return "; ".join(parts)


def stretch_words(stretch: Stretch) -> str:
    """A stretch of values, in both units where they differ."""
    low = -math.inf if stretch.low is None else stretch.low
    high = math.inf if stretch.high is None else stretch.high
    part = _range(low, high, stretch.low_open, stretch.high_open)
    return _both_units(part, stretch.unit, stretch.other_unit)


def _both_units(part: Range | Band, unit: str, other: str) -> str:
    """A stretch in its unit, and in the other one behind it where that is another."""
    text = range_words(_rounded(part, unit, unit), _spaced(unit))
    if not other or other == unit or _SHARE in (unit, other):
        return text
    return f"{text} ({range_words(_rounded(part, unit, other), _spaced(other))})"


def _rounded(part: Range, unit: str, wanted: str) -> Range:
    decimals = _OWN if unit == wanted else _CONVERTED
    low, high = (
        round(convert(end, unit, wanted), decimals) if math.isfinite(end) else end
        for end in (part.low, part.high)
    )
    return _range(low, high, part.low_open, part.high_open)


def _range(low: float, high: float, low_open: bool, high_open: bool) -> Range:
    """The stretch as the format has it; not checked, since a single number may stand open."""
    return Range.model_construct(
        from_=None if low_open or low == -math.inf else low,
        above=low if low_open and low != -math.inf else None,
        to=None if high_open or high == math.inf else high,
        below=high if high_open and high != math.inf else None,
    )


def shown_unit(unit: str) -> str:
    """A unit as it stands behind a figure; nothing for a share."""
    return "" if unit == _SHARE else unit


def _spaced(unit: str) -> str:
    return f" {unit}" if shown_unit(unit) else ""
