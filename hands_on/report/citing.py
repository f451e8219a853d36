"""Sources as numbers, in the order they are first cited; each is written out once, at the end."""

from __future__ import annotations

from collections.abc import Iterable

from hands_on.ruleset.base import FREE_SOURCES
from hands_on.ruleset.ruleset import Ruleset

OURS = "reading"
"""The source of what is our own: a figure or a meaning where the text gives none."""

_WORDS = {OURS: "ours", "common practice": "common practice", "from memory": "from memory"}


class Citing:
    """The sources cited so far."""

    def __init__(self, ruleset: Ruleset) -> None:
        self._ruleset = ruleset
        self._texts: dict[str, int] = {}
        self._free: dict[str, None] = {}

    def mark(self, keys: Iterable[str]) -> str:
        """`[1, 3, ours]` for the keys of sources; empty without any."""
        numbers: list[int] = []
        words: list[str] = []
        for key in keys:
            if key in FREE_SOURCES:
                self._free.setdefault(key)
                words.append(_WORDS[key])
            else:
                numbers.append(self.number(self._ruleset.sources.get(key, key)))
        said = [*(str(number) for number in sorted(set(numbers))), *dict.fromkeys(words)]
        return f"[{', '.join(said)}]" if said else ""

    def number(self, text: str) -> int:
        """The number of a source written out."""
        return self._texts.setdefault(text, len(self._texts) + 1)

    @property
    def listed(self) -> tuple[tuple[str, str], ...]:
        """Each source cited, with its mark: numbers first, then `ours` and the like."""
        free = ((_WORDS[key], FREE_SOURCES[key][1]) for key in _WORDS if key in self._free)
        return (*((str(number), text) for text, number in self._texts.items()), *free)
