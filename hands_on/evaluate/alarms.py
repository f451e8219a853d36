"""What an alarm is about, as values; `wording.alarms` says it."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING, Literal

from hands_on.frozen import dataclass
from hands_on.measure.closure import Misfit
from hands_on.measure.conformity import Band
from hands_on.measure.further import TakesReason
from hands_on.measure.takes import OddTakes
from hands_on.ruleset.base import Degree, Sex, Side

if TYPE_CHECKING:
    from hands_on.evaluate.result import Origin, RuleResult

__all__ = [
    "About",
    "AsAskedBut",
    "BornLater",
    "Claim",
    "CountsDiffer",
    "DegreeNeeded",
    "DegreeNeededTogether",
    "Denied",
    "EditionChanged",
    "FarFromAsked",
    "ForVeterinarian",
    "FullMouth",
    "HeavierNotSure",
    "Measured",
    "MeasuredOtherwise",
    "MilkTeeth",
    "NearLimit",
    "NoChoice",
    "NoScale",
    "NoSuchAnswer",
    "NoSuchStep",
    "NoSuchSwitch",
    "NotKnown",
    "OfOtherSex",
    "Opposed",
    "SaidRight",
    "SeveralAnswers",
    "SortedOtherwise",
    "SortedUnsure",
    "Stands",
    "SwitchChosen",
    "SwitchOff",
    "TakeRefused",
    "TakesOdd",
    "TakesUnused",
    "TeethUnseen",
    "TogetherAsked",
    "Unclosed",
    "UnknownFault",
    "UnknownPoint",
]

# --- the dog and the edition ---


@dataclass(frozen=True)
class BornLater:
    """The dog is born after its examination."""

    born: datetime.date
    on: datetime.date


@dataclass(frozen=True)
class NotKnown:
    """Rules asked for something of the dog, the place or a fault that is not known, by its name."""

    name: str


@dataclass(frozen=True)
class EditionChanged:
    """The edition's file is another one than when the session was held."""


@dataclass(frozen=True)
class NoSuchSwitch:
    """A rule was chosen for the examination that the edition does not have."""

    switch: str


@dataclass(frozen=True)
class SwitchChosen:
    """A class holds by a rule that is off until chosen; what of, in words."""

    switch: str
    of: str


@dataclass(frozen=True)
class SwitchOff:
    """A class would hold by a rule that was not chosen; what of, in words."""

    switch: str
    of: str
    would_be: str
    """The class."""


# --- takes ---


@dataclass(frozen=True)
class TakeRefused:
    """A take that is not counted; takes count from 1, and the problem is the one told when it is entered."""

    point: str
    take: int
    problem: str


@dataclass(frozen=True)
class TakesOdd:
    """Takes of one point and side that cannot all be right, or that fall."""

    point: str
    side: Side | None
    odd: OddTakes


@dataclass(frozen=True)
class CountsDiffer:
    """Counts of the same thing that are not the same."""

    point: str
    side: Side | None


@dataclass(frozen=True)
class FarFromAsked:
    """One take alone, far from what the edition asks for; of a young dog from what it may have by now."""

    point: str
    side: Side | None
    value: float
    unit: str
    asked: tuple[float | None, float | None]
    young: bool


@dataclass(frozen=True)
class TakesUnused:
    """Readings at a point that this edition judges and does not measure, or does not know."""

    point: str
    count: int


@dataclass(frozen=True)
class Unclosed:
    """Measurements that should go together and do not, and what the common parts say of them."""

    misfit: Misfit
    said: str = ""
    advice: str = ""


# --- answers ---


@dataclass(frozen=True)
class UnknownPoint:
    """An answer at a point that this edition does not know."""

    point: str


@dataclass(frozen=True)
class UnknownFault:
    """A fault that this edition does not know."""

    fault: str


@dataclass(frozen=True)
class OfOtherSex:
    """A fault that a dog of this sex cannot have."""

    fault: str
    sex: Sex


@dataclass(frozen=True)
class NoScale:
    """A step was recorded where this edition has no scale."""

    point: str


@dataclass(frozen=True)
class NoSuchStep:
    """A step that the scale does not have, and those it has."""

    point: str
    step: int | None
    steps: tuple[int, ...]


@dataclass(frozen=True)
class NoChoice:
    """An answer was chosen where this edition has no choice."""

    point: str
    chosen: tuple[str, ...]


@dataclass(frozen=True)
class NoSuchAnswer:
    """A chosen answer that the point does not have, and those it has."""

    point: str
    chosen: str
    answers: tuple[str, ...]


@dataclass(frozen=True)
class SeveralAnswers:
    """Several answers at a point where one alone can hold."""

    point: str
    answers: tuple[str, ...]


@dataclass(frozen=True)
class TeethUnseen:
    """Teeth that were not seen, and how many are missing for sure."""

    unseen: tuple[int, ...]
    missing: int


@dataclass(frozen=True)
class MilkTeeth:
    """Milk teeth that stand past the change of teeth."""

    teeth: tuple[int, ...]


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
class DegreeNeeded:
    """The class depends on a degree that was not said; the finding's label."""

    of: str


@dataclass(frozen=True)
class DegreeNeededTogether:
    """With other faults it may count as a class, from a degree on; none was said."""

    of: str
    cls: str
    from_degree: Degree


@dataclass(frozen=True)
class ForVeterinarian:
    """Something that goes to a veterinarian, and what the common parts say of it."""

    of: str
    advice: str


# --- contradictions ---


@dataclass(frozen=True)
class Claim:
    """A fault as one origin gives it."""

    label: str
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

    label: str
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


About = (
    BornLater
    | NotKnown
    | EditionChanged
    | NoSuchSwitch
    | SwitchChosen
    | SwitchOff
    | TakeRefused
    | TakesOdd
    | CountsDiffer
    | FarFromAsked
    | TakesUnused
    | Unclosed
    | UnknownPoint
    | UnknownFault
    | OfOtherSex
    | NoScale
    | NoSuchStep
    | NoChoice
    | NoSuchAnswer
    | SeveralAnswers
    | TeethUnseen
    | MilkTeeth
    | NearLimit
    | HeavierNotSure
    | SortedUnsure
    | SortedOtherwise
    | DegreeNeeded
    | DegreeNeededTogether
    | ForVeterinarian
    | Opposed
    | Denied
    | AsAskedBut
    | MeasuredOtherwise
    | FullMouth
    | TogetherAsked
)
