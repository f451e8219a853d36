"""What is found of a difference between two answers at one point: the verdict, and what it rests on."""

from __future__ import annotations

import math
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung

__all__ = ["Caveat", "CaveatKind", "Difference", "Ground", "Grown", "Verdict"]

Verdict = Literal[
    "real",
    "different",  # where no figure says how often a hand errs
    "disagree",  # evaluators on one dog
    "not-settled",  # beyond its own error, but error alone may do as much among all points of a re-check
    "within-hand-error",
    "explained-by-growth",
    "did-not-grow",  # a puppy that should have
    "does-not-shrink",  # a length that became smaller: stance or hand
    "day-to-day",  # a weight beyond the scale's error, and no more than it varies from day to day
    "too-young",
]
"""Those of a whole table (`compare.dogs.together`) may be `different` and `disagree`."""

Ground = Literal[
    "not-in-both",  # one of the two has no answer
    "not-computed",  # a proportion that one of the two does not allow
    "asked-differently",  # another kind of point in the other edition
    "different-units",
    "contradictory-takes",  # of one of the two
    "different-scales",
    "measured",  # against the smallest detectable change
    "growth",  # against what growth lets expect
    "same",
    "steps",  # on one ordered scale
    "different",  # without an order: no figure says how often a hand errs
]
"""What a verdict rests on, or why there is none."""

CaveatKind = Literal[
    "too-young",  # cannot be judged at that age
    "too-young-then",  # could not be at the earlier examination
    "no-change-shown",
    "no-growth-curve",
    "does-not-shrink",  # a length of a grown dog
    "daily",  # no more than weight varies from day to day
    "so-before",  # graded or chosen so at an examination before the last
    "fixed",  # how fast the departure moves, by its stability
    "slow",
    "changes",
]


@dataclass(frozen=True)
class Caveat:
    """What else must be known of a difference."""

    kind: CaveatKind
    too_young: TooYoung | None = None
    age: float | None = None
    """Months at the earlier examination."""


@dataclass(frozen=True)
class Grown:
    """A later measurement against what growth lets expect, in the point's unit."""

    quantity: str
    """`height` or `weight`."""
    expected: float
    u: float
    z: float
    """How many u the later measurement lies above what is expected."""
    changed: bool
    """Beyond the smallest detectable change."""
    shrank: bool
    """A height that became smaller."""


@dataclass(frozen=True)
class Difference:
    """Answers of two sessions at one point; `first` and `second` are their places in the comparison.

    `difference` is second less first, in the point's unit or in steps; None where answers have no order.
    `p_greater` is the probability that the second's true value is the greater one. `verdict` is None where
    one of them has no answer or they cannot be compared; `ground` says why.
    """

    first: int
    second: int
    difference: float | None
    sdc: float | None
    p_greater: float | None
    verdict: Verdict | None
    ground: Ground
    differs: bool
    """The answers are not the same, whether or not by more than hand error."""
    units: tuple[str, str] = ("", "")
    """Those of measured answers."""
    u: float = 0.0
    """The larger of the two standard uncertainties."""
    unsure: bool = False
    """One of two different answers is unsure, so that no change is called."""
    grown: Grown | None = None
    caveats: tuple[Caveat, ...] = ()
    p_error: float | None = None
    """How often error alone sets the widest two of all sessions as far apart at this point."""
    alone_only: bool = False
    """Real were this point alone compared; among all of them it is to be expected of error."""
    dof: float = math.inf
    """Degrees of freedom of a measured difference."""
    unexpected: bool = False
    """The later answer is off what growth lets expect, by more than its uncertainty: see again."""
    earlier: int = 1
    """Of one dog: how many earlier examinations the later one was held against."""
