"""A session with the edition it is held against and what the two give: what everything here compares."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.measures import Measures
from hands_on.evaluate.result import Evaluation
from hands_on.exam.answers import Answers, amended, place_of
from hands_on.exam.session import Choice, Grade, NoteFinding, Session, Take
from hands_on.frozen import dataclass
from hands_on.measure.hand import OwnHand
from hands_on.ruleset.points import Point
from hands_on.ruleset.ruleset import Ruleset

if TYPE_CHECKING:
    from hands_on.compare.answer import Answer

__all__ = ["Examined", "examined", "labels", "one_edition", "same_dog", "same_evaluator"]


@dataclass(frozen=True, eq=False)
class Examined:
    """One examination of one dog, ready to be compared; what follows from it is computed when asked for."""

    name: str
    """How the session is called: its file."""
    session: Session
    """Amendments put in."""
    ruleset: Ruleset
    hand: Mapping[str, OwnHand]
    """The evaluator's own repeatability by point."""

    @cached_property
    def evaluation(self) -> Evaluation:
        """What ruleset and session give."""
        return evaluate(self.ruleset, self.session, name=self.name, hand=self.hand)

    @property
    def measures(self) -> Measures:
        """The measurements with the parts of their uncertainty."""
        return self.evaluation.measured

    @property
    def circumstances(self) -> Circumstances:
        """Age, size class and what else conditions ask for; what a limit sorts the dog into is settled."""
        return self.evaluation.circumstances

    @cached_property
    def answered(self) -> Mapping[str, Answers]:
        """What is recorded at each point that has takes, grades or choices; the tooth chart is apart."""
        rows: dict[str, tuple[list[Take], list[Grade], list[Choice]]] = {}
        for take in self.session.takes:
            rows.setdefault(take.point, ([], [], []))[0].append(take)
        for grade in self.session.grades:
            rows.setdefault(grade.point, ([], [], []))[1].append(grade)
        for choice in self.session.choices:
            rows.setdefault(choice.point, ([], [], []))[2].append(choice)
        return {name: Answers(tuple(t), tuple(g), tuple(c)) for name, (t, g, c) in rows.items()}

    @cached_property
    def noted(self) -> Mapping[str, tuple[NoteFinding, ...]]:
        """Findings accepted from notes, at the point where their fault belongs."""
        rows: dict[str, tuple[NoteFinding, ...]] = {}
        for note in self.session.notes:
            for finding in note.findings:
                point = place_of(self.ruleset, note, finding)
                rows[point] = (*rows.get(point, ()), finding)
        return rows

    @cached_property
    def said(self) -> dict[str, tuple[Point, Answer]]:
        """What was worked out by `compare.answer.answer_at`, by point."""
        return {}

    def skipped(self, point: Point) -> str | None:
        """Why the point or its region was skipped; None when it was not."""
        skips = self.session.skips
        own = next((row for row in skips if row.point == point.id), None)
        own = own or next((row for row in skips if row.region == point.region), None)
        return own.reason if own is not None else None

    @property
    def dog(self) -> str:
        """The dog's name."""
        dog = self.session.dog
        return dog.call_name or dog.registered_name or self.name or "a dog without a name"

    @property
    def identity(self) -> str:
        """What tells the dog from others; empty when the file does not say."""
        return self.session.dog.identity.casefold()

    @property
    def evaluator(self) -> str:
        """Who examined; empty when the file does not say."""
        return self.session.examination.evaluator

    @property
    def age(self) -> float | None:
        """Months at the examination."""
        return self.circumstances.age

    @property
    def held(self) -> datetime.datetime | None:
        """When the examination was held; without an offset it is as the clock showed it."""
        return self.session.examination.started or self.session.examination.finished

    @property
    def day(self) -> str:
        """The day it was held, year-month-day; empty when not known."""
        return self.held.date().isoformat() if self.held is not None else ""

    @property
    def order_key(self) -> tuple[float, str]:
        """Sorts examinations of one dog from the earliest."""
        return (-1.0 if self.age is None else self.age, self.day)

    def label(self, point: str) -> str:
        """A point's label, or its id where the edition does not know it."""
        known = self.ruleset.points.get(point)
        return known.label if known is not None else point


def examined(
    ruleset: Ruleset, session: Session, *, name: str = "", hand: Mapping[str, OwnHand] | None = None
) -> Examined:
    """A session under a ruleset (its own or another) as it can be compared.

    `hand` is the evaluator's own repeatability by point. Never raises for what was read.
    """
    return Examined(name, amended(session), ruleset, hand or {})


def same_dog(first: Examined, second: Examined) -> bool:
    """Do both files speak of one dog, as well as they tell?"""
    one, other = first.session.dog, second.session.dog
    if one.chip and other.chip:
        return one.chip == other.chip
    if not first.identity or first.identity != second.identity:
        return False
    # Two dogs may share a call name; then the date of birth or the sex tells them apart.
    differ = one.born is not None and other.born is not None and one.born != other.born
    return not differ and (one.sex is None or other.sex is None or one.sex == other.sex)


def same_evaluator(first: Examined, second: Examined) -> bool:
    """Did the same person examine? Unknown counts as another."""
    return bool(first.evaluator) and first.evaluator.casefold() == second.evaluator.casefold()


def one_edition(sessions: Sequence[Examined]) -> bool:
    """Are all held against one and the same edition?"""
    return len({(one.ruleset.id, one.ruleset.digest) for one in sessions}) < 2


def labels(sessions: Sequence[Examined]) -> tuple[str, ...]:
    """A short name for each session, no two alike: the dog, then evaluator, day, file where needed."""
    names = [one.dog for one in sessions]
    for more in (
        [one.evaluator for one in sessions],
        [one.day for one in sessions],
        [one.name for one in sessions],
        [f"no. {number}" for number in range(1, len(sessions) + 1)],
    ):
        counts = Counter(names)
        if max(counts.values(), default=1) == 1:
            break
        tells = {name: {m for n, m in zip(names, more, strict=True) if n == name} for name in counts}
        names = [
            f"{name}, {extra}" if extra and len(tells[name]) > 1 else name
            for name, extra in zip(names, more, strict=True)
        ]
    return tuple(names)
