"""Letters without their accents and cases: for searching names, and for names of files."""

from __future__ import annotations

import unicodedata

_NOT_DECOMPOSED = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i", "ħ": "h", "ŧ": "t"}
)
"""Letters that Unicode does not take apart (UAX #15, NFKD) though people type them without the stroke."""


def folded(text: str) -> str:
    """The text as it is compared in a search: `Łucja Ångström` and `lucja angstrom` are one.

    Unicode's case folding and compatibility decomposition (UAX #15), combining marks dropped.
    """
    if text.isascii():
        return text.lower()
    # Folded once more: some letters come out of the decomposition as capitals.
    apart = unicodedata.normalize("NFKD", text.casefold()).casefold()
    return "".join(char for char in apart if not unicodedata.combining(char)).translate(_NOT_DECOMPOSED)


def slug(text: str, longest: int = 40) -> str:
    """The text as a part of a file's name: small ASCII letters and digits, all else dropped.

    May be empty.
    """
    return "".join(char for char in folded(text) if char.isascii() and char.isalnum())[:longest]
