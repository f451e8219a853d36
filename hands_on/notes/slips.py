"""Which words of the lexicon a written word may stand for: slips of keyboard and dictation, and shorthand.

An `Edge` (length, stems, cost) says: from here, `length` written words may be read as these stems. Cost 0 is
the word itself, about 1 the least believable reading that is still offered.
"""

from collections.abc import Callable, Mapping
from typing import Final

from rapidfuzz.distance import OSA
from rapidfuzz.process import extract

from hands_on.notes.kept_answers import KeptAnswers
from hands_on.notes.stems import consonants, is_subsequence, shorter_stems, sound, stem

__all__ = ["Edge", "Slips", "is_common"]

Edge = tuple[int, tuple[str, ...], float]
_Offer = Callable[[tuple[str, ...], float], None]

SUFFIX: Final = 0.02
JOINED: Final = 0.06
KEY_SLIP: Final = 0.22
ANAGRAM: Final = 0.45
HEARD_LIST: Final = 0.42
HEARD: Final = 0.5
HEARD_PAIR: Final = 0.85
UNKNOWN_HEARD: Final = 0.28
HEARD_AND_SEEN: Final = 0.2
"""Sounds the same and is one key away: `hoks`."""
SHORT: Final = 0.25
_MAX_READINGS: Final = 12
# what dictation writes as a letter: `l bows`
_LETTERS: Final = {"l": "el", "r": "ar", "m": "em", "n": "en", "x": "ex", "s": "es"}


def is_common(word: str, ordinary: frozenset[str]) -> bool:
    """Whether the word or its base form stands in the list."""
    if word in ordinary:
        return True
    root = stem(word)
    return root in ordinary or root + "e" in ordinary or root + root[-1:] in ordinary


class Slips:
    """The readings of one written word, or of two that belong together, with their costs."""

    def __init__(
        self,
        surfaces: Mapping[str, tuple[str, ...]],
        ordinary: frozenset[str],
        sounds: Mapping[str, tuple[str, ...]],
        joined: Mapping[str, tuple[str, ...]],
        passed: frozenset[str] = frozenset(),
        quiet: frozenset[str] = frozenset(),
    ) -> None:
        self._stems = {symbols[0] for symbols in surfaces.values()}
        self._ordinary = ordinary
        self._passed = passed
        self._quiet = passed | quiet
        self._passed_letters = {"".join(sorted(w)) for w in passed if 3 <= len(w) <= 4 and w != consonants(w)}
        self._joined = joined
        self._heard_one: dict[str, tuple[str, ...]] = {}
        self._heard_two: dict[str, tuple[str, ...]] = {}
        for heard, meant in sounds.items():
            symbols = tuple(stem(w) for w in meant)
            if " " in heard:
                self._heard_two[heard] = symbols
            else:
                self._heard_one[heard] = symbols
        forms: dict[str, tuple[str, ...]] = {}
        for word, symbols in surfaces.items():
            if word.isalpha() and len(word) >= 3:
                forms.setdefault(word, symbols)
                if not word.endswith("s"):
                    forms.setdefault(word + "s", symbols)
        for word, pair in joined.items():
            forms.setdefault(word, pair)
            forms.setdefault(word + "ed", pair)
            forms.setdefault(word + "s", pair)
        self._forms = forms
        self._by_length: dict[int, list[str]] = {}
        self._by_sound: dict[str, list[str]] = {}
        self._by_first: dict[str, list[tuple[str, str]]] = {}
        for word in forms:
            if len(word) >= 4:
                self._by_length.setdefault(len(word), []).append(word)
            self._by_first.setdefault(word[0], []).append((consonants(word), word))
            if word in joined or word[:-1] in joined or word[:-2] in joined:
                continue
            key = sound(word[:-1]) + "s" if word.endswith("s") and word[:-1] in forms else sound(word)
            self._by_sound.setdefault(key, []).append(word)
        self._letters: dict[str, list[str]] = {}
        for word in forms:
            if 3 <= len(word) <= 9:
                self._letters.setdefault("".join(sorted(word)), []).append(word)
        self._cache: KeptAnswers[str, tuple[Edge, ...]] = KeptAnswers()
        self._pairs: KeptAnswers[tuple[str, str], tuple[Edge, ...]] = KeptAnswers()

    def is_ordinary(self, word: str) -> bool:
        """Whether the word is common English in its own right."""
        return is_common(word, self._ordinary)

    def knows(self, word: str) -> bool:
        """Whether the word, or its stem, is one of the lexicon's."""
        return stem(word) in self._stems

    def knows_form(self, word: str) -> bool:
        """Whether the word is one of the lexicon's, as it is written or heard."""
        return word in self._forms or word in self._heard_one or stem(word) in self._stems

    def readings(self, word: str) -> tuple[Edge, ...]:
        """What one written word may stand for, best first."""
        found = self._cache.get(word)
        return self._cache.keep(word, self._find(word)) if found is None else found

    def pair(self, first: str, second: str) -> tuple[Edge, ...]:
        """What two written words may stand for as one: `fore chest`, `pass turns`."""
        key = (first, second)
        found = self._pairs.get(key)
        return self._pairs.keep(key, self._find_pair(first, second)) if found is None else found

    def _find_pair(self, first: str, second: str) -> tuple[Edge, ...]:
        heard = self._heard_two.get(first + " " + second)
        if heard:
            return ((2, heard, HEARD_LIST),)
        spelt = _LETTERS.get(first)
        if spelt and stem(spelt + second) in self._stems:
            return ((2, (stem(spelt + second),), HEARD_LIST),)
        if second in ("e", "he"):
            for whole in (first + "y", first + first[-1:] + "y", first[:-1] + "y"):
                if stem(whole) in self._stems:
                    return ((2, (stem(whole),), UNKNOWN_HEARD),)
        whole = first + second
        if first == "a" and self.knows(second):
            return ()  # `a typical head`
        if len(whole) < 6 or not whole.isalpha():
            return ()
        root = stem(whole)
        if root in self._stems:
            return ((2, (root,), JOINED),)
        small = first in self._passed or second in self._passed
        if len(whole) >= 7 and not small:
            same = [w for w in self._by_sound.get(sound(whole), ()) if len(w) >= 6]
            return tuple((2, self._forms[w], HEARD_PAIR) for w in same[:2])
        return ()

    def _find(self, word: str) -> tuple[Edge, ...]:
        out: dict[tuple[str, ...], float] = {}

        def offer(symbols: tuple[str, ...], cost: float) -> None:
            if cost < out.get(symbols, 9.0):
                out[symbols] = cost

        root = stem(word)
        known = root in self._stems
        if known:
            offer((root,), 0.0)
        heard = self._heard_one.get(word)
        if heard:
            offer(heard, HEARD_LIST)
        if not known and root in self._joined:
            offer(self._joined[root], JOINED)
        if not known and word.endswith("in") and stem(word + "g") in self._stems:
            offer((stem(word + "g"),), SUFFIX)  # `comin`, `turnin`
        if not known and word.endswith("g") and len(word) > 4 and stem(word[:-1] + "ing") in self._stems:
            offer((stem(word[:-1] + "ing"),), JOINED)  # `crossg`, `missg`
        if not known:
            for shorter in (root + "e", *shorter_stems(word)):
                if shorter in self._stems:
                    offer((shorter,), SUFFIX)
        ordinary = self.is_ordinary(word)
        if ordinary or known:
            self._other_hearings(word, offer)
        elif not out or min(out.values()) > SUFFIX:
            self._slips(word, offer)
            if out and self._near_ordinary(word):
                out = {s: cost + 0.12 if cost > HEARD_AND_SEEN else cost for s, cost in out.items()}
        ranked = sorted(out.items(), key=lambda item: item[1])[:_MAX_READINGS]
        return tuple((1, symbols, cost) for symbols, cost in ranked)

    def _other_hearings(self, word: str, offer: _Offer) -> None:
        """A real word that sounds like, or has the letters of, a word of the trade."""
        if not word.isalpha() or len(word) < 4 or word in self._quiet:
            return
        for other in self._by_sound.get(sound(word), ()):
            if other != word:
                offer(self._forms[other], HEARD)
        if 4 <= len(word) <= 9:
            for other in self._letters.get("".join(sorted(word)), ()):
                if other != word and OSA.distance(word, other) == 1:
                    offer(self._forms[other], ANAGRAM)

    def _slips(self, word: str, offer: _Offer) -> None:
        size = len(word)
        if not word.isalpha() or size < 2 or size > 24:
            return
        if "".join(sorted(word)) in self._passed_letters:
            return
        for other in self._letters.get("".join(sorted(word)), ()):
            if other[0] == word[0] or size == 3:
                offer(self._forms[other], KEY_SLIP + (0.06 if size > 3 else 0.0))
        if size >= 4:
            allowed = 1 if size <= 6 else 2
            for length in range(size - allowed, size + allowed + 1):
                choices = self._by_length.get(length)
                if not choices:
                    continue
                for other, distance, _ in extract(
                    word, choices, scorer=OSA.distance, score_cutoff=allowed, limit=6
                ):
                    first_same = other[0] == word[0]
                    swapped = sorted(other) == sorted(word)
                    if size <= 4 and not first_same and not swapped:
                        continue
                    cost = KEY_SLIP + 0.14 * (distance - 1) + (0.0 if first_same or swapped else 0.08)
                    if size <= 5 and not swapped:
                        cost += 0.06
                    offer(self._forms[other], cost)
        key = sound(word)
        if size >= 3:
            for other in self._by_sound.get(key, ()):
                near = OSA.distance(word, other) <= 1
                offer(self._forms[other], HEARD_AND_SEEN if near else UNKNOWN_HEARD)
        if size <= 7:
            self._shorthand(word, offer)

    def _near_ordinary(self, word: str) -> bool:
        """Whether one slip leads to a common word that is none of the lexicon's."""
        if not 4 <= len(word) <= 12:
            return False
        heads = [(word[:i], word[i:]) for i in range(len(word) + 1)]
        near = {a + b[1:] for a, b in heads if b}
        near.update(a + b[1] + b[0] + b[2:] for a, b in heads if len(b) > 1)
        near.update(a + c + b[1:] for a, b in heads if b for c in "abcdefghijklmnopqrstuvwxyz")
        return any(w in self._ordinary and stem(w) not in self._stems for w in near)

    def _shorthand(self, word: str, offer: _Offer) -> None:
        """Vowels left out, or the end: `shldr`, `elb`."""
        bones = consonants(word)
        size = len(word)
        vowels = sum(c in "aeiou" for c in word)
        for their_bones, other in self._by_first.get(word[0], ()):
            if len(other) <= size or len(other) > 4 * size:
                continue
            if other.startswith(word) and size >= 3 and len(self._forms[other]) == 1:
                offer(self._forms[other], SHORT + 0.03 * min(len(other) - size, 5) / 2)
                continue
            if vowels > 1 or not is_subsequence(word, other):
                continue
            lost = len(their_bones) - len(bones)
            if lost > 0 and len(self._forms[other]) > 1:
                continue
            if lost <= 0:
                offer(self._forms[other], SHORT)
            elif lost <= 2 and size >= 3 and their_bones.startswith(bones):
                offer(self._forms[other], SHORT + 0.05 * lost)
            elif lost == 1 and size >= 2 and word[-1] in (other[-1], other.rstrip("s")[-1:]):
                offer(self._forms[other], SHORT + 0.08)
            elif lost <= 2 and size >= 3 and word[-1] in (other[-1], other.rstrip("s")[-1:]):
                offer(self._forms[other], SHORT + 0.06 * lost)
