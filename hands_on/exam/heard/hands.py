"""What somebody changed by hand on what was heard in a note, and a note while it is being written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cache

from pydantic import TypeAdapter, ValidationError
from typing_extensions import TypedDict  # typing's own has no types at run time before Python 3.12

from hands_on.exam.session import Status
from hands_on.frozen import dataclass
from hands_on.measure.asked_reading import Entry
from hands_on.ruleset.base import Degree, Side

__all__ = ["ByHand", "Draft", "Hands"]


class ByHand(TypedDict, total=False):
    """What was changed by hand on one thing heard; a key that is not there stays as read."""

    taken: bool
    fault: str
    degree: Degree | None
    side: Side | None
    status: Status
    number: float
    """The number in the note that `entry` settles; another number there is odd again."""
    entry: Entry
    words: str
    """Words of the note that nothing was read from; the fault of this id was added for them."""


Hands = Mapping[str, ByHand]
"""By the id of the fault, measurement or point as read."""


@dataclass(frozen=True)
class Draft:
    """A note while it is being written, or put aside."""

    text: str = ""
    hands: Hands = field(default_factory=dict)

    @property
    def waits(self) -> bool:
        """Is there anything in it?"""
        return bool(self.text.strip())

    @property
    def kept(self) -> str:
        """What was changed by hand as one text (JSON); empty where nothing was."""
        return _hands().dump_json(dict(self.hands)).decode() if self.hands else ""

    @classmethod
    def of(cls, text: str, kept: str) -> Draft:
        """A draft from its words and `kept`; changes that can't be read are none."""
        try:
            return cls(text, _hands().validate_json(kept) if kept else {})
        except ValidationError:
            return cls(text)


@cache
def _hands() -> TypeAdapter[dict[str, ByHand]]:
    return TypeAdapter(dict[str, ByHand])
