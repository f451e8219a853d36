"""Finding a fault in the vocabulary by whatever somebody types of it."""

from __future__ import annotations

from rapidfuzz import fuzz

from hands_on.ruleset.points import Fault
from hands_on.ruleset.ruleset import Ruleset

_LEAST = 70.0
"""Of 100: what scores less is not shown."""

_HERE = 6.0
"""What a fault of the region on screen is ahead by."""

_WHOLE_WORDS = 130.0
"""Least score of a fault in one of whose names every word typed begins a word: above mere likeness."""


def find_faults(ruleset: Ruleset, text: str, region: str = "") -> tuple[str, ...]:
    """Ids of faults whose label, id, meaning or wording is like `text`, best first.

    Those of `region` come first among equals. With nothing typed: all, in the order of the regions.
    """
    typed = " ".join(text.casefold().replace("-", " ").replace(".", " ").split())
    rows = list(ruleset.faults.items())
    if not typed:
        return tuple(name for name, fault in sorted(rows, key=lambda row: row[1].region != region))
    scored = []
    for place, (name, fault) in enumerate(rows):
        score = _score(typed, name, fault) + (_HERE if fault.region == region else 0.0)
        if score >= _LEAST + (_HERE if fault.region == region else 0.0):
            scored.append((-score, place, name))
    return tuple(name for _, _, name in sorted(scored))


def _score(typed: str, name: str, fault: Fault) -> float:
    """How well a fault fits, 0 to about 170: whole words before their beginnings, labels before wording."""
    words = typed.split()
    best = 0.0
    for place, written in enumerate((fault.label, name.replace(".", " ").replace("-", " "), *fault.wording)):
        candidate = written.casefold().replace("-", " ")
        parts = candidate.split()
        if all(any(part.startswith(word) for part in parts) for word in words):
            whole = 20.0 * sum(word in parts for word in words) / len(words)
            label = 10.0 if place == 0 else 0.0
            best = max(
                best, _WHOLE_WORDS + whole + label + 10.0 * len(typed) / max(len(typed), len(candidate))
            )
        else:
            best = max(best, fuzz.token_sort_ratio(typed, candidate), 0.9 * fuzz.WRatio(typed, candidate))
    if best < _WHOLE_WORDS and all(word in fault.meaning.casefold() for word in words):
        best = max(best, 90.0)
    return best
