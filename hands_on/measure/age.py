"""Age in months, and whether a point can be judged at it."""

from __future__ import annotations

import calendar
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

__all__ = ["SIZE_CLASSES", "Gate", "age_months", "age_text", "gate"]

SIZE_CLASSES = ("small", "medium", "large", "giant")
"""By adult weight: up to 10 kg, 10 to 25, 25 to 40, over 40 (working bounds)."""


def age_months(born: date, on: date) -> float:
    """Age in months: whole months by the calendar, and the share of the month begun.

    A month is full on the same day of the later month, or on its last day where it has no such
    day (born 31 January: one month old on 28 February). Raises ValueError if ``on`` is earlier.
    """
    if on < born:
        raise ValueError("the dog is not born yet on that day")
    months = (on.year - born.year) * 12 + on.month - born.month
    if _monthday(born, months) > on:
        months -= 1
    begun, full = _monthday(born, months), _monthday(born, months + 1)
    return months + (on - begun).days / (full - begun).days


def _monthday(born: date, months: int) -> date:
    year, month = divmod(born.month - 1 + months, 12)
    year, month = born.year + year, month + 1
    return date(year, month, min(born.day, calendar.monthrange(year, month)[1]))


def age_text(months: float) -> str:
    """An age for people: ``9 weeks``, ``14 months``, ``6 years 2 months``; never rounded up."""
    if months < 4:
        weeks = int(months * 30.4375 / 7)
        return f"{weeks} week" if weeks == 1 else f"{weeks} weeks"
    if months < 24:
        return f"{int(months)} months"
    years, rest = divmod(int(months), 12)
    if not rest:
        return f"{years} years"
    return f"{years} years {rest} month" + ("s" if rest > 1 else "")


@dataclass(frozen=True, slots=True)
class Gate:
    """Whether a point can be judged at an age.

    ``too_young`` is None when the age is not known. ``from_months`` is the age from which the point
    can be judged; ``assumed`` tells that the size class was not known and the latest age was taken.
    """

    too_young: bool | None
    from_months: float
    assumed: bool
    text: str


def gate(months: float | None, from_months: Mapping[str, float], size_class: str | None) -> Gate:
    """Compare an age in months with the age from which a point can be judged.

    ``from_months`` gives that age by size class (0: any age). Without a size class the latest of
    them counts. Raises ValueError when there is no age for the class.
    """
    if size_class is not None and size_class not in from_months:
        raise ValueError(f"no age is given for the size class {size_class!r}")
    if not from_months:
        raise ValueError("no ages are given")
    least = float(from_months[size_class] if size_class is not None else max(from_months.values()))
    assumed = size_class is None and len(set(from_months.values())) > 1
    for_whom = "" if size_class is None else f" in a {size_class} breed"
    if least <= 0:
        return Gate(False, 0.0, False, "can be judged at any age")
    if months is None:
        return Gate(None, least, assumed, f"age not known; to be judged from {least:g} months{for_whom}")
    if months < least:
        text = f"too young to judge at {age_text(months)}: from {least:g} months{for_whom}"
    else:
        text = f"old enough at {age_text(months)}: from {least:g} months{for_whom}"
    return Gate(months < least, least, assumed, text)
