"""The dog's permanent teeth by modified Triadan number.

Source: modified Triadan system as taught by veterinary colleges; dental formula of the dog
I 3/3, C 1/1, P 4/4, M 2/3, 42 teeth.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

__all__ = ["FULL", "TEETH", "known_names", "matches", "place_name"]

QUADRANTS: Final = {1: "upper right", 2: "upper left", 3: "lower left", 4: "lower right"}
"""First digit; the dog's own sides."""

_PLACES = ("I1", "I2", "I3", "C", "P1", "P2", "P3", "P4", "M1", "M2", "M3")

TEETH: Final[dict[int, str]] = {
    quadrant * 100 + place: name
    for quadrant in QUADRANTS
    for place, name in enumerate(_PLACES, start=1)
    if not (name == "M3" and quadrant in (1, 2))
}
"""Triadan number -> name of the tooth: I1-I3, C, P1-P4, M1-M3 (M3 below only)."""

FULL: Final = len(TEETH)
"""42."""


def place_name(number: int) -> str:
    """A tooth in words: `105` is `P1 upper right`. Raises KeyError for a number the dog has not."""
    return f"{TEETH[number]} {QUADRANTS[number // 100]}"


def matches(number: int, names: Iterable[str]) -> bool:
    """Is the tooth one of `names`: a name (`P1`), a group (`I`, `P`, `M`) or a number (`105`)?"""
    tooth = TEETH[number]
    return any(name in (tooth, tooth[0], str(number)) for name in names)


def known_names() -> tuple[str, ...]:
    """Every name that `matches` understands."""
    return (*_PLACES, "I", "P", "M", *map(str, TEETH))
