"""What a sentence proposes: rules as the tables that an edition's file would hold."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from hands_on.standard_text.cut import Sentence
from hands_on.standard_text.headings import CLASSES

__all__ = ["Kind", "Proposal", "Read", "StandardText"]

Kind = Literal[
    "limits", "rulings", "asked", "classes", "general_clause", "teeth", "remarks", "attributes", "points",
    "switches",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Proposal:
    """One rule. `key` tells it from others of its kind: a limit's id, a fault, a point, a class.

    `table` is the TOML table without its source; `reading` tells what is ours in it, and is in the table too.
    """

    kind: Kind
    key: str
    table: dict[str, Any] = field(hash=False)
    paragraph: str = ""

    @property
    def reading(self) -> str:
        """What is our interpretation; empty where the text says it all."""
        return str(self.table.get("reading", ""))


@dataclass(frozen=True, slots=True)
class Read:
    """A sentence beside what it proposes; nothing where no proposal covers it."""

    sentence: Sentence
    proposals: tuple[Proposal, ...] = ()
    figures: int = 0
    """How many figures stand in it."""


@dataclass(frozen=True, slots=True)
class StandardText:
    """A standard's text, read: every sentence in its order."""

    reads: tuple[Read, ...]

    @property
    def unread(self) -> tuple[Read, ...]:
        """Sentences that nothing was proposed for, headings aside."""
        return tuple(one for one in self.reads if not one.proposals and not one.sentence.heading)

    @property
    def classes(self) -> tuple[str, ...]:
        """The classes that the text names, lightest first."""
        found = {p.key for one in self.reads for p in one.proposals if p.kind == "classes"}
        return tuple(name for name in CLASSES if name in found)
