"""The dog, the place and the time, as the conditions of an edition ask for them."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable
from typing import Literal, get_args

from hands_on.evaluate.result import Alarm
from hands_on.exam.session import Session
from hands_on.measure.age import Gate, age_months, gate
from hands_on.ruleset.base import SizeClass, When
from hands_on.ruleset.points import Ages
from hands_on.ruleset.ruleset import Ruleset

State = Literal["holds", "fails", "unknown", "off"]
"""Of a condition. `unknown`: it hangs on something that is not known. `off`: all that is lacking is a
switch that was not chosen."""

SIZES: tuple[SizeClass, ...] = get_args(SizeClass)

_WEIGHT_BOUNDS: tuple[tuple[float, SizeClass], ...] = ((10, "small"), (25, "medium"), (40, "large"))
"""Adult weight in kg up to which a dog is of the class; working bounds, as in `measure.age`."""

_NEARLY_GROWN = 12.0
"""Months from which the weight tells the size class well enough (an inference from growth curves)."""


class Circumstances:
    """What conditions may ask; remembers what they asked for and was not known."""

    def __init__(self, ruleset: Ruleset, session: Session) -> None:
        self.ruleset = ruleset
        self.dog = session.dog
        self.examination = session.examination
        self.switches = frozenset(session.examination.switches)
        self.classified: dict[str, str] = {}
        """Attributes that a limit decided, such as the size variety by girth."""
        self.lacking: dict[str, tuple[str, ...]] = {}
        """What was not known -> the points whose rules asked for it."""
        self.size_class: SizeClass | None = ruleset.edition.size_class or _named_size(session)
        self.problems: list[Alarm] = []
        self.age = self._age()

    def _age(self) -> float | None:
        """Months from birth to the examination, None when one of them is not known."""
        held = self.examination.started or self.examination.finished
        if self.dog.born is None or held is None:
            return None
        on = held.date() if isinstance(held, datetime.datetime) else held
        try:
            return age_months(self.dog.born, on)
        except ValueError:
            text = f"The dog is born on {self.dog.born}, after the examination of {on}: one date is wrong."
            self.problems.append(Alarm("unknown-attribute", (), text))
            return None

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
        """The dog's value of an attribute as one of the edition's words; empty when not known."""
        if name in self.classified:
            return self.classified[name]
        return self.entered(name)

    def entered(self, name: str) -> str:
        """As `attribute`, from what was entered of the dog alone."""
        written = self.dog.attribute(name).strip()
        declared = self.ruleset.edition.attributes.get(name)
        if not written or declared is None:
            return written
        for option, label in declared.options.items():
            if written.casefold() in (option.casefold(), label.casefold()):
                return option
        return ""

    def state(
        self, when: When | None, *, detail: str | None = None, present: Collection[str] = frozenset()
    ) -> State:
        """How a condition stands. `present` are the faults found in the dog."""
        if when is None:
            return "holds"
        states = list(self._parts(when, detail, present))
        others = [known for known, name in states if name != "switch"]
        if False in others:
            return "fails"
        if (False, "switch") in states:
            return "off"
        return "unknown" if None in others else "holds"

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

    def _parts(
        self, when: When, detail: str | None, present: Collection[str]
    ) -> Iterable[tuple[bool | None, str]]:
        """Each key of a condition: does it hold (None: not known), and its name."""
        if when.sex is not None:
            yield (None if self.dog.sex is None else self.dog.sex == when.sex), "sex"
        if when.age_from is not None:
            yield (None if self.age is None else self.age >= when.age_from), "age"
        if when.age_below is not None:
            yield (None if self.age is None else self.age < when.age_below), "age"
        if when.country is not None:
            yield _among(self.examination.country, when.country), "country"
        if when.purpose is not None:
            yield _among(self.examination.purpose, when.purpose), "purpose"
        if when.switch is not None:
            yield not self.switches.isdisjoint(when.switch), "switch"
        if when.detail is not None:
            yield (None if detail is None else detail in when.detail), "detail"
        if when.together_with:
            yield not set(present).isdisjoint(when.together_with), "with"
        if when.without is not None:
            yield set(present).isdisjoint(when.without), "without"
        for name, wanted in when.attributes.items():
            yield _among(self.attribute(name), wanted), name

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


def _among(value: str, wanted: Iterable[str]) -> bool | None:
    if not value:
        return None
    return value.casefold() in (word.casefold() for word in wanted)


def _named_size(session: Session) -> SizeClass | None:
    """The size class where the dog's own attributes name one."""
    named = session.dog.attribute("size-class") or session.dog.attribute("size_class")
    return next((size for size in SIZES if size == named), None)
