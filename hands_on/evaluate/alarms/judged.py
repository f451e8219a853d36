"""What is to be looked at again in what was judged: limits, classes of findings, contradictions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from hands_on.frozen import dataclass
from hands_on.measure.conformity import Band
from hands_on.measure.further import TakesReason
from hands_on.ruleset.base import Degree, Side
from hands_on.ruleset.labels import Label

if TYPE_CHECKING:
    from hands_on.evaluate.result import Origin, RuleResult

__all__ = [
    "AsAskedBut",
    "Claim",
    "DegreeNeeded",
    "DegreeNeededTogether",
    "Denied",
    "ForVeterinarian",
    "FullMouth",
    "HeavierNotSure",
    "Measured",
    "MeasuredOtherwise",
    "NearLimit",
    "Opposed",
    "SaidRight",
    "SortedOtherwise",
    "SortedUnsure",
    "Stands",
    "SwitchChosen",
    "SwitchOff",
    "TogetherAsked",
]

# --- limits ---


@dataclass(frozen=True)
class NearLimit:
    """A value that the limit cannot be decided on: too near to it, or the limit too narrow."""

    rule: RuleResult


@dataclass(frozen=True)
class HeavierNotSure:
    """A heavier class of the same fault that is likely, and not sure enough to be called."""

    rule: RuleResult
    called: str
    """The class that is sure."""
    heavier: str
    stretch: Band
    """Of the heavier stretches the likeliest."""
    p: float
    """Of all heavier ones."""
    takes_more: int | None
    takes_reason: TakesReason | None
    takes_p: float | None = None


@dataclass(frozen=True)
class SortedUnsure:
    """What a limit sorts the dog into is undecided, and rules depend on it."""

    rule: RuleResult


@dataclass(frozen=True)
class SortedOtherwise:
    """An attribute entered as one thing and measured as another."""

    attribute: str
    entered: str
    measured: str


# --- findings ---


@dataclass(frozen=True)
class SwitchChosen:
    """A class holds by a rule that is off until chosen; what of, in words."""

    switch: str
    of: Label


@dataclass(frozen=True)
class SwitchOff:
    """A class would hold by a rule that was not chosen; what of, in words."""

    switch: str
    of: Label
    would_be: str
    """The class."""


@dataclass(frozen=True)
class DegreeNeeded:
    """The class depends on a degree that was not said; the finding's label."""

    of: Label


@dataclass(frozen=True)
class DegreeNeededTogether:
    """With other faults it may count as a class, from a degree on; none was said."""

    of: Label
    cls: str
    from_degree: Degree


@dataclass(frozen=True)
class ForVeterinarian:
    """Something that goes to a veterinarian, and what the common parts say of it."""

    of: Label
    advice: str


# --- contradictions ---


@dataclass(frozen=True)
class Claim:
    """A fault as one origin gives it."""

    named: Label
    side: Side | None
    origin: Origin
    rule: RuleResult | None = None
    """Of a measured one."""


@dataclass(frozen=True)
class Opposed:
    """Two faults that cannot hold together."""

    first: Claim
    second: Claim


@dataclass(frozen=True)
class Denied:
    """A fault found at one place and ruled out at another."""

    claim: Claim
    by: Origin


@dataclass(frozen=True)
class AsAskedBut:
    """A point graded as asked for, and a fault that belongs to it."""

    point: str
    claim: Claim


@dataclass(frozen=True)
class MeasuredOtherwise:
    """A fault seen, where the measurement that decides it is surely within."""

    claim: Claim
    rule: RuleResult


@dataclass(frozen=True)
class SaidRight:
    """A point given as asked for."""

    point: str


@dataclass(frozen=True)
class Measured:
    """A number, with what it is of."""

    named: Label
    value: float
    unit: str


Stands = Claim | SaidRight | Measured


@dataclass(frozen=True)
class TogetherAsked:
    """What seldom stands together, or explains each other, and does stand together in this dog."""

    rule: str
    how: Literal["seldom", "explains"]
    stands: tuple[Stands, ...]
    text: str
    source: tuple[str, ...]


@dataclass(frozen=True)
class FullMouth:
    """Teeth said to be missing, and a chart with all of them."""

    claim: Claim
