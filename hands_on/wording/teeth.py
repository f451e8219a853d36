"""Teeth of a chart, in words."""

from __future__ import annotations

from collections.abc import Collection

from hands_on.ruleset.dentition import TEETH, place_name

__all__ = ["least_missing", "teeth_words"]

_WITH_PLACES = 6
"""Of so many teeth at most the place in the mouth is told beside the number."""


def teeth_words(numbers: Collection[int]) -> str:
    """Teeth by their numbers, of a few the places beside them."""
    if len(numbers) > _WITH_PLACES:
        return ", ".join(str(number) for number in numbers)
    return ", ".join(f"{number} ({place_name(number)})" for number in numbers if number in TEETH)


def least_missing(missing: int) -> str:
    """What is known of missing teeth while others were not seen."""
    return f"at least {missing} missing" if missing else "missing teeth cannot be ruled out"
