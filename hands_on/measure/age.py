"""Age in months, and whether a point can be judged at it."""

from __future__ import annotations

import calendar
from collections.abc import Mapping
from datetime import date

from hands_on.frozen import dataclass

__all__ = ["SIZE_CLASSES", "TooYoung", "age_months", "too_young"]

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


@dataclass(frozen=True)
class TooYoung:
    """A dog of ``months`` where something can be judged from ``from_months`` on, in a breed of its size."""

    months: float
    from_months: float
    size_class: str | None


def too_young(
    months: float | None, from_months: Mapping[str, float], size_class: str | None
) -> TooYoung | None:
    """Whether a dog of an age in months is too young for something to be judged; None where it is not.

    ``from_months`` gives the age from which it can be by size class (0: any age); without a size class the
    latest of them counts. Of a dog whose age is not known nothing is said. Raises ValueError when there is
    no age for the class.
    """
    if size_class is not None and size_class not in from_months:
        raise ValueError(f"no age is given for the size class {size_class!r}")
    if not from_months:
        raise ValueError("no ages are given")
    least = float(from_months[size_class] if size_class is not None else max(from_months.values()))
    if months is None or months >= least:
        return None
    return TooYoung(months, least, size_class)
