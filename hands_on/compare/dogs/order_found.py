"""What an order of dogs is: places with how often each comes out, what it rests on and hangs on."""

from __future__ import annotations

from typing import Literal

from hands_on.compare.dogs.class_rank import OtherRule
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.frozen import dataclass
from hands_on.ruleset.rules import Placing

__all__ = [
    "DRAWS",
    "SEED",
    "SURE",
    "Assumption",
    "Basis",
    "DecidingAnswer",
    "DecidingAssumption",
    "NoOrder",
    "Order",
    "OrderRemark",
    "Placed",
]

DRAWS = 2000
SEED = "20240601"

SURE = 0.95
"""How often what is said of the order of dogs that are alike must not be said; see `Order.sure`."""

NoOrder = Literal[
    "too-few",
    "different-editions",
    "one-dog",
    "dog-twice",
    "too-little-in-common",
    "too-young",
    "too-young-for-what-disqualifies",
]
"""Why sessions cannot be put in order."""

Assumption = Literal["degrees", "overlooked", "unsure", "measurements"]
"""What is taken to err."""


@dataclass(frozen=True)
class OrderRemark:
    """What makes an order unfair to one of the dogs, or to all."""

    kind: Literal["too-young", "different-evaluators"]
    dog: str = ""
    count: int = 0
    """Findings not counted."""


@dataclass(frozen=True)
class Basis:
    """What dogs were compared on."""

    points: tuple[str, ...] = ()
    """Answered for all of them, and none too young for what is asked there."""
    asked: int = 0
    """Points that the edition asks of any of them, those left out on purpose for all apart."""
    rest: tuple[tuple[str, tuple[int, ...]], ...] = ()
    """Labels of the other points, with the sessions (by place) that answer them."""
    too_young: tuple[str, ...] = ()
    """Labels of points that one of the dogs is too young for: they count in none."""

    @property
    def share(self) -> float:
        """Of what is asked."""
        return len(self.points) / self.asked if self.asked else 0.0


@dataclass(frozen=True)
class DecidingAssumption:
    """How often the order holds were one kind of error left out."""

    kind: Assumption
    p_without: float


@dataclass(frozen=True)
class Placed:
    """One dog in the order."""

    index: int
    """Its place among the sessions as given."""
    dog: str
    place: int
    """Place as recorded, from 1; dogs that tie have the same."""
    tied: bool
    p_place: tuple[float, ...]
    """How often each place comes out, from the first."""
    counts: tuple[tuple[tuple[str, ...], int], ...]
    """Findings counted, by class, the heaviest first; classes that weigh the same together."""
    unsure: int
    """Findings that are unsure and not counted."""
    p_before_next: float | None
    """How often it stands before the dog listed next; None for the last."""


@dataclass(frozen=True)
class DecidingAnswer:
    """An answer that the order depends on."""

    index: int
    dog: str
    answer: Finding | RuleResult
    point: str
    p_if_held: float
    """How often the order holds where this answer is as recorded."""
    p_otherwise: float
    """How often where it is not."""
    p_changes: float
    """How often it comes out otherwise."""


@dataclass(frozen=True)
class Order:
    """The order as recorded and how far it holds; where there is none, why."""

    dogs: tuple[Placed, ...] = ()
    p_order: float | None = None
    """How often every dog recorded before another stays before it; None where all tie."""
    p_first: float | None = None
    """How often one of the dogs recorded first stands first."""
    p_order_range: tuple[float, float] | None = None
    """`p_order` with a rough hand and with a sure one."""
    p_first_range: tuple[float, float] | None = None
    depends_on: tuple[DecidingAnswer, ...] = ()
    assumptions: tuple[DecidingAssumption, ...] = ()
    """What is assumed to err, by how much the order depends on it."""
    otherwise: tuple[tuple[OtherRule, tuple[str, ...]], ...] = ()
    """Other sensible rules that put another dog first, and which."""
    basis: Basis = Basis()
    placing: Placing | None = None
    """The rule."""
    remarks: tuple[OrderRemark, ...] = ()
    no_order: NoOrder | None = None
    draws: int = DRAWS
    seed: str = SEED

    @property
    def settled(self) -> bool:
        """Does the whole order hold often enough to be said?"""
        return self.p_order is not None and self.p_order >= self.sure

    @property
    def sure(self) -> float:
        """From this probability on a dog is said to stand before another: 0.975 of two, more of more.

        Any of k dogs may come out first by error alone, so each gets its share of the 5 % (Bonferroni); the
        rate is shown by tests/bench/dog_order.py.
        """
        return 1.0 - (1.0 - SURE) / max(2, len(self.dogs))
