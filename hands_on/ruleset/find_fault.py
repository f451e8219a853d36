"""Finding a fault in the vocabulary by whatever somebody types of it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence

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

_TURNS = {
    *("not", "no", "nor", "never", "hardly", "without", "lack", "lacks", "lacking", "insufficient", "enough"),
    *("wants", "need", "needs", "could", "should", "desired", "more", "less", "instead", "than"),
}
"""Words that turn the one beside them round: not long enough is short."""


class FaultFinder:
    """The faults of one edition, prepared once so that each key typed is answered at once."""

    def __init__(self, ruleset: Ruleset, sex: Sex | None = None) -> None:
        """Faults that only the other `sex` can have are left out; None keeps all."""
        self._faults = {
            name: fault
            for name, fault in ruleset.faults.items()
            if sex is None or fault.only_sex in (None, sex)
        }
        self._against = _against(ruleset.opposites)
        self._names: list[_Words] = []
        """The words of all labels, ids and wordings."""
        self._owners: list[str] = []
        """The fault that each name belongs to."""
        self._labels: list[bool] = []
        """Is the name a label?"""
        for name, fault in self._faults.items():
            for place, text in enumerate((fault.label, name, *fault.wording)):
                self._names.append(_folded(text))
                self._owners.append(name)
                self._labels.append(place == 0)
        self._with_word: dict[str, set[int]] = {}
        """Each word with the places of the names that hold it."""
        for place, words in enumerate(self._names):
            for word in words:
                self._with_word.setdefault(word, set()).add(place)
        self._vocabulary = sorted(self._with_word)
        self._sorted = [_in_order(words) for words in self._names]
        self._lengths = [len(" ".join(words)) for words in self._names]
        self._meanings = {name: fault.meaning.casefold() for name, fault in self._faults.items()}
        self._places = {name: place for place, name in enumerate(self._faults)}

    def find(self, text: str, region: str = "") -> tuple[str, ...]:
        """Ids of faults whose label, id, meaning or wording is like `text`, best first.

        Those of `region` come first among equals. What is called by the opposite of a word typed is left
        out, and the opposite of the best stands behind all others. With nothing typed: all, in the order of
        the regions.
        """
        typed = _folded(text)
        if not typed:
            rows = sorted(self._faults.items(), key=lambda row: row[1].region != region)
            return tuple(name for name, _ in rows)
        alike = tuple(self._alike(typed))
        meant = tuple(row for row in alike if self._answers_all(typed, row[2]))
        hits = (*self._begun(typed), *((name, score) for name, score, _ in meant), *self._meant(typed))
        best: dict[str, float] = {}
        for name, score in hits or tuple((name, score) for name, score, _ in alike):
            best[name] = max(best.get(name, 0.0), score)
        called = {name: _folded(self._faults[name].label) for name in best}
        best = {name: score for name, score in best.items() if not self._says_opposite(typed, called[name])}
        ahead = {name: _HERE if self._faults[name].region == region else 0.0 for name in best}
        found = sorted(best, key=lambda name: (-best[name] - ahead[name], self._places[name]))
        return tuple(sorted(found, key=lambda name: self._opposed(found[0], name)))

    def _opposed(self, first: str, second: str) -> bool:
        pairs = ((first, second), (second, first))
        return any(other in self._faults[one].opposite for one, other in pairs)

    def _contrary(self, typed: _Words, name: _Words) -> bool:
        """Does the name say the opposite of a word typed, or turn such a word round?"""
        words, parts = set(typed), set(name)
        turned = bool(_TURNS & parts) and bool(_TURNS.isdisjoint(words) and self._against.keys() & words)
        return turned or self._says_opposite(typed, name)

    def _says_opposite(self, typed: _Words, name: _Words) -> bool:
        words, parts = set(typed), set(name)
        if _TURNS & words:
            return False
        return any(self._against.get(word, frozenset()) & parts for word in words - parts)

    def _begun(self, typed: _Words) -> Iterator[tuple[str, float]]:
        """Names in which every word typed begins a word: whole words before beginnings, labels first."""
        size = len(" ".join(typed))
        for place in set.intersection(*map(self._holding, typed)):
            words, label = self._names[place], self._labels[place]
            if not label and self._contrary(typed, words):
                continue
            whole = 20.0 * sum(word in words for word in typed) / len(typed)
            length = 10.0 * size / max(size, self._lengths[place])
            yield self._owners[place], _WORDS + whole + length + (10.0 if label else 0.0)

    def _holding(self, begun: str) -> set[int]:
        """Places of the names in which a word begins so."""
        found: set[int] = set()
        for word in self._vocabulary[bisect_left(self._vocabulary, begun) :]:
            if not word.startswith(begun):
                break
            found |= self._with_word[word]
        return found

    def _answers_all(self, typed: _Words, place: int) -> bool:
        """Does the name hold each word typed that is no slip, or one like it?

        `one short` is like `short loin` by its letters alone: a loin was typed, and it has none.
        """
        left = list(self._names[place])
        for part in sorted(typed, key=lambda part: part not in left):
            found = next((word for word in left if word == part), None) or next(
                (word for word in left if word.startswith(part) or fuzz.ratio(word, part) >= _LEAST), None
            )
            if found is not None:
                left.remove(found)
            elif part in self._with_word:
                return False
        return True

    def _alike(self, typed: _Words) -> Iterator[tuple[str, float, int]]:
        """Names that look alike, words in any order, with their places: slips of the finger."""
        rows = process.extract(
            _in_order(typed), self._sorted, scorer=fuzz.ratio, score_cutoff=_LEAST, limit=None
        )
        for _, score, place in rows:
            if not self._contrary(typed, self._names[place]):
                yield self._owners[place], score, place

    def _meant(self, typed: _Words) -> Iterator[tuple[str, float]]:
        for name, meaning in self._meanings.items():
            if all(word in meaning for word in typed):
                yield name, _MEANING


_Words = tuple[str, ...]
"""Words folded."""


def _against(pairs: Iterable[Sequence[str]]) -> dict[str, frozenset[str]]:
    """For each word those that say its opposite, folded."""
    found: dict[str, frozenset[str]] = {}
    for one, other in ((" ".join(_folded(word)) for word in pair) for pair in pairs):
        found[one] = found.get(one, frozenset()) | {other}
        found[other] = found.get(other, frozenset()) | {one}
    return found


def _folded(text: str) -> _Words:
    return tuple(text.casefold().replace("-", " ").replace(".", " ").split())


def _in_order(words: _Words) -> str:
    return " ".join(sorted(words))
