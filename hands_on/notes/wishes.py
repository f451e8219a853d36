"""Wishes that put the part between: `a longer neck would add elegance`, `were the pasterns stronger`.

The phrases of qualities hold wish and quality side by side (`could be longer`). Where a sentence opens with
the state that is missed and says afterwards that it would help, its first word is read as `wish`.
"""

from typing import Final

from hands_on.notes.stems import is_comparative
from hands_on.notes.tokens import STOP, Tokens

__all__ = ["spoken_wishes"]

_OPENING: Final = frozenset({"a", "an", "some", "were", "slightly", "somewhat"})
_HELPING: Final = frozenset({
    "add", "help", "improve", "suit", "give", "balance", "make", "complete", "finish", "enhance",
    "be", "have", "lend", "do", "look", "put", "better",
})  # fmt: skip
_REACH: Final = 5


def spoken_wishes(tokens: Tokens) -> None:
    """Put `wish` before each state that is only wished for, in place of the word that opens its sentence."""
    text = tokens.text
    if "would" not in text and "should" not in text:
        return
    for at, word in enumerate(text):
        if word in _OPENING and _missed(text, at) and _would_help(tokens, at):
            text[at] = "wish"


def _missed(text: list[str], at: int) -> bool:
    """Whether a comparative follows: `longer`, `better angled`, `her pasterns a trifle stronger`."""
    near = text[at + 1 : at + 1 + (_REACH if text[at] == "were" else 2)]
    return any(w == "more" or is_comparative(w) for w in near)


def _would_help(tokens: Tokens, at: int) -> bool:
    for i in range(at + 1, len(tokens) - 1):
        if tokens.brk[i] == STOP:
            return False
        if tokens.text[i] in ("would", "should") and tokens.text[i + 1] in _HELPING:
            return "than" not in tokens.text[at:i]
    return False
