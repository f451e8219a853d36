"""A dog comes back: what to look at again and why; what has come of it is in `compare.dogs.changed`.

The earlier answers are for afterwards: while the new ones are given nobody is to see them.
"""

from __future__ import annotations

import datetime
import random
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from hands_on.compare.answer import answer_at
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import Gap
from hands_on.exam.session import Examination, RulesetRef, Session
from hands_on.exam.walk import stops
from hands_on.frozen import dataclass
from hands_on.measure.age import age_months
from hands_on.measure.growth_curves import AGES
from hands_on.ruleset.labels import Label
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point, faults_of
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["AgeNow", "Plan", "PlanItem", "Reason", "ReasonKind", "new_session_from", "plan", "plan_over"]

ReasonKind = Literal[
    "fault",  # found then
    "unsure",  # then, or left undecided by the numbers
    "undecided",
    "too-young",  # a finding that could not be judged then
    "as-asked-young",  # as asked, but at an age at which that says little
    "gap",  # skipped or left open
    "alarm",  # something did not fit together
    "growth",  # heights and weight of a dog that grew, or may have
    "moves",  # condition, coat and the like
    "control",  # as asked then: put in so that the list does not tell where something was found
]

_BLIND: frozenset[ReasonKind] = frozenset({"fault", "unsure", "undecided", "too-young", "alarm", "control"})
"""Reasons that are told alike."""

_ALARMS = ("implausible", "unreadable", "discordant", "drift", "closure", "sides", "contradiction", "unseen")
"""Alarms that ask for another look at the dog."""


@dataclass(frozen=True)
class AgeNow:
    """Whether a dog is old enough by now for what it was too young for."""

    then: float | None
    """Months at the earlier examination."""
    judged_from: float | None = None
    """The least age in months that counts; None where that, or the age now, is not known."""
    enough: bool = False


@dataclass(frozen=True)
class Reason:
    """Why a point is looked at again; it never gives the earlier answer away."""

    kind: ReasonKind
    rule: Label | None = None
    """What the limit is called that could not be judged, or was undecided."""
    age: AgeNow | None = None
    """Of what could not be judged then."""
    gap: Gap | None = None
    """Of a point that was skipped or left open."""
    tells_on: datetime.date | None = None
    """Of what grows: the day from which growth exceeds what two measurements differ by; None: not known."""


@dataclass(frozen=True)
class PlanItem:
    """A point to look at again."""

    point: str
    label: str
    region: str
    reasons: tuple[Reason, ...]

    @property
    def first(self) -> bool:
        """Among what must be looked at; otherwise worth a look, since it was as asked."""
        return any(reason.kind not in ("moves", "as-asked-young") for reason in self.reasons)

    @property
    def left_open(self) -> bool:
        """Nothing but skipped or left open then."""
        return all(reason.kind == "gap" for reason in self.reasons)

    @property
    def blind(self) -> bool:
        """Looked at again for a reason that is not told, since it would give the answer away?"""
        return any(reason.kind in _BLIND for reason in self.reasons)


@dataclass(frozen=True)
class Plan:
    """What to look at again, in the order of the walk."""

    items: tuple[PlanItem, ...]
    dropped: tuple[str, ...] = ()
    """What cannot be looked at again: points that this edition does not ask for."""

    @property
    def points(self) -> tuple[str, ...]:
        """The points that must be looked at, in the order of the walk."""
        return tuple(item.point for item in self.items if item.first)


def plan(
    earlier: Examined,
    ruleset: Ruleset | None = None,
    on: datetime.date | None = None,
    *,
    blind: bool = False,
) -> Plan:
    """What to look at again in the dog of `earlier`, under `ruleset` (default: the same edition) on a day.

    Without `on` it is not told whether the dog is old enough by now. With `blind` as many points that were
    as asked are listed too, so that the list does not tell where something was found.
    """
    now = ruleset or earlier.ruleset
    age = _age(earlier, on)
    found = _Reasons()
    for finding in earlier.evaluation.findings:
        if finding.status == "absent":
            continue
        if finding.too_young:
            found.add(finding.points, Reason("too-young", age=_old_enough(earlier, now, age, finding.id)))
        else:
            found.add(finding.points, Reason("unsure" if finding.status == "unsure" else "fault"))
    for rule in earlier.evaluation.rules:
        if rule.verdict == "not-yet":
            found.add(rule.measures, Reason("too-young", rule=rule.named))
        elif rule.verdict == "undecided" and not rule.optional:
            found.add(rule.measures, Reason("undecided", rule=rule.named))
    for alarm in earlier.evaluation.alarms:
        if alarm.kind in _ALARMS:
            found.add(alarm.points, Reason("alarm"))
    for gap in earlier.evaluation.gaps:
        found.add((gap.point,), Reason("gap", gap=gap))
    walk = {stop.point.id: stop.point for stop in stops(now, earlier.session)}
    for name in _controls(earlier, walk, found) if blind else ():
        found.add((name,), Reason("control"))
    for name, point in walk.items():
        answer = answer_at(earlier, point) if name in earlier.ruleset.points else None
        if answer is None or not answer.given:
            continue
        if answer.unsure:
            found.add((name,), Reason("unsure"))
        if isinstance(point, MeasurePoint) and _grows(point, earlier):
            day = next((one.recheck_on for one in earlier.evaluation.growth if one.id == name), None)
            found.add((name,), Reason("growth", tells_on=day))
        elif answer.too_young:
            old = _old_enough(earlier, now, age, *faults_of(point))
            found.add((name,), Reason("as-asked-young", age=old))
        if _moves(point, earlier):
            found.add((name,), Reason("moves"))
    items = tuple(
        PlanItem(name, point.label, point.region, tuple(found.rows[name]))
        for name, point in walk.items()
        if name in found.rows
    )
    return Plan(items, tuple(earlier.label(name) for name in found.rows if name not in walk))


def plan_over(
    earlier: Sequence[Examined],
    ruleset: Ruleset | None = None,
    on: datetime.date | None = None,
    *,
    blind: bool = False,
) -> Plan:
    """What to look at again after several examinations, the newest first.

    A point that the newest left open is listed for what the one said that answered it last. Raises ValueError
    without any.
    """
    if not earlier:
        raise ValueError("a plan needs an earlier examination")
    newest, *older = earlier
    now = ruleset or newest.ruleset
    found = plan(newest, now, on, blind=blind)
    rows = {item.point: item for item in found.items}
    for one in older:
        for item in plan(one, now, on, blind=blind).items:
            if item.point in rows and rows[item.point].left_open and not item.left_open:
                rows[item.point] = item
    return Plan(tuple(rows[item.point] for item in found.items), found.dropped)


def _controls(earlier: Examined, walk: Mapping[str, Point], found: _Reasons) -> list[str]:
    """As many points that were as asked as there are told blindly: neither can be told from the list.

    Always the same for one examination: they are drawn by its dog and day.
    """
    wanted = sum(any(row.kind in _BLIND for row in rows) for rows in found.rows.values())
    asked = [
        name
        for name, point in walk.items()
        if name not in found.rows
        and isinstance(point, GradePoint)
        and name in earlier.ruleset.points
        and (answer := answer_at(earlier, point)).given
        and not answer.faults
        and not answer.unsure
    ]
    drawn = random.Random(f"{earlier.identity} {earlier.day}")
    return drawn.sample(asked, min(wanted, len(asked)))


class _Reasons:
    """Reasons by point, each kind once, the first said."""

    def __init__(self) -> None:
        self.rows: dict[str, list[Reason]] = {}

    def add(self, points: Iterable[str], reason: Reason) -> None:
        for point in points:
            rows = self.rows.setdefault(point, [])
            known = [row.kind for row in rows]
            if reason.kind not in known and not (reason.kind == "as-asked-young" and "too-young" in known):
                rows.append(reason)


def _age(earlier: Examined, on: datetime.date | None) -> float | None:
    born = earlier.session.dog.born
    return age_months(born, on) if born is not None and on is not None and on >= born else None


def _old_enough(earlier: Examined, ruleset: Ruleset, age: float | None, *faults: str) -> AgeNow:
    """Too young then; and now? The least age counts at which one of the faults can be judged."""
    size = earlier.circumstances.size_class
    ages = [ruleset.faults[fault].too_young for fault in faults if fault in ruleset.faults]
    gates = [getattr(one, size or "giant") for one in ages if one is not None]
    if not gates or age is None:
        return AgeNow(earlier.age)
    least = min(gates)
    return AgeNow(earlier.age, least, age >= least)


def _grows(point: MeasurePoint, earlier: Examined) -> bool:
    """Heights and weight until the dog is grown; anything else that was measured too young."""
    grows = point.id in ("height", "weight") or point.id.endswith("-height")
    grown = earlier.age is not None and earlier.age >= AGES[1]
    return (grows and not grown) or earlier.measures.by_point[point.id].too_young is not None


def _moves(point: Point, earlier: Examined) -> bool:
    """Does all that can be said here move with condition, coat or season? A grown dog's weight does."""
    if point.id == "weight":
        return not (isinstance(point, MeasurePoint) and _grows(point, earlier))
    kinds = {earlier.ruleset.faults[f].stability for f in faults_of(point) if f in earlier.ruleset.faults}
    return kinds == {"changes"}


def new_session_from(earlier: Session, baseline: str, ruleset: Ruleset, evaluator: str = "") -> Session:
    """A new examination of the same dog that goes back to the file `baseline`; no answer is taken over."""
    return Session(
        dog=earlier.dog,
        examination=Examination(
            evaluator=evaluator or earlier.examination.evaluator,
            country=earlier.examination.country,
            purpose=earlier.examination.purpose,
            switches=earlier.examination.switches,
            kind="recheck",
            baseline=baseline,
        ),
        ruleset=RulesetRef(id=ruleset.id, edition=ruleset.edition.edition, digest=ruleset.digest),
    )
