"""What a session says at one point, in words and as something that can be compared."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from hands_on.compare.examined import Examined
from hands_on.exam.answers import Answers
from hands_on.exam.dentition import FULL, place_name
from hands_on.exam.session import Choice, Grade, NoteFinding, Teeth
from hands_on.measure.units import convert, format_measured
from hands_on.ruleset.base import DEGREES, Side
from hands_on.ruleset.points import (
    ChoicePoint,
    GradePoint,
    MeasurePoint,
    Point,
    ScalePoint,
    TeethPoint,
    faults_of,
)

__all__ = ["AS_ASKED", "Answer", "State", "answer_at", "plain_answer", "scale_of"]

State = Literal["answered", "skipped", "open"]

AS_ASKED = "as asked"


@dataclass(frozen=True)
class Answer:
    """An answer at a point; numbers are in the point's own unit."""

    point: str
    state: State
    words: str = ""
    """As people say it; for a skip the reason."""
    unsure: bool = False
    too_young: str = ""
    """Why it cannot be judged at that age; empty when it can."""
    value: float | None = None
    u: float | None = None
    u_lasting: float | None = None
    """The part of u that more takes by the same hand do not reduce."""
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


_Departure = Grade | NoteFinding


def answer_at(one: Examined, point: Point) -> Answer:
    """What `one` says at `point`; findings accepted from notes count where their fault belongs."""
    found = plain_answer(one, point)
    return replace(found, too_young=_age(one, point, found)) if found.given else found


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
        return Answer(point.id, "open") if reason is None else Answer(point.id, "skipped", reason)
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
    value, u, lasting = (
        convert(x, measured.canonical, point.unit) for x in (pooled.value, pooled.u, pooled.u_lasting)
    )
    words = format_measured(value, u, point.unit)
    if len(measured.sides) > 1:
        each = (
            f"{side or 'no side said'} {convert(single.value, measured.canonical, point.unit):.4g}"
            for side, single in measured.sides.items()
        )
        words += f" ({', '.join(each)})"
    return Answer(
        point.id,
        "answered",
        words,
        value=value,
        u=u,
        u_lasting=min(lasting, u),
        unit=point.unit,
    )


def _graded(one: Examined, point: GradePoint, grades: Sequence[Grade]) -> Answer | None:
    noted = [row for row in one.noted.get(point.id, ()) if row.fault not in {grade.fault for grade in grades}]
    rows: list[_Departure] = [*grades, *noted]
    if not rows:
        return None
    seen = [row for row in rows if row.fault is not None and row.status != "absent"]
    ruled_out = [row.fault for row in rows if row.fault is not None and row.status == "absent"]
    faults = [row.fault for row in seen if row.fault is not None]
    words = [_words(one, row) for row in seen] or [AS_ASKED]
    words += [f"no {_small(one.ruleset.label(fault))}" for fault in ruled_out]
    places = _places(point, seen)
    return Answer(
        point.id,
        "answered",
        "; ".join(dict.fromkeys(words)),
        unsure=any(row.status == "unsure" for row in rows),
        position=places,
        category=" + ".join(sorted(set(faults))) or AS_ASKED,
        faults=tuple(dict.fromkeys(faults)),
    )


def _places(point: GradePoint, seen: Iterable[_Departure]) -> int | None:
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


def _words(one: Examined, row: _Departure) -> str:
    parts = [one.ruleset.label(row.fault or ""), row.degree or "", row.side or ""]
    parts += ["unsure"] if row.status == "unsure" else []
    return ", ".join(filter(None, [_small(parts[0]), *parts[1:]]))


def _small(label: str) -> str:
    """A label within a sentence: its first letter small, unless it is one of several capitals."""
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]


def _age(one: Examined, point: Point, answer: Answer) -> str:
    """Why an answer cannot be judged yet; empty when something in it can."""
    if isinstance(point, MeasurePoint):
        return one.measures.by_point[point.id].too_young
    reasons = []
    for fault in answer.faults or (
        faults_of(point)[:1] if isinstance(point, TeethPoint) else faults_of(point)
    ):
        known = one.ruleset.faults.get(fault)
        reasons.append(one.circumstances.too_young(known.too_young) if known is not None else "")
        if not reasons[-1]:
            return ""
    return reasons[0] if reasons else ""


def _step(grades: Sequence[Grade], point: ScalePoint) -> Answer | None:
    given = [grade for grade in grades if grade.step is not None]
    if not given:
        asked = any(grade.as_asked for grade in grades)
        middle = next((step.value for step in point.steps if step.fault is None), None)
        return Answer(point.id, "answered", AS_ASKED, position=middle) if asked else None
    last = given[-1]
    step = next((step for step in point.steps if step.value == last.step), None)
    label = step.label if step is not None else "no such step"
    faults = (step.fault,) if step is not None and step.fault else ()
    return Answer(
        point.id,
        "answered",
        label if label.startswith(str(last.step)) else f"{last.step}: {label}",
        unsure=last.status == "unsure",
        position=last.step if step is not None else None,
        category=str(last.step),
        faults=faults,
    )


def _chosen(choices: Sequence[Choice], point: ChoicePoint) -> Answer | None:
    given = [choice for choice in choices if choice.status != "absent"]
    if not given:
        return None
    named = {option.id: option.label for option in point.options}
    by_side: dict[Side | None, list[str]] = {}
    for choice in given:
        by_side.setdefault(choice.side, []).extend(choice.choice)
    words = []
    for side, names in by_side.items():
        said = "; ".join(_small(named.get(name, name)) for name in dict.fromkeys(names))
        words.append(f"{side}: {said}" if side else said)
    chosen = {name for names in by_side.values() for name in names}
    faults = [option.fault for option in point.options if option.fault and option.id in chosen]
    codes = [f"{side or ''}:{'+'.join(sorted(set(names)))}" for side, names in by_side.items()]
    return Answer(
        point.id,
        "answered",
        "; ".join(words),
        unsure=any(choice.status == "unsure" for choice in given),
        category=" ".join(sorted(codes)).removeprefix(":"),
        faults=tuple(dict.fromkeys(faults)),
    )


_CHART = ("missing", "unseen", "worn", "broken", "extra", "milk")


def _teeth(chart: Teeth | None, point: TeethPoint) -> Answer | None:
    if chart is None:
        return None
    parts = []
    for name in _CHART:
        numbers = sorted(set(getattr(chart, name)))
        if numbers:
            shown = [f"{number} {place_name(number)}" for number in numbers[:4]]
            shown += [f"and {len(numbers) - 4} more"] if len(numbers) > 4 else []
            parts.append(f"{name} {', '.join(shown)}")
    codes = [f"{name}:{'+'.join(map(str, sorted(set(getattr(chart, name)))))}" for name in _CHART]
    lacking = (bool(chart.missing), bool(chart.worn or chart.broken), bool(chart.extra))
    return Answer(
        point.id,
        "answered",
        "; ".join(parts) or f"all {FULL} there and sound",
        unsure=bool(chart.unseen),
        category=" ".join(codes),
        faults=tuple(fault for fault, there in zip(faults_of(point), lacking, strict=True) if there),
    )
