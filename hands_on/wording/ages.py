"""A dog's age, and why something cannot be judged at it yet, in words."""

from __future__ import annotations

from hands_on.measure.age import TooYoung

__all__ = ["age_text", "age_words", "too_young_words"]


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


def age_words(months: float | None) -> str:
    """An age that may not be known."""
    return "age not known" if months is None else age_text(months)


def too_young_words(young: TooYoung) -> str:
    """At which age it is looked at, and from which it can be judged."""
    for_whom = "" if young.size_class is None else f" in a {young.size_class} breed"
    return f"too young to judge at {age_text(young.months)}: from {young.from_months:g} months{for_whom}"
