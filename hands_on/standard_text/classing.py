"""The class of what a sentence speaks of: its own words, those nearest to a fault, or its heading's."""

from __future__ import annotations

import re
from collections.abc import Set
from typing import Final

from hands_on.standard_text.headings import CLASSES, class_of_words, class_words

__all__ = ["WEIGHTS", "class_beside", "clause", "own_class"]

WEIGHTS: Final = ("none", *CLASSES)
_BEYOND_ALLOWED: Final = re.compile(
    r"\b(?:outside|beyond|other than|except|exceed\w*|over|under|"
    r"above|below|more than|not among|besides)\b[^.;]*"
    r"\b(?:permitted|allowed|accepted|tolerated|permissible|admissible|admitted|acceptable)"
)
"""`colours other than those permitted`: nothing is permitted here."""
_LABELLED: Final = re.compile(
    r"(?:: |\(| - )(?:an? )?((?:very )?(?:serious|severe|grave|minor|disqualif\w+|"
    r"eliminat\w+)(?: faults?)?)\)?\.?$"
)
"""`more than 2 cm: serious`: a class of its own, whatever the heading says."""
_SAID_OUTRIGHT: Final = re.compile(
    r"^[^,;]*\b(?:is|are|as|be|constitutes?) (?:only |considered |"
    r"regarded )*(?:as )?an? ((?:very )?(?:serious|severe|grave|major|minor) fault)"
    r"[^,;]*$"
)
"""`pacing is a minor fault`, whatever list it ends."""
_AND_MORE: Final = re.compile(r"[^,;]* and (?:is|are|should|must|shall|to|will) [^,;]*")
"""Both words of class are about the same."""
_HEAVIER_SAID: Final = re.compile(
    r"(?:serious|severe|grave|major)(?:ly)?\b[^.]{0,30}(?:fault|penal)|(?:fault|penali)\w*\b[^.]{0,12}(?:serious|severe)ly"
)


def own_class(said: str, headed: str, low: str, ladder: Set[str]) -> str:
    """The class of a sentence: its own word `said`, or its heading's. `ladder`: the classes of headings."""
    labelled = _LABELLED.search(low) or _SAID_OUTRIGHT.search(low)
    if labelled:
        return _of_the_ladder(class_of_words(labelled.group(1)), ladder) or headed
    said = _of_the_ladder(said, ladder)
    if headed and said == "none" and _BEYOND_ALLOWED.search(low):
        said = ""
    if headed and said in ("serious", "severe") and not _HEAVIER_SAID.search(low):
        said = ""
    if headed and said in ("fault", "undesirable", "highly-undesirable", ""):
        return headed
    if headed and said in CLASSES and said in WEIGHTS and WEIGHTS.index(said) < WEIGHTS.index(headed):
        return headed
    return said or headed


def _of_the_ladder(said: str, ladder: Set[str]) -> str:
    """`severe` where the edition says `serious`, and the other way; no minor fault where it has none."""
    if said in ("serious", "severe") and said not in ladder:
        other = "severe" if said == "serious" else "serious"
        said = other if other in ladder else said
    return "fault" if said == "minor" and "minor" not in ladder else said


def _weight(name: str) -> int:
    return WEIGHTS.index(name) if name in WEIGHTS else 0


def clause(low: str, span: tuple[int, int]) -> tuple[int, int]:
    """The stretch between commas, semicolons and buts that a fault stands in."""
    starts = [m.end() for m in re.finditer(r"[,;]\s|\bbut\b", low[: span[0]])]
    ends = [m.start() for m in re.finditer(r"[,;]\s|\bbut\b", low[span[1] :])]
    return (starts[-1] if starts else 0), (span[1] + ends[0] if ends else len(low))


def class_beside(low: str, span: tuple[int, int], ladder: Set[str]) -> str:
    """The class that a sentence of several classes gives to what stands at `span`.

    The words of class that follow are about it, or else those before; nothing where there is one class only.
    """
    start, end = clause(low, span)
    if (start, end) != (0, len(low)):
        own = class_of_words(low[start:end])
        if own:
            return _of_the_ladder(own, ladder)
    found = class_words(low)
    if len({name for name, _ in found}) < 2:
        return ""
    behind = [(name, place) for name, place in found if place[0] >= span[1]]
    after = [name for name, _ in behind]
    if len(behind) > 1 and _AND_MORE.fullmatch(low[behind[0][1][1] : behind[1][1][0] + 1]):
        after = [max(after[:2], key=_weight)]
    before = [name for name, (_, at) in found if at <= span[0]]
    named = after[0] if after else before[-1] if before else ""
    return _of_the_ladder(named, ladder)
