"""Finding a fault in the vocabulary by whatever somebody types of it."""

from __future__ import annotations

from rapidfuzz import fuzz, process

from hands_on.ruleset.base import Sex
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["FaultFinder"]

_LEAST = 70.0
"""Of 100: what is less alike is not shown."""

_HERE = 6.0
"""What a fault of the region on screen is ahead by."""

_WORDS = 130.0
"""Least score of a name in which every word typed begins a word: above mere likeness."""

_MEANING = 90.0
"""Score of a fault in whose meaning every word typed stands."""


class FaultFinder:
    """The faults of one edition, prepared once so that each key typed is answered at once."""

    def __init__(self, ruleset: Ruleset, sex: Sex | None = None) -> None:
        """Faults that only the other `sex` can have are left out; None keeps all."""
        self._faults = {
            name: fault
            for name, fault in ruleset.faults.items()
            if sex is None or fault.only_sex in (None, sex)
        }
        self._names: list[str] = []
        """All labels, ids and wordings, folded."""
        self._owners: list[str] = []
        """The fault that each name belongs to."""
        self._labels: list[bool] = []
        """Is the name a label?"""
        for name, fault in self._faults.items():
            for place, words in enumerate((fault.label, name, *fault.wording)):
                self._names.append(_folded(words))
                self._owners.append(name)
                self._labels.append(place == 0)

    def find(self, text: str, region: str = "") -> tuple[str, ...]:
        """Ids of faults whose label, id, meaning or wording is like `text`, best first.

        Those of `region` come first among equals. With nothing typed: all, in the order of the regions.
        """
        typed = _folded(text)
        if not typed:
            rows = sorted(self._faults.items(), key=lambda row: row[1].region != region)
            return tuple(name for name, _ in rows)
        best: dict[str, float] = {}
        for name, score in (*self._begun(typed), *self._alike(typed), *self._meant(typed)):
            best[name] = max(best.get(name, 0.0), score)
        places = {name: place for place, name in enumerate(self._faults)}
        ahead = {name: _HERE if self._faults[name].region == region else 0.0 for name in best}
        return tuple(sorted(best, key=lambda name: (-best[name] - ahead[name], places[name])))

    def _begun(self, typed: str) -> list[tuple[str, float]]:
        """Names in which every word typed begins a word: whole words before beginnings, labels first."""
        words = typed.split()
        found = []
        for name, owner, label in zip(self._names, self._owners, self._labels, strict=True):
            parts = name.split()
            if all(any(part.startswith(word) for part in parts) for word in words):
                whole = 20.0 * sum(word in parts for word in words) / len(words)
                length = 10.0 * len(typed) / max(len(typed), len(name))
                found.append((owner, _WORDS + whole + length + (10.0 if label else 0.0)))
        return found

    def _alike(self, typed: str) -> list[tuple[str, float]]:
        """Names that look alike, words in any order: slips of the finger."""
        rows = process.extract(
            typed, self._names, scorer=fuzz.token_sort_ratio, score_cutoff=_LEAST, limit=None
        )
        return [(self._owners[place], score) for _, score, place in rows]

    def _meant(self, typed: str) -> list[tuple[str, float]]:
        words = typed.split()
        return [
            (name, _MEANING)
            for name, fault in self._faults.items()
            if all(word in fault.meaning.casefold() for word in words)
        ]


def _folded(text: str) -> str:
    return " ".join(text.casefold().replace("-", " ").replace(".", " ").split())
