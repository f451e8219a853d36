"""A departure as one answer or one limit gives it, before answers to the same are put together."""

from __future__ import annotations

from hands_on.evaluate.reasons import Reason
from hands_on.evaluate.result import Origin, RuleResult
from hands_on.exam.session import Status
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.ruleset.base import Degree, Side
from hands_on.ruleset.labels import Label

__all__ = ["Affirmed", "Called", "Departure", "sides_meet"]


@dataclass(frozen=True)
class Called:
    """The class of a departure, and why."""

    cls: str
    """One of the edition's classes, or `none`, `observation`, `unclassed`."""
    source: tuple[str, ...] = ()
    reading: str = ""
    reasons: tuple[Reason, ...] = ()
    switch: str = ""
    """The switch under which this holds, where there is one."""
    off: str = ""
    """The switch that is not chosen and under which another class would hold."""
    would_be: str = ""
    """That class."""
    degree_needed: bool = False
    """The lightest of several classes, since the degree was not said."""
    lacking: tuple[str, ...] = ()
    """What rulings asked for and was not known."""


@dataclass(frozen=True)
class Departure:
    """One fault from one origin."""

    fault: str
    """Its id; for a stretch outside a limit that has no fault, the limit's id."""
    origin: Origin
    points: tuple[str, ...]
    degree: Degree | None = None
    side: Side | None = None
    status: Status = "present"
    detail: str | None = None
    same: tuple[str, ...] = ()
    """Of a measurement: other details by which the eye names the same thing."""
    named: Label | None = None
    """Only where `fault` is no fault of the vocabulary."""
    called: Called | None = None
    """Set where a limit or the tooth chart decides the class, and not the rulings."""
    rule: RuleResult | None = None
    """Of a measurement: the result of the limit."""
    teeth: tuple[int, ...] = ()
    too_young: TooYoung | None = None
    """Why the measurement itself cannot be judged yet; None when it can."""
    lasting: bool = False
    """Measured over a limit that growing cannot mend."""
    reasons: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Affirmed:
    """A point that was graded as asked for."""

    point: str
    side: Side | None = None


def sides_meet(first: Side | None, second: Side | None) -> bool:
    """Can two sides be the same one? No side means either."""
    return first is None or second is None or "both" in (first, second) or first == second
