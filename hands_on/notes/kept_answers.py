"""Answers that are kept, for the same few thousand words come again and again."""

from collections.abc import Hashable
from typing import Final, TypeVar

__all__ = ["KeptAnswers"]

_K = TypeVar("_K", bound=Hashable)
_V = TypeVar("_V")
_LIMIT: Final = 20000


class KeptAnswers(dict[_K, _V]):
    """Questions and their answers; when there are too many all are dropped, and found again as they come.

    It holds no function, so a lexicon that has been asked can be stored; `functools.lru_cache` holds one.
    """

    def keep(self, key: _K, answer: _V) -> _V:
        """Keep the answer, and hand it back."""
        if len(self) >= _LIMIT:
            self.clear()
        self[key] = answer
        return answer
