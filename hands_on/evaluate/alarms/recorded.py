"""What does not fit in what was recorded of the dog, its takes and its answers, before anything is judged."""

from __future__ import annotations

import datetime

from hands_on.frozen import dataclass
from hands_on.measure.closure import Misfit
from hands_on.measure.takes import OddTakes
from hands_on.ruleset.base import Sex, Side

__all__ = [
    "BornLater",
    "CountsDiffer",
    "EditionChanged",
    "FarFromAsked",
    "MilkTeeth",
    "NoChoice",
    "NoScale",
    "NoSuchAnswer",
    "NoSuchStep",
    "NoSuchSwitch",
    "NotKnown",
    "OfOtherSex",
    "SeveralAnswers",
    "TakeRefused",
    "TakesOdd",
    "TakesUnused",
    "TeethUnseen",
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
