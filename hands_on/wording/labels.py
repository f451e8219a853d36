"""What things are called, in words."""

from __future__ import annotations

from hands_on.ruleset.labels import Joined, Label, label_of
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["label_words", "value_words"]

_SIGNS: dict[Joined, str] = {"ratio": " to ", "difference": " less ", "together": " and "}


def label_words(label: Label) -> str:
    """A label, or those of its parts with the sign between; the side behind it."""
    side = f" ({label.side})" if label.side else ""
    if not label.parts:
        return label.own + side
    first, *more = map(label_words, label.parts)
    return _SIGNS[label.joined].join([first, *(part[:1].lower() + part[1:] for part in more)]) + side


def value_words(ruleset: Ruleset, value: Value) -> str:
    """What a value of an edition is called."""
    return label_words(label_of(ruleset, value))
