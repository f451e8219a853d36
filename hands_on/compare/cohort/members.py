"""What a cohort needs of one examination, and which examinations are of the cohort; a dog counts once."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence

from hands_on.compare.examined import Examined
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES, Sex
from hands_on.ruleset.labels import Label
from hands_on.ruleset.points import GradePoint

__all__ = ["Found", "Member", "Sized", "Wanted", "counted_once", "member_of"]


@dataclass(frozen=True)
class Found:
    """A fault in one dog, sure, present and not dismissed."""

    fault: str
    named: Label
    cls: str | None
    degree: str | None
    too_young: bool


@dataclass(frozen=True)
class Sized:
    """A measurement or proportion of one dog."""

    id: str
    named: Label
    value: float
    u: float
    unit: str
    too_young: bool
    low: float | None = None
    """What the edition asks of this dog; None for no such end, or where nothing is asked."""
    high: float | None = None
    asked: bool = False
    """Is anything asked of it?"""


@dataclass(frozen=True)
class Member:
    """One examination of one dog, as far as a cohort looks at it."""

    name: str
    """The session's file."""
    dog: str
    """What tells the dog from others."""
    call_name: str
    sex: Sex | None
    born: datetime.date | None
    sire: str
    dam: str
    litter: str
    registered_name: str
    evaluator: str
    day: str
    signed: bool
    edition: str
    """The id of the ruleset."""
    breed: str
    age: float | None
    """Months."""
    looked_for: frozenset[str]
    """Faults that would have been seen: a point that may show them was answered."""
    found: tuple[Found, ...]
    sizes: tuple[Sized, ...]
    graded: int
    """Graded points answered."""
    steps: int
    """The degrees at them added up: 0 as asked, 1 slight and so on."""


@dataclass(frozen=True)
class Wanted:
    """Which dogs are of the cohort; what is empty asks for nothing."""

    litter: str = ""
    sire: str = ""
    dam: str = ""
    kennel: str = ""
    """Any part of the registered name."""
    born_from: int | None = None
    """Years of birth, both ends included."""
    born_to: int | None = None
    evaluator: str = ""
    breed: str = ""
    """Any part of the breed's name; of all its editions."""
    edition: str = ""
    sex: Sex | None = None

    def fits(self, one: Member) -> bool:
        """Is this dog of the cohort? Names are compared without regard to case."""
        year = one.born.year if one.born is not None else None
        return (
            _same(self.litter, one.litter)
            and _same(self.sire, one.sire)
            and _same(self.dam, one.dam)
            and self.kennel.casefold() in one.registered_name.casefold()
            and _same(self.evaluator, one.evaluator)
            and self.breed.casefold() in one.breed.casefold()
            and self.edition in ("", one.edition)
            and self.sex in (None, one.sex)
            and (self.born_from is None or (year is not None and year >= self.born_from))
            and (self.born_to is None or (year is not None and year <= self.born_to))
        )


def _same(wanted: str, name: str) -> bool:
    return not wanted or wanted.strip().casefold() == name.strip().casefold()


def member_of(one: Examined) -> Member:
    """What a cohort needs of an examination."""
    session, evaluation = one.session, one.evaluation
    dog = session.dog
    born = dog.born.isoformat() if dog.born is not None else ""
    graded = steps = 0
    for name, answers in one.answered.items():
        if isinstance(one.ruleset.points.get(name), GradePoint) and answers.grades:
            graded += 1
            steps += max((_step(grade.degree) for grade in answers.grades if _there(grade)), default=0)
    return Member(
        name=one.name,
        dog=f"{one.identity or one.name} {born}".strip(),
        call_name=dog.call_name,
        sex=dog.sex,
        born=dog.born,
        sire=dog.sire,
        dam=dog.dam,
        litter=dog.litter,
        registered_name=dog.registered_name,
        evaluator=one.evaluator,
        day=one.day,
        signed=session.signature is not None,
        edition=one.ruleset.id,
        breed=one.ruleset.edition.breed,
        age=one.age,
        looked_for=frozenset(_looked_for(one)),
        found=tuple(
            Found(row.id, row.named, row.cls, row.degree, row.too_young)
            for row in evaluation.findings
            if row.status == "present" and row.decision != "dismiss"
        ),
        sizes=tuple(_sizes(one)),
        graded=graded,
        steps=steps,
    )


def _there(grade: object) -> bool:
    return getattr(grade, "fault", None) is not None and getattr(grade, "status", "") == "present"


def _step(degree: str | None) -> int:
    return 1 + DEGREES.index(degree) if degree in DEGREES else 1


def _looked_for(one: Examined) -> Iterable[str]:
    answered = set(one.answered) | set(one.noted) | set(one.measures.by_point)
    if one.session.teeth is not None:
        answered |= {name for name, point in one.ruleset.points.items() if point.kind == "teeth"}
    for fault, points in one.ruleset.points_of_fault.items():
        if answered.intersection(points):
            yield fault
    for rule in one.evaluation.rules:
        if rule.judged:
            limits = (limit for limit in one.ruleset.edition.limits if limit.id == rule.id)
            yield from (band.fault for limit in limits for band in limit.bands if band.fault is not None)
    yield from (row.id for row in one.evaluation.findings)


def _sizes(one: Examined) -> Iterable[Sized]:
    rules = {
        rule.measures[0]: rule for rule in one.evaluation.rules if len(rule.measures) == 1 and not rule.sorts
    }
    young = {row.id for row in one.evaluation.measures if row.too_young}
    for row in one.evaluation.measures:
        if row.side is not None and any(
            other.id == row.id and other.side is None for other in one.evaluation.measures
        ):
            continue
        rule = rules.get(row.id)
        known = one.ruleset.points.get(row.id)
        fits = rule is not None and rule.unit == row.unit
        yield Sized(
            row.id,
            Label(known.label if known is not None else row.id),
            row.value,
            row.u,
            row.unit,
            row.too_young,
            rule.low if rule is not None and fits else None,
            rule.high if rule is not None and fits else None,
            fits,
        )
    for rule in one.evaluation.rules:
        if len(rule.measures) > 1 and rule.value is not None and rule.u is not None and not rule.sorts:
            yield Sized(
                rule.id,
                rule.named,
                rule.value,
                rule.u,
                rule.value_unit or rule.unit,
                rule.judged_from is not None or bool(young.intersection(rule.measures)),
                rule.low,
                rule.high,
                not rule.value_unit,
            )


def counted_once(members: Sequence[Member]) -> list[Member]:
    """One examination a dog: a signed one before others, then the latest; in the order first met."""
    kept: dict[str, Member] = {}
    for one in members:
        before = kept.get(one.dog)
        if before is None or (one.signed, one.day) > (before.signed, before.day):
            kept[one.dog] = one
    return list(kept.values())
