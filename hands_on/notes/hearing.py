"""Words put right that a phone misheard, where the screen shows what they must be: `hall` at eyes is the haw.

What is no English under any part of the dog (`past earns`) is put right everywhere, the rest under its own
region alone. Slips of the ear that leave room for doubt are weighed instead (`slips`).
"""

from collections.abc import Mapping
from typing import Final

from hands_on.notes.stems import plain
from hands_on.notes.tokens import Tokens

__all__ = ["EVERYWHERE", "Hearing"]

EVERYWHERE: Final = "everywhere"
"""The table of what is heard wrong under any region."""
_Heard = dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]]


class Hearing:
    """What is heard and what was said, by region: phrases of one to four words."""

    def __init__(self, tables: Mapping[str, Mapping[str, str]]) -> None:
        self._tables: dict[str, _Heard] = {}
        for region in tables:
            table: _Heard = {}
            said = {**tables.get(EVERYWHERE, {}), **tables[region]}
            for heard, meant in said.items():
                words = tuple(plain(heard).split())
                table.setdefault(words[0], []).append((words, tuple(plain(meant).split())))
            for choices in table.values():
                choices.sort(key=lambda choice: -len(choice[0]))
            self._tables[region] = table

    def put_right(self, tokens: Tokens, region: str | None) -> None:
        """Put the words as they were said; what was said keeps the place of what was heard."""
        table = self._tables.get(region or EVERYWHERE) or self._tables.get(EVERYWHERE, {})
        if table.keys().isdisjoint(tokens.text):
            return
        at = 0
        while at < len(tokens):
            for heard, meant in table.get(tokens.text[at], ()):
                end = at + len(heard)
                if tuple(tokens.text[at:end]) == heard and not any(tokens.brk[at + 1 : end]):
                    _replace(tokens, at, end, meant)
                    at += len(meant) - 1
                    break
            at += 1


def _replace(tokens: Tokens, at: int, end: int, meant: tuple[str, ...]) -> None:
    """Word for word from the left; the last takes the place of all that are left over."""
    count, last = len(meant), end - 1
    starts = [tokens.start[min(at + i, last)] for i in range(count)]
    ends = [tokens.end[min(at + i, last)] for i in range(count - 1)] + [tokens.end[last]]
    asked = any(tokens.query_after[at:end])
    tokens.text[at:end] = meant
    tokens.start[at:end] = starts
    tokens.end[at:end] = ends
    tokens.number[at:end] = [False] * count
    tokens.brk[at + 1 : end] = [0] * (count - 1)
    tokens.query_before[at:end] = [tokens.query_before[at]] + [False] * (count - 1)
    tokens.query_after[at:end] = [False] * (count - 1) + [asked]
