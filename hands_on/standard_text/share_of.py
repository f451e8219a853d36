"""Of what a share is told: `no more than a quarter of the back`, `48 % of the height`."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["share_of"]

_OF: Final = re.compile(
    r"\s*(?:of|as (?:long|deep|wide|broad|high) as) (?:the |its |their )?(?:whole |total |full |overall )?"
    r"(?:length of (?:the )?)?(?P<whole>[a-z]+(?: [a-z]+)?)"
)
_WHOLES: Final = (
    ("height", r"(?:withers |shoulder )?height\b"),
    ("body-length", r"(?:body|trunk|torso)\b"),
    ("back-length", r"(?:back|topline)\b"),
    ("head-length", r"head\b"),
    ("skull-length", r"skull\b"),
    ("muzzle-length", r"(?:muzzle|foreface)\b"),
)
_SUBJECTS: Final = (
    ("loin-length", r"loins?"),
    ("neck-length", r"neck"),
    ("chest-depth", r"chest|brisket"),
    ("hock-height", r"hocks?|hock joint"),
    ("croup-length", r"croup"),
    ("tail-length", r"tail"),
    ("muzzle-length", r"muzzle|foreface"),
    ("head-length", r"head"),
    ("elbow-height", r"fore ?legs?"),
)


def share_of(low: str, span: tuple[int, int], label: str) -> tuple[str, str] | None:
    """First and second of the ratio of the share at `span` of a plain sentence under `label`, or nothing.

    The first is the part named last before it, or else the one that the label names alone.
    """
    told = _OF.match(low[span[1] :])
    if told is None:
        return None
    second = next((name for name, words in _WHOLES if re.match(words, told.group("whole"))), "")
    before = [
        (found.start(), name)
        for name, words in _SUBJECTS
        for found in re.finditer(rf"\b(?:{words})\b", low[: span[0]])
    ]
    headed = label.split("/")[-1].strip().lower()
    under = [name for name, words in _SUBJECTS if re.fullmatch(words, headed)]
    first = max(before)[1] if before else under[0] if under else ""
    return (first, second) if first and second and first != second else None
