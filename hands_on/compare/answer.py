"""What a session says at one point, as something that can be compared; `wording.answers` says it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace
from typing import Literal

from hands_on.compare.examined import Examined
from hands_on.exam.answers import Answers
from hands_on.exam.session import Choice, Grade, NoteFinding, Teeth
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.measure.units import convert
from hands_on.ruleset.base import DEGREES, Degree, Side
from hands_on.ruleset.points import (
    ChoicePoint,
    GradePoint,
    MeasurePoint,
    Point,
    ScalePoint,
    TeethPoint,
    faults_of,
)

__all__ = [
    "AS_ASKED",
    "Answer",
    "Charted",
    "Chosen",
    "Departure",
    "Graded",
    "Measured",
    "State",
    "Stepped",
    "answer_at",
    "plain_answer",
    "scale_of",
]

State = Literal["answered", "skipped", "open"]

AS_ASKED = "as asked"
"""The category of an answer that names no departure."""


@dataclass(frozen=True)
class Departure:
    """A departure named at a graded point."""

    fault: str
    degree: Degree | None
    side: Side | None
    unsure: bool


@dataclass(frozen=True)
class Measured:
    """A measurement, or a proportion computed; each side's mean where it was taken on both."""

    sides: tuple[tuple[Side | None, float], ...] = ()


@dataclass(frozen=True)
class Graded:
    """What departs at a point, each departure once, and what was ruled out; neither: as asked."""

    departures: tuple[Departure, ...] = ()
    ruled_out: tuple[str, ...] = ()


@dataclass(frozen=True)
class Stepped:
    """A step of a scale; None where the point was said to be as asked."""

    step: int | None


@dataclass(frozen=True)
class Chosen:
    """The options chosen on each side."""

    options: tuple[tuple[Side | None, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Charted:
    """Teeth by what is amiss with them, in the order of the chart; empty: all there and sound."""

    teeth: Mapping[str, tuple[int, ...]] = field(default_factory=dict, hash=False)


Said = Measured | Graded | Stepped | Chosen | Charted


@dataclass(frozen=True)
class Answer:
    """An answer at a point; numbers are in the point's own unit."""

    point: str
    state: State
    said: Said | None = None
    """What was said; None where the point was skipped or is open."""
    skipped_because: str = ""
    """Why it was skipped, as typed."""
    unsure: bool = False
    too_young: TooYoung | None = None
    """Why it cannot be judged at that age; None when it can."""
    value: float | None = None
    u: float | None = None
    u_lasting: float | None = None
    """The part of u that more takes by the same hand do not reduce."""
    u_shared: float | None = None
    """The part of u that all readings of one hand have in common."""
    dof: float = math.inf
    """Effective degrees of freedom of u."""
    contradictory: bool = False
    """The takes cannot all be right: nothing is compared."""
    unit: str = ""
    position: int | None = None
    """Place on the point's ordered scale: 0 as asked, less below, more above, by degree; or the step."""
    category: str | None = None
    """The answer as one of several without an order."""
    faults: tuple[str, ...] = ()
    """The departures that the answer names."""

    @property
    def given(self) -> bool:
        """Is there something to compare?"""
        return self.state == "answered"


_Recorded = Grade | NoteFinding


def answer_at(one: Examined, point: Point) -> Answer:
    """What `one` says at `point`; findings accepted from notes count where their fault belongs.

    It is worked out once for each point.
    """
    known = one.said.get(point.id)
    if known is None or known[0] is not point:
        found = plain_answer(one, point)
        young = _age(one, point, found) if found.given else None
        known = one.said[point.id] = (point, replace(found, too_young=young) if young else found)
    return known[1]


def plain_answer(one: Examined, point: Point) -> Answer:
    """As `answer_at`, without asking whether it can be judged at the dog's age."""
    answers = one.answered.get(point.id, Answers())
    if isinstance(point, MeasurePoint):
        found = _measured(one, point)
    elif isinstance(point, TeethPoint):
        found = _teeth(one.session.teeth, point)
    elif isinstance(point, ChoicePoint):
        found = _chosen(answers.choices, point)
    elif isinstance(point, ScalePoint):
        found = _step(answers.grades, point)
    else:
        found = _graded(one, point, answers.grades)
    if found is None:
        reason = one.skipped(point)
        return (
            Answer(point.id, "open")
            if reason is None
            else Answer(point.id, "skipped", skipped_because=reason)
        )
    return found


def scale_of(point: Point) -> tuple[int, ...] | None:
    """Every place on a point's ordered scale, in order; None where its answers have no order."""
    if isinstance(point, ScalePoint):
        return tuple(sorted(step.value for step in point.steps))
    if isinstance(point, GradePoint):
        steps = len(DEGREES)
        if point.less or point.more:
            return tuple(range(-steps if point.less else 0, (steps if point.more else 0) + 1))
        if len(point.other) == 1:
            return tuple(range(steps + 1))
    return None


def _measured(one: Examined, point: MeasurePoint) -> Answer | None:
    measured = one.measures.by_point.get(point.id)
    if measured is None:
        return None
    pooled = measured.pooled
    value, u, lasting, shared = (
        convert(x, measured.canonical, point.unit)
        for x in (pooled.value, pooled.u, pooled.u_lasting, pooled.u_shared)
    )
    each = (
        (side, convert(single.value, measured.canonical, point.unit))
        for side, single in measured.sides.items()
    )
    return Answer(
        point.id,
        "answered",
        Measured(tuple(each) if len(measured.sides) > 1 else ()),
        value=value,
        u=u,
        u_lasting=min(lasting, u),
        u_shared=min(shared, u),
        dof=pooled.dof,
        contradictory=pooled.contradictory,
        unit=point.unit,
    )


def _graded(one: Examined, point: GradePoint, grades: Sequence[Grade]) -> Answer | None:
    noted = [row for row in one.noted.get(point.id, ()) if row.fault not in {grade.fault for grade in grades}]
    rows: list[_Recorded] = [*grades, *noted]
    if not rows:
        return None
    seen = [row for row in rows if row.fault is not None and row.status != "absent"]
    ruled_out = [row.fault for row in rows if row.fault is not None and row.status == "absent"]
    faults = [row.fault for row in seen if row.fault is not None]
    departures = (
        Departure(row.fault, row.degree, row.side, row.status == "unsure")
        for row in seen
        if row.fault is not None
    )
    places = _places(point, seen)
    return Answer(
        point.id,
        "answered",
        Graded(tuple(dict.fromkeys(departures)), tuple(dict.fromkeys(ruled_out))),
        unsure=any(row.status == "unsure" for row in rows),
        position=places,
        category=" + ".join(sorted(set(faults))) or AS_ASKED,
        faults=tuple(dict.fromkeys(faults)),
    )


def _places(point: GradePoint, seen: Iterable[_Recorded]) -> int | None:
    """Place on the scale; None where a departure lies on no scale, or some lie either way.

    A degree that was not said counts as slight, the least that was said.
    """
    single = point.other[0] if not point.less and not point.more and len(point.other) == 1 else None
    places = []
    for row in seen:
        steps = 1 + (DEGREES.index(row.degree) if row.degree is not None else 0)
        if row.fault in point.less:
            places.append(-steps)
        elif row.fault in point.more or row.fault == single:
            places.append(steps)
        else:
            return None
    if not places:
        return 0 if scale_of(point) is not None else None
    if min(places) < 0 < max(places):
        return None
    return max(places, key=abs)


def _age(one: Examined, point: Point, answer: Answer) -> TooYoung | None:
    """Why an answer cannot be judged yet; None when something in it can."""
    if isinstance(point, MeasurePoint):
        return one.measures.by_point[point.id].too_young
    reasons: list[TooYoung] = []
    for fault in answer.faults or (
        faults_of(point)[:1] if isinstance(point, TeethPoint) else faults_of(point)
    ):
        known = one.ruleset.faults.get(fault)
        young = one.circumstances.too_young(known.too_young) if known is not None else None
        if young is None:
            return None
        reasons.append(young)
    return reasons[0] if reasons else None


def _step(grades: Sequence[Grade], point: ScalePoint) -> Answer | None:
    given = [grade for grade in grades if grade.step is not None]
    if not given:
        asked = any(grade.as_asked for grade in grades)
        middle = next((step.value for step in point.steps if step.fault is None), None)
        return (
            Answer(point.id, "answered", Stepped(None), position=middle, category=AS_ASKED) if asked else None
        )
    last = given[-1]
    step = next((step for step in point.steps if step.value == last.step), None)
    faults = (step.fault,) if step is not None and step.fault else ()
    return Answer(
        point.id,
        "answered",
        Stepped(last.step),
        unsure=last.status == "unsure",
        position=last.step if step is not None else None,
        category=str(last.step),
        faults=faults,
    )


def _chosen(choices: Sequence[Choice], point: ChoicePoint) -> Answer | None:
    given = [choice for choice in choices if choice.status != "absent"]
    if not given:
        return None
    by_side: dict[Side | None, list[str]] = {}
    for choice in given:
        by_side.setdefault(choice.side, []).extend(choice.choice)
    chosen = {name for names in by_side.values() for name in names}
    faults = [option.fault for option in point.options if option.fault and option.id in chosen]
    codes = [(f"{side}:" if side else "") + "+".join(sorted(set(names))) for side, names in by_side.items()]
    return Answer(
        point.id,
        "answered",
        Chosen(tuple((side, tuple(dict.fromkeys(names))) for side, names in by_side.items())),
        unsure=any(choice.status == "unsure" for choice in given),
        category=" ".join(sorted(codes)),
        faults=tuple(dict.fromkeys(faults)),
    )


_CHART = ("missing", "unseen", "worn", "broken", "extra", "milk")


def _teeth(chart: Teeth | None, point: TeethPoint) -> Answer | None:
    if chart is None:
        return None
    amiss = {name: tuple(sorted(set(getattr(chart, name)))) for name in _CHART if getattr(chart, name)}
    codes = [f"{name}:{'+'.join(map(str, sorted(set(getattr(chart, name)))))}" for name in _CHART]
    lacking = (bool(chart.missing), bool(chart.worn or chart.broken), bool(chart.extra))
    return Answer(
        point.id,
        "answered",
        Charted(amiss),
        unsure=bool(chart.unseen),
        category=" ".join(codes),
        faults=tuple(fault for fault, there in zip(faults_of(point), lacking, strict=True) if there),
    )
