"""Small words put right where a finger slipped: `vrey`, `lfet`, `slighlty`, `bteween`.

Degrees, sides, denials and the words between them are found by rules that look at the word itself, so they
are mended before anything is looked up. A slip is two letters changed over, a letter doubled, left out, or
its neighbour on the keyboard; what may as well be a word of the trade, or an ordinary one, stays as written.
"""

from collections.abc import Iterator
from typing import Final

from hands_on.notes.kept_answers import KeptAnswers
from hands_on.notes.slips import Slips

__all__ = ["Spelling"]

_BESIDE: Final = {
    "a": "qsz", "b": "vng", "c": "xvd", "d": "sfec", "e": "wrd", "f": "dgrv", "g": "fhtb", "h": "gjyn",
    "i": "uok", "j": "hkum", "k": "jlim", "l": "kop", "m": "nj", "n": "bmh", "o": "ipl", "p": "ol",
    "q": "wa", "r": "etf", "s": "adwx", "t": "ryg", "u": "yij", "v": "cbf", "w": "qes", "x": "zcs",
    "y": "tuh", "z": "ax",
}  # fmt: skip
"""The keys beside each key."""
_ALPHABET: Final = "abcdefghijklmnopqrstuvwxyz"
_SHORTEST: Final = 4
"""Letters of a word from which more than a change of two letters is forgiven."""
_LONG: Final = 5
"""From so many letters on an ordinary word near by makes no doubt."""
_VERY_LONG: Final = 7
"""From so many letters on any letter may stand for another."""
_VOWELS: Final = frozenset("aeiouy")


class Spelling:
    """Which of the small words a written word is meant to be; `slips` tells the words of the trade."""

    def __init__(self, small: frozenset[str], slips: Slips) -> None:
        self._small = small
        self._slips = slips
        self._cache: KeptAnswers[str, str] = KeptAnswers()

    def meant(self, word: str) -> str:
        """The small word that is meant, or the word itself."""
        found = self._cache.get(word)
        return self._cache.keep(word, self._find(word)) if found is None else found

    def _find(self, word: str) -> str:
        size = len(word)
        if size < 3 or not word.isascii() or not word.isalpha() or word in self._small:
            return word
        if size < _SHORTEST and _VOWELS.isdisjoint(word):
            return word  # `stl`: written short
        if self._slips.knows_form(word) or self._slips.is_ordinary(word):
            return word
        for slips in (_plain_slips(word), _other_slips(word) if size >= _SHORTEST else ()):
            near = set(slips) - {word}
            small = near & self._small
            others = near - small
            if len(small) > 1 or any(map(self._slips.knows_form, others)):
                return word
            if small and (size >= _LONG or not any(map(self._slips.is_ordinary, others))):
                return small.pop()
        return word


def _plain_slips(word: str) -> Iterator[str]:
    """What was meant where two letters changed places or one was doubled."""
    for i in range(0 if len(word) > _SHORTEST else 1, len(word) - 1):
        yield word[:i] + word[i + 1] + word[i] + word[i + 2 :]
    if len(word) > _SHORTEST:
        for i in range(1, len(word)):
            if word[i] == word[i - 1]:
                yield word[:i] + word[i + 1 :]


def _other_slips(word: str) -> Iterator[str]:
    """What was meant where a letter was left out, or its neighbour struck instead of it or with it."""
    for i in range(1, len(word) + 1):
        head, tail = word[:i], word[i:]
        for letter in _ALPHABET:
            yield head + letter + tail
    for i in range(1, len(word)):
        head, tail = word[:i], word[i + 1 :]
        for letter in _instead(word[i], len(word)):
            yield head + letter + tail
        if len(word) > _LONG and (word[i] in _BESIDE[word[i - 1]] or (tail and word[i] in _BESIDE[tail[0]])):
            yield head + tail


def _instead(letter: str, size: int) -> str:
    """The letters that may have been meant: the keys beside it, and one vowel for another."""
    if size >= _VERY_LONG:
        return _ALPHABET
    return _BESIDE[letter] + ("aeiou" if letter in _VOWELS else "")
