"""What a comparison of two editions holds: pairs of what each says, with what differs; no words."""

from __future__ import annotations

from typing import Literal

from hands_on.frozen import dataclass
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import (
    Asked,
    Attribute,
    Cap,
    Class,
    Combination,
    Follow,
    GeneralClause,
    Limit,
    Outcome,
    Silence,
    Switch,
    TeethRule,
    TeethRules,
)
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "Case",
    "Comparison",
    "Difference",
    "FaultClasses",
    "Kind",
    "Lack",
    "Ladder",
    "Lies",
    "RulePair",
    "Said",
    "Section",
    "SectionKey",
    "Stretch",
    "Text",
    "Unruled",
    "Walked",
]

Kind = Literal[
    "edition",  # a head line: unit, confidence, size class
    "class",
    "general-clause",
    "limit",
    "ruling",  # the class of one fault
    "combination",
    "follow",  # a fault that follows from the dog alone
    "teeth",
    "asked",
    "silence",
    "measured",  # whether a measurement belongs to the walk
    "attribute",
    "switch",
    "outcome",
    "cap",
]

Difference = Literal[
    "only-a",  # the second edition has no such rule
    "only-b",
    "figures",
    "ends",  # the same figures, but an end belongs to another stretch
    "unit",  # the same quantity in another unit
    "class",
    "fault",  # another fault is named for the same stretch
    "condition",
    "words",
]

SectionKey = Literal[
    "editions",
    "classes",
    "unnamed",
    "limits",
    "teeth",
    "rulings",
    "combinations",
    "follows",
    "asked",
    "silences",
    "measured",
    "attributes",
    "switches",
    "outcomes",
]

Unruled = Literal["general-clause", "silent", "unknown-fault", "in-no-list"]
"""What decides the class of a fault that no ruling names."""


# --- what an edition says ------------------------------------------------------------------------------


@dataclass(frozen=True)
class Lack:
    """An edition that has no rule here, and why."""

    kind: Literal["silent", "nothing-of-its-own", "not-asked", "no-limit"]
    about: str = ""
    """What it is silent on, in its own words."""


@dataclass(frozen=True)
class Text:
    """A text or figure that stands in the edition as it is."""

    text: str


@dataclass(frozen=True)
class Ladder:
    """Classes, lightest first, or those beside the ladder."""

    classes: tuple[Class, ...]
    ordered: bool


@dataclass(frozen=True)
class Walked:
    """What the walk of an edition does at a measurement."""

    how: Literal["measured", "recorded", "limited"]
    """`recorded`: asked for and never judged."""


@dataclass(frozen=True)
class Case:
    """The class of a fault by degree, the lightest first, under one condition."""

    when: When | None
    """None for what holds otherwise."""
    classes: tuple[str | None, ...]
    """None at a degree that this case says nothing of."""
    unruled: Unruled | None = None
    """Where no ruling names the fault: what decides."""

    @property
    def condition(self) -> str:
        """The condition as the file has it, to tell it from another; empty without one."""
        return self.when.model_dump_json(exclude_defaults=True) if self.when is not None else ""


@dataclass(frozen=True)
class FaultClasses:
    """All that an edition says of a fault's class; the last case is the one without a condition."""

    cases: tuple[Case, ...]
    source: tuple[str, ...]

    @property
    def named(self) -> bool:
        """Does any ruling name the fault?"""
        return len(self.cases) > 1 or self.cases[-1].unruled is None


Said = (
    Lack | Text | Ladder | Walked | FaultClasses | Asked | Attribute | Cap | Combination | Follow
    | GeneralClause | Limit | Outcome | Silence | Switch | TeethRule | TeethRules
)  # fmt: skip
"""What one edition says: a rule of it, or why it has none."""


# --- what two editions say -----------------------------------------------------------------------------


@dataclass(frozen=True)
class Lies:
    """What it means under an edition that a value lies in a stretch."""

    kind: Literal["not-limited", "as-asked", "sorted", "tolerated", "departs"]
    key: tuple[str, ...]
    """What makes it the same under another edition."""
    fault: str | None = None
    label: str = ""
    """The stretch's own label, or the value it sorts by."""
    cls: str = ""
    ruled: FaultClasses | None = None
    """Where the rulings on the fault decide the class."""


@dataclass(frozen=True)
class Stretch:
    """A stretch of values on which two editions do not say the same."""

    low: float | None
    """None: without end. In `unit`, the first edition's."""
    high: float | None
    low_open: bool
    """The end itself does not belong."""
    high_open: bool
    unit: str
    other_unit: str
    """The second edition's."""
    a: Lies
    b: Lies


@dataclass(frozen=True)
class RulePair:
    """One rule in both editions."""

    kind: Kind
    id: str
    """The limit's value, the fault, the point, or what else the pair is of; empty where the rule itself is
    all there is to name it by."""
    a: Said | None
    """None: nothing is said."""
    b: Said | None
    differs: tuple[Difference, ...]
    source_a: tuple[str, ...] = ()
    """Keys of the edition's sources."""
    source_b: tuple[str, ...] = ()
    when: When | None = None
    """The condition under which it holds."""
    detail: str | None = None
    """Of a ruling: the detail of the fault that it holds for."""
    stretches: tuple[Stretch, ...] = ()

    @property
    def only_b(self) -> bool:
        """Has the second edition alone such a rule?"""
        return self.differs == ("only-b",)


@dataclass(frozen=True)
class Section:
    """Pairs of one kind that differ; `same` rules of it say the same in both editions."""

    key: SectionKey
    pairs: tuple[RulePair, ...]
    same: int = 0


@dataclass(frozen=True)
class Comparison:
    """Two editions rule by rule: what differs, and how many rules do not."""

    a: Ruleset
    b: Ruleset
    sections: tuple[Section, ...]
