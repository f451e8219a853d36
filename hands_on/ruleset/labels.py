"""What a thing is called, as data: a label of the edition's, or those of the parts a value is made of.

`wording.labels` says it.
"""

from __future__ import annotations

from typing import Literal

from hands_on.frozen import dataclass
from hands_on.ruleset.base import Side
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Derived, Value

__all__ = ["Joined", "Label", "label_of"]

Joined = Literal["ratio", "difference", "together"]


@dataclass(frozen=True)
class Label:
    """A label that stands in the data (`own`), or those of `parts` and what is made of them."""

    own: str = ""
    parts: tuple[Label, ...] = ()
    joined: Joined = "together"
    side: Side | None = None
    """The side of the dog it was read on, where that is told apart."""

    @property
    def labels(self) -> tuple[str, ...]:
        """The labels of the data that it is made of: what rows may be sorted by."""
        return (self.own,) if self.own else tuple(own for part in self.parts for own in part.labels)

    def __bool__(self) -> bool:
        return bool(self.own or self.parts)


def label_of(ruleset: Ruleset, value: Value) -> Label:
    """What a value is called: by its own label, that of its measurement, or those of its members."""
    if isinstance(value, Derived):
        return Label(value.label)
    if value.measure is not None:
        point = ruleset.points.get(value.measure)
        return Label(point.label if point is not None else value.measure)
    known = next((entry for entry in ruleset.derived.values() if entry.name == value.name), None)
    if known is not None:
        return Label(known.label)
    joined: Joined = "ratio" if value.ratio else "difference" if value.difference else "together"
    return Label(parts=tuple(label_of(ruleset, member) for member in value.members), joined=joined)
