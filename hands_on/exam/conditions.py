"""What was entered of dog and examination, and how the conditions of an edition stand to it."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable
from functools import cached_property
from typing import Literal

from hands_on.exam.session import Dog, Examination, Session
from hands_on.frozen import dataclass
from hands_on.measure.age import age_months
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import Outcome
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Entered"]

State = Literal["holds", "fails", "unknown", "off"]
"""Of a condition. `unknown`: it hangs on something that is not known. `off`: all that is lacking is a
switch that was not chosen."""


@dataclass(frozen=True, eq=False)
class Entered:
    """What conditions may ask, as it was entered."""

    ruleset: Ruleset
    session: Session
    """Amendments put in."""

    @property
    def dog(self) -> Dog:
        """Whom it is about."""
        return self.session.dog

    @property
    def examination(self) -> Examination:
        """When, where and what for."""
        return self.session.examination

    @property
    def day(self) -> datetime.date | None:
        """The day of the examination."""
        held = self.examination.started or self.examination.finished
        return held.date() if held is not None else None

    @cached_property
    def age(self) -> float | None:
        """Months from birth to the day of the examination, None when one of them is not known."""
        if self.dog.born is None or self.day is None:
            return None
        try:
            return age_months(self.dog.born, self.day)
        except ValueError:
            return None

    def attribute(self, name: str) -> str:
        """The dog's value of an attribute as one of the edition's words; empty when not known."""
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

    def lacks(
        self, when: When | None, *, detail: str | None = None, present: Collection[str] = frozenset()
    ) -> tuple[str, ...]:
        """What a condition depends on that is not known; empty where it holds or fails without."""
        if when is None or self.state(when, detail=detail, present=present) != "unknown":
            return ()
        return tuple(name for known, name in self._parts(when, detail, present) if known is None)

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
        country, purpose = self.examination.country, self.examination.purpose
        if when.country is not None:
            yield _among(country, when.country), "country"
        if when.country_not is not None:
            yield _not_among(country, when.country_not), "country"
        if when.purpose is not None:
            yield _among(purpose, when.purpose), "purpose"
        if when.purpose_not is not None:
            yield _not_among(purpose, when.purpose_not), "purpose"
        if when.switch is not None:
            yield not set(self.examination.switches).isdisjoint(when.switch), "switch"
        if when.detail is not None:
            yield (None if detail is None else detail in when.detail), "detail"
        if when.together_with:
            yield not set(present).isdisjoint(when.together_with), "with"
        if when.without is not None:
            yield set(present).isdisjoint(when.without), "without"
        for name, wanted in when.attributes.items():
            yield _among(self.attribute(name), wanted), name

    def outcomes(self) -> tuple[Outcome, ...]:
        """The grades that this examination may end in, best first; where the age is not known, all."""
        rows = self.ruleset.edition.outcomes
        return tuple(row for row in rows if self.state(row.when) in ("holds", "unknown"))


def _among(value: str, wanted: Iterable[str]) -> bool | None:
    if not value:
        return None
    return value.casefold() in (word.casefold() for word in wanted)


def _not_among(value: str, unwanted: Iterable[str]) -> bool | None:
    found = _among(value, unwanted)
    return None if found is None else not found
