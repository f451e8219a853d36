"""The dog, the place and the time, as the conditions of an edition ask for them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import get_args

from hands_on.evaluate.alarms.recorded import BornLater, NotKnown
from hands_on.evaluate.result import Alarm
from hands_on.exam.conditions import Entered
from hands_on.exam.session import Session
from hands_on.measure.age import TooYoung, too_young
from hands_on.ruleset.base import SizeClass, When
from hands_on.ruleset.points import Ages
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Asking", "Circumstances", "Lacking", "circumstances_of", "lacking_alarms"]

SIZES: tuple[SizeClass, ...] = get_args(SizeClass)

_WEIGHT_BOUNDS: tuple[tuple[float, SizeClass], ...] = ((10, "small"), (25, "medium"), (40, "large"))
"""Adult weight in kg up to which a dog is of the class; working bounds, as in `measure.age`."""

_NEARLY_GROWN = 12.0
"""Months from which the weight tells the size class well enough (an inference from growth curves)."""

Lacking = Mapping[str, tuple[str, ...]]
"""What conditions asked for and was not known -> the points whose rules asked."""


@dataclass(frozen=True, eq=False)
class Circumstances(Entered):
    """What conditions may ask, once weight and limits have settled what they can."""

    size_class: SizeClass | None = None
    """By the edition, by the dog's own attributes, or by the weight of a dog that is nearly grown."""
    classified: Mapping[str, str] = field(default_factory=dict)
    """Attributes that a limit decided, such as the size variety by girth."""

    def with_attribute(self, name: str, value: str) -> Circumstances:
        """The same where a limit has decided an attribute."""
        return replace(self, classified={**self.classified, name: value})

    def too_young(self, ages: Ages | None) -> TooYoung | None:
        """Why something cannot be judged yet at this age; None when it can, or the age is not known."""
        if ages is None:
            return None
        return too_young(self.age, {size: getattr(ages, size) for size in SIZES}, self.size_class)

    def attribute(self, name: str) -> str:
        """As entered, unless a limit decides it."""
        return self.classified.get(name) or self.entered(name)


class Asking:
    """Asks conditions for one stage of an evaluation, and keeps what was not known when asked."""

    def __init__(self, circumstances: Circumstances, present: Collection[str] = frozenset()) -> None:
        self.circumstances = circumstances
        self.present = present
        self._lacking: dict[str, tuple[str, ...]] = {}

    def holds(self, when: When | None, points: Iterable[str]) -> bool:
        """Does the condition hold? What it lacked is kept, for `points`."""
        self.keep(self.circumstances.lacks(when, present=self.present), points)
        return self.circumstances.state(when, present=self.present) == "holds"

    def keep(self, names: Iterable[str], points: Iterable[str]) -> None:
        """Keep what was not known, for the points whose rules asked."""
        for name in names:
            self._lacking[name] = tuple(dict.fromkeys((*self._lacking.get(name, ()), *points)))

    @property
    def lacking(self) -> Lacking:
        """All that was not known."""
        return dict(self._lacking)


def circumstances_of(ruleset: Ruleset, session: Session, weight_kg: float | None) -> Circumstances:
    """The circumstances of a session (amendments put in) before any limit has sorted the dog.

    Where nothing names the size class it is that of the weight, once the dog is nearly grown. Without
    that the latest of all ages is used, so that nothing is counted too early.
    """
    found = Circumstances(ruleset, session, ruleset.edition.size_class or _named_size(session))
    if found.size_class is None and weight_kg is not None and (found.age or 0) >= _NEARLY_GROWN:
        bounded = (size for bound, size in _WEIGHT_BOUNDS if weight_kg <= bound)
        return replace(found, size_class=next(bounded, "giant"))
    return found


def lacking_alarms(circumstances: Circumstances, stages: Iterable[Lacking]) -> tuple[Alarm, ...]:
    """A date that cannot be, and one alarm for each thing that rules asked for and that is not known."""
    alarms: list[Alarm] = []
    born, on = circumstances.dog.born, circumstances.day
    if circumstances.age is None and born is not None and on is not None:
        alarms.append(Alarm("unknown-attribute", (), BornLater(born, on)))
    points: dict[str, tuple[str, ...]] = {}
    for stage in stages:
        for name, asked in stage.items():
            points[name] = tuple(dict.fromkeys((*points.get(name, ()), *asked)))
    for name, asked in points.items():
        alarms.append(Alarm("unknown-attribute", asked, NotKnown(name)))
    return tuple(alarms)


def _named_size(session: Session) -> SizeClass | None:
    """The size class where the dog's own attributes name one."""
    named = session.dog.attribute("size-class") or session.dog.attribute("size_class")
    return next((size for size in SIZES if size == named), None)
