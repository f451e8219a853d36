"""The dog, the place and the time, as the conditions of an edition ask for them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import get_args

from hands_on.evaluate.result import Alarm
from hands_on.exam.conditions import Entered
from hands_on.exam.session import Session
from hands_on.measure.age import Gate, gate
from hands_on.ruleset.base import SizeClass, When
from hands_on.ruleset.points import Ages
from hands_on.ruleset.ruleset import Ruleset

SIZES: tuple[SizeClass, ...] = get_args(SizeClass)

_WEIGHT_BOUNDS: tuple[tuple[float, SizeClass], ...] = ((10, "small"), (25, "medium"), (40, "large"))
"""Adult weight in kg up to which a dog is of the class; working bounds, as in `measure.age`."""

_NEARLY_GROWN = 12.0
"""Months from which the weight tells the size class well enough (an inference from growth curves)."""


class Circumstances(Entered):
    """What conditions may ask; remembers what they asked for and was not known."""

    def __init__(self, ruleset: Ruleset, session: Session) -> None:
        super().__init__(ruleset, session)
        self.classified: dict[str, str] = {}
        """Attributes that a limit decided, such as the size variety by girth."""
        self.lacking: dict[str, tuple[str, ...]] = {}
        """What was not known -> the points whose rules asked for it."""
        self.size_class: SizeClass | None = ruleset.edition.size_class or _named_size(session)
        self.problems: list[Alarm] = []
        if self.age is None and self.dog.born is not None and self.day is not None:
            born, on = self.dog.born, self.day
            text = f"The dog is born on {born}, after the examination of {on}: one date is wrong."
            self.problems.append(Alarm("unknown-attribute", (), text))

    def settle_size(self, weight_kg: float | None) -> None:
        """Where nothing names the size class, take it from the weight of a dog that is nearly grown.

        Without that the latest of all ages is used, so that nothing is counted too early.
        """
        if self.size_class is None and weight_kg is not None and (self.age or 0) >= _NEARLY_GROWN:
            bounded = (size for bound, size in _WEIGHT_BOUNDS if weight_kg <= bound)
            self.size_class = next(bounded, "giant")

    def too_young(self, ages: Ages | None) -> str:
        """Why something cannot be judged yet at this age; empty when it can, or the age is not known."""
        verdict = self._gate(ages)
        return verdict.text if verdict is not None and verdict.too_young else ""

    def judged_from(self, ages: Ages | None) -> float | None:
        """From how many months on it can be judged, where it cannot be yet."""
        verdict = self._gate(ages)
        return verdict.from_months if verdict is not None and verdict.too_young else None

    def _gate(self, ages: Ages | None) -> Gate | None:
        if ages is None:
            return None
        return gate(self.age, {size: getattr(ages, size) for size in SIZES}, self.size_class)

    def attribute(self, name: str) -> str:
        """As entered, unless a limit decides it."""
        return self.classified.get(name) or self.entered(name)

    def holds(
        self,
        when: When | None,
        *,
        detail: str | None = None,
        present: Collection[str] = frozenset(),
        points: Iterable[str] = (),
    ) -> bool:
        """Does the condition hold? What it lacked is remembered, for `points`."""
        state = self.state(when, detail=detail, present=present)
        if state == "unknown" and when is not None:
            for known, name in self._parts(when, detail, present):
                if known is None:
                    self.lacking[name] = tuple(dict.fromkeys((*self.lacking.get(name, ()), *points)))
        return state == "holds"

    def alarms(self) -> tuple[Alarm, ...]:
        """One alarm for each thing that rules asked for and that is not known."""
        alarms = [*self.problems]
        for name, points in self.lacking.items():
            alarms.append(Alarm("unknown-attribute", points, self._lack_text(name)))
        return tuple(alarms)

    def _lack_text(self, name: str) -> str:
        if name == "detail":
            return "The place or form of a fault is not said, and its class hangs on it."
        declared = self.ruleset.edition.attributes.get(name)
        written = self.dog.attribute(name).strip()
        if declared is not None and written:
            return (
                f"{declared.label} “{written}” is none that this edition knows "
                f"({', '.join(declared.options)}): rules that ask for it were not applied."
            )
        what = f"The {name}" if name in ("sex", "age", "country", "purpose") else name
        if declared is not None:
            what = declared.label
        return f"{what} is not known: rules that hang on it were not applied."


def _named_size(session: Session) -> SizeClass | None:
    """The size class where the dog's own attributes name one."""
    named = session.dog.attribute("size-class") or session.dog.attribute("size_class")
    return next((size for size in SIZES if size == named), None)
