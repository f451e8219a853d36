"""Of whom a figure is told: the sexes and the sizes of the breed that a plain sentence names."""

from __future__ import annotations

import re
from typing import Final

from hands_on.standard_text.limit_tables import Sex

__all__ = ["own_varieties", "sexes", "sizes_of_breed"]

_MALE: Final = r"\b(?:males?|dogs?|stallions?)\b"
_FEMALE: Final = r"\b(?:females?|bitch(?:es)?)\b"
_BOTH: Final = re.compile(
    rf"(?:{_MALE})\s*(?:and|or|/|&)\s*(?:{_FEMALE})|(?:{_FEMALE})\s*(?:and|or|/|&)\s*(?:{_MALE})|"
    rf"\b(?:both|either) sex(?:es)?\b"
)
_SIZES: Final = ("standard", "medium", "miniature", "toy", "large", "small", "giant", "dwarf", "mini")
_VARIETIES: Final = re.compile(
    r"\b(?:variet(?:y|ies)|(?:[Tt]wo|[Tt]hree) (?:sizes|types|coats))\b[^.;]{0,30}?[,:(] ?"
    r"(?:the |namely )*(?P<a>[A-Z][\w-]+)"
    r"(?:,? (?:the )?(?P<c>[A-Z][\w-]+))?"
    r",? and (?:the )?(?P<b>[A-Z][\w-]+)"
)
_VARIETY_LINE: Final = re.compile(r"(?m)^\W*(?:the )?([A-Z][\w-]+) variety\W*$")


def own_varieties(text: str) -> tuple[str, ...]:
    """The breed's own varieties in small letters; texts name them in capitals: `the Smooth and the Rough`."""
    found = [name for m in _VARIETIES.finditer(text) for name in m.group("a", "c", "b") if name]
    found += [m.group(1) for m in _VARIETY_LINE.finditer(text)]
    return tuple(dict.fromkeys(name.lower() for name in found))


def sizes_of_breed(varieties: tuple[str, ...] = ()) -> re.Pattern[str]:
    """What names a size or variety of the breed in a plain sentence: the usual ones and `varieties`."""
    names = "|".join(map(re.escape, (*varieties, *_SIZES)))
    return re.compile(rf"\b({names})(?:[- ]?(?:sized?|variety|poodles?|dogs?))?\s*(?:size\s*)?(?=[:\s,(-])")


def sexes(low: str, *, dogs_are_males: bool) -> list[tuple[int, Sex, int]]:
    """Start, sex (empty for both alike) and end of each mention, in their order.

    `dogs_are_males`: the text calls females bitches, so that dogs are males.
    """
    out: list[tuple[int, Sex, int]] = []
    both = [m.span() for m in _BOTH.finditer(low)]
    out += [(start, "", end) for start, end in both]
    for sex, words in (("male", _MALE), ("female", _FEMALE)):
        for m in re.finditer(words, low):
            if any(a <= m.start() < b for a, b in both):
                continue
            if m.group().startswith("dog") and (
                not dogs_are_males
                or (re.search(r"\b(?:an?|any|the) $", low[: m.start()]) and not re.search(_FEMALE, low))
            ):
                continue
            out.append((m.start(), sex, m.end()))  # type: ignore[arg-type]
    return sorted(out)
