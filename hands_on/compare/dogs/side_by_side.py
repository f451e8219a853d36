"""Two to six sessions side by side: every point in the order of the walk, proportions, findings, order.

Takes and grades belong to the dog and are compared under whatever editions the sessions were held; classes,
and findings that an edition draws from its limits, are compared only within one edition.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from typing import Literal

from hands_on.compare.answer import Answer, Measured, answer_at
from hands_on.compare.dogs.differ import difference
from hands_on.compare.dogs.findings import Findings, findings_of
from hands_on.compare.dogs.order import order
from hands_on.compare.dogs.order_found import SEED, Order
from hands_on.compare.dogs.together import Table, judged_together
from hands_on.compare.dogs.two_answers import (
    hand_correlation,
    measured_difference,
    too_young_to_judge,
    uncompared,
)
from hands_on.compare.dogs.verdicts import Difference
from hands_on.compare.examined import Examined, labels, one_edition, same_dog, same_evaluator
from hands_on.evaluate.measures import Measures
from hands_on.evaluate.values import Incomputable, Reading, readings, unit_of
from hands_on.exam.walk import stops
from hands_on.frozen import dataclass
from hands_on.ruleset.labels import Label, label_of
from hands_on.ruleset.points import Point
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["MOST", "ComparedTrait", "Remark", "SideBySide", "WrongNumber", "side_by_side", "traits"]

MOST = 6
"""Sessions that are compared at once."""


Remark = Literal["different-editions", "one-dog-twice", "different-ages", "one-hand"]
"""What must be borne in mind of all that is compared."""


class WrongNumber(ValueError):
    """Fewer than two sessions, or more than `MOST`; `given` is how many."""

    def __init__(self, given: int) -> None:
        super().__init__(given)
        self.given = given


@dataclass(frozen=True)
class ComparedTrait:
    """One point, or one proportion, over all sessions."""

    id: str
    named: Label
    region: str
    kind: str
    """`measure`, `grade`, `scale`, `choice`, `teeth` or `proportion`."""
    unit: str
    answers: tuple[Answer, ...]
    differences: tuple[Difference, ...]
    """Of each session with each later one, in order."""

    @property
    def headline(self) -> Difference | None:
        """The difference that matters most: a real one before others, then the widest."""
        compared = [one for one in self.differences if one.verdict is not None]
        return max(compared, key=_weight, default=None)

    @property
    def differs(self) -> bool:
        """Do the sessions say different things here?"""
        return any(one.differs for one in self.differences)

    @property
    def real(self) -> bool:
        """Do some of them differ by more than error gives in the whole table?"""
        return any(one.verdict in ("real", "disagree") for one in self.differences)

    @property
    def same(self) -> bool:
        """Do all say something here, and the same?"""
        return not self.differs and all(one.given for one in self.answers)

    @property
    def given(self) -> bool:
        """Does anybody say anything here?"""
        return any(one.given for one in self.answers)


@dataclass(frozen=True)
class SideBySide:
    """Sessions compared."""

    sessions: tuple[Examined, ...]
    dogs: tuple[str, ...]
    """A name for each, no two alike."""
    regions: tuple[tuple[str, str], ...]
    """Ids and labels in the order of the walk."""
    rows: tuple[ComparedTrait, ...]
    """Points in the order of the walk."""
    proportions: tuple[ComparedTrait, ...]
    findings: Findings
    order: Order
    remarks: tuple[Remark, ...]
    table: Table
    """How points and proportions were judged together."""

    def in_region(
        self, region: str, *, only_real: bool = False, only_different: bool = False
    ) -> list[ComparedTrait]:
        """The rows of a region; on wish only those that differ really, or at all."""
        rows = [row for row in self.rows if row.region == region]
        if only_real:
            rows = [row for row in rows if row.real]
        return [row for row in rows if row.differs] if only_different else rows


def side_by_side(sessions: Sequence[Examined], *, seed: str = SEED) -> SideBySide:
    """Compare two to six sessions; `seed` fixes the draws of the order.

    Raises WrongNumber for any other number.
    """
    if not 2 <= len(sessions) <= MOST:
        raise WrongNumber(len(sessions))
    rows, proportions, table = traits(sessions)
    return SideBySide(
        sessions=tuple(sessions),
        dogs=labels(sessions),
        regions=_regions(sessions),
        rows=rows,
        proportions=proportions,
        findings=findings_of(sessions),
        order=order(sessions, seed=seed),
        remarks=_remarks(sessions),
        table=table,
    )


def traits(
    sessions: Sequence[Examined],
) -> tuple[tuple[ComparedTrait, ...], tuple[ComparedTrait, ...], Table]:
    """Points in the order of the walk, proportions, and how all of them were judged together."""
    rows = [_point_row(sessions, point) for point in _points(sessions)]
    every = [*rows, *_proportions(sessions)]
    together, table = judged_together([row.differences for row in every], sessions)
    every = [replace(row, differences=found) for row, found in zip(every, together, strict=True)]
    return tuple(every[: len(rows)]), tuple(every[len(rows) :]), table


def _weight(one: Difference) -> tuple[bool, float]:
    size = abs(one.difference or 0.0)
    return one.verdict in ("real", "different", "disagree"), size / one.sdc if one.sdc else size


def _regions(sessions: Sequence[Examined]) -> tuple[tuple[str, str], ...]:
    found = {region.id: region.label for one in sessions for region in one.ruleset.regions}
    return tuple(found.items())


def _points(sessions: Sequence[Examined]) -> list[Point]:
    """Points that some walk asks for or some session answers, in the order of the first edition.

    A point that only a later edition has stands behind the last one of its region.
    """
    wanted: dict[str, Point] = {}
    for one in sessions:
        wanted.update((stop.point.id, stop.point) for stop in stops(one.ruleset, one.session))
        known = one.ruleset.points
        session = one.session
        answered = [row.point for row in session.takes] + [row.point for row in session.grades]
        answered += [row.point for row in session.choices]
        wanted.update((name, known[name]) for name in answered if name in known)
    first = sessions[0].ruleset
    order_of = {name: index for index, name in enumerate(first.points)}
    regions = {region: index for index, (region, _) in enumerate(_regions(sessions))}
    chosen = [first.points.get(name, point) for name, point in wanted.items()]
    return sorted(
        chosen, key=lambda point: (regions.get(point.region, 99), order_of.get(point.id, len(order_of)))
    )


def _point_row(sessions: Sequence[Examined], point: Point) -> ComparedTrait:
    own = [one.ruleset.points.get(point.id) for one in sessions]
    answers = tuple(
        answer_at(one, at) if at is not None else Answer(point.id, "open")
        for one, at in zip(sessions, own, strict=True)
    )
    differences = tuple(
        difference(
            (sessions[a], sessions[b]), (own[a] or point, own[b] or point), (answers[a], answers[b]), (a, b)
        )
        for a, b in combinations(range(len(sessions)), 2)
    )
    unit = next((answer.unit for answer in answers if answer.unit), "")
    return ComparedTrait(point.id, Label(point.label), point.region, point.kind, unit, answers, differences)


def _proportions(sessions: Sequence[Examined]) -> list[ComparedTrait]:
    """Values computed from measurements that at least two sessions allow: the named, and those of limits."""
    found: list[ComparedTrait] = []
    known: dict[str, tuple[str, Label, Value]] = {}
    for one in sessions:
        for entry in one.ruleset.derived.values():
            known.setdefault(entry.name, (entry.id, Label(entry.label), entry))
        for limit in one.ruleset.edition.limits:
            if limit.measure is None:
                known.setdefault(limit.name, (limit.name, label_of(one.ruleset, limit), limit))
    for name, named, value in known.values():
        each = [_reading(one.ruleset, one.measures, value) for one in sessions]
        if sum(reading is not None for reading in each) < 2:
            continue
        answers = tuple(_proportion(name, reading) for reading in each)
        unit = next(answer.unit for answer in answers if answer.unit)
        differences = []
        for a, b in combinations(range(len(sessions)), 2):
            first, second = each[a], each[b]
            if first is None or second is None:
                differences.append(uncompared((a, b), "not-computed"))
                continue
            shared = hand_correlation(answers[a], answers[b], same_evaluator(sessions[a], sessions[b]))
            made = measured_difference(answers[a], answers[b], unit, shared, (a, b))
            young = first.too_young or second.too_young
            if young is not None and made.verdict == "real":
                made = too_young_to_judge(made, young)
            differences.append(made)
        found.append(ComparedTrait(name, named, "", "proportion", unit, answers, tuple(differences)))
    return found


def _reading(ruleset: Ruleset, measures: Measures, value: Value) -> Reading | None:
    try:
        return readings(ruleset, measures, value, unit_of(ruleset, value))[0]
    except Incomputable:
        return None


def _proportion(name: str, reading: Reading | None) -> Answer:
    if reading is None:
        return Answer(name, "open")
    return Answer(
        name,
        "answered",
        Measured(),
        too_young=reading.too_young,
        value=reading.value,
        u=reading.u,
        u_lasting=reading.u_lasting,
        u_shared=reading.u_shared,
        dof=math.inf if reading.dof is None else reading.dof,
        contradictory=bool(reading.contradictory),
        unit=reading.unit,
    )


def _remarks(sessions: Sequence[Examined]) -> tuple[Remark, ...]:
    remarks: list[Remark] = []
    if not one_edition(sessions):
        remarks.append("different-editions")
    pairs = list(combinations(sessions, 2))
    if any(same_dog(a, b) for a, b in pairs):
        remarks.append("one-dog-twice")
    if any(not same_dog(a, b) and _ages_apart(a, b) for a, b in pairs):
        remarks.append("different-ages")
    if any(same_evaluator(a, b) and _both_measured(a, b) for a, b in pairs):
        remarks.append("one-hand")
    return tuple(remarks)


def _both_measured(a: Examined, b: Examined) -> bool:
    return any(name in b.measures.by_point for name in a.measures.by_point)


def _ages_apart(a: Examined, b: Examined) -> bool:
    if a.age is None or b.age is None:
        return False
    return min(a.age, b.age) < 18 and abs(a.age - b.age) > 3
