"""Faults typed by the beginnings of their words: `li ey` is Light eyes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final

__all__ = ["in_full"]

_SMALL: Final = frozenset({"a", "at", "in", "of", "on", "or", "the", "and", "to", "not", "is", "where", "it"})
_DEGREE: Final = re.compile(r"^(?:slight|moderate|marked|extreme|very|over|too)\w*\s+")


def in_full(line: str, labels: Iterable[str]) -> str:
    """`line` with each piece that begins the words of exactly one label, word by word, written as that label.

    Pieces stand between commas or semicolons; a word of degree before one stays. What fits no label, or
    several, stays as it was typed.
    """
    known = {label: _words(label) for label in labels}
    parts = re.split(r"([;,]\s*)", line)
    return "".join(_label_of(part, known) if n % 2 == 0 else part for n, part in enumerate(parts))


def _label_of(part: str, known: dict[str, list[str]]) -> str:
    degree = _DEGREE.match(part.lower())
    lead = part[: degree.end()] if degree else ""
    typed = _words(part[len(lead) :])
    if not typed or any(len(word) < 2 for word in typed):
        return part
    fits = [
        label
        for label, words in known.items()
        if len(words) == len(typed) and all(b.startswith(a) for a, b in zip(typed, words, strict=True))
    ]
    return f"{lead}{fits[0].lower()}" if len(fits) == 1 else part


def _words(text: str) -> list[str]:
    return [word for word in re.findall(r"[a-z]+", text.lower()) if word not in _SMALL]
