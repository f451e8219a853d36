"""What was seen, felt, chosen and noted, and what follows from the dog alone, as departures."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from typing import Any

from hands_on.evaluate.alarms.recorded import (
    NoChoice,
    NoScale,
    NoSuchAnswer,
    NoSuchStep,
    OfOtherSex,
    SeveralAnswers,
    UnknownFault,
    UnknownPoint,
)
from hands_on.evaluate.circumstances import Asking, Circumstances, Lacking
from hands_on.evaluate.departure import Affirmed, Called, Departure
from hands_on.evaluate.reasons import Reason, said
from hands_on.evaluate.result import Alarm
from hands_on.exam.answers import place_of
from hands_on.exam.session import Choice, Grade, Note, Record, Session
from hands_on.frozen import dataclass
from hands_on.ruleset.base import Sex, Side
from hands_on.ruleset.points import ChoicePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Observed", "observe", "of_dog"]


@dataclass(frozen=True)
class Observed:
    """Departures from answers, points graded as asked for, and what could not be understood."""

    departures: tuple[Departure, ...]
    affirmed: tuple[Affirmed, ...]
    alarms: tuple[Alarm, ...]


@dataclass
class _Seen:
    """What the answers read so far give."""

    departures: list[Departure] = field(default_factory=list)
    affirmed: list[Affirmed] = field(default_factory=list)
    alarms: list[Alarm] = field(default_factory=list)


def observe(ruleset: Ruleset, session: Session) -> Observed:
    """The answers of a session (amendments already put in)."""
    found = _Seen()
    for grade in session.grades:
        _grade(found, ruleset, grade)
    for choice in session.choices:
        _choice(found, ruleset, choice)
    for note in session.notes:
        _note(found, ruleset, note)
    _one_answer(found, ruleset, session.choices)
    _unknown_points(found, ruleset, (*session.grades, *session.choices))
    _unknown_faults(found, ruleset)
    _of_other_sex(found, ruleset, session.dog.sex)
    return Observed(tuple(found.departures), tuple(found.affirmed), tuple(found.alarms))


def _of_other_sex(found: _Seen, ruleset: Ruleset, sex: Sex | None) -> None:
    """Take out, and tell, what only a dog of the other sex can have: most likely a slip."""
    if sex is None:
        return
    kept = []
    for row in found.departures:
        known = ruleset.faults.get(row.fault)
        if known is None or known.only_sex in (None, sex):
            kept.append(row)
        else:
            found.alarms.append(Alarm("unknown-point", row.points, OfOtherSex(row.fault, sex)))
    found.departures = kept


def of_dog(ruleset: Ruleset, circumstances: Circumstances) -> tuple[tuple[Departure, ...], Lacking]:
    """Faults that follow from what is known of the dog alone; and what was not known for some rule."""
    asking = Asking(circumstances)
    found: list[Departure] = []
    for rule in ruleset.edition.follows:
        points = ruleset.points_of_fault.get(rule.fault, ())[:1]
        if not asking.holds(rule.when, points):
            continue
        called = None
        if rule.class_ is not None:
            switch = next(iter(rule.when.switch or ()), "")
            called = Called(rule.class_, rule.source, rule.reading, (), switch)
        reasons = (*(said(rule.text) or (Reason("of-dog"),)), *said(rule.note))
        found.append(
            Departure(
                rule.fault,
                "dog",
                points,
                rule.degree,
                detail=rule.detail,
                called=called,
                reasons=reasons,
            )
        )
    return tuple(found), asking.lacking


def _grade(found: _Seen, ruleset: Ruleset, grade: Grade) -> None:
    if grade.as_asked:
        if grade.status == "present":
            found.affirmed.append(Affirmed(grade.point, grade.side))
        return
    if grade.fault is not None:
        found.departures.append(
            Departure(
                grade.fault, "grade", (grade.point,), grade.degree, grade.side, grade.status, _detail(grade)
            )
        )
        return
    point = ruleset.points.get(grade.point)
    if point is None:
        return
    if not isinstance(point, ScalePoint):
        found.alarms.append(Alarm("unknown-point", (grade.point,), NoScale(grade.point)))
        return
    step = next((step for step in point.steps if step.value == grade.step), None)
    if step is None:
        steps = tuple(step.value for step in point.steps)
        about = NoSuchStep(grade.point, grade.step, steps)
        found.alarms.append(Alarm("unknown-point", (grade.point,), about))
    elif step.fault is None:
        found.affirmed.append(Affirmed(grade.point, grade.side))
    else:
        degree = grade.degree or step.degree
        found.departures.append(
            Departure(step.fault, "grade", (grade.point,), degree, grade.side, grade.status, _detail(grade))
        )


def _choice(found: _Seen, ruleset: Ruleset, choice: Choice) -> None:
    point = ruleset.points.get(choice.point)
    if point is None:
        return
    if not isinstance(point, ChoicePoint):
        found.alarms.append(Alarm("unknown-point", (choice.point,), NoChoice(choice.point, choice.choice)))
        return
    options = {option.id: option for option in point.options}
    for name in choice.choice:
        option = options.get(name)
        if option is None:
            about = NoSuchAnswer(choice.point, name, tuple(options))
            found.alarms.append(Alarm("unknown-point", (choice.point,), about))
        elif option.fault is None:
            if choice.status == "present" and not option.beside and _judged(ruleset, point):
                found.affirmed.append(Affirmed(choice.point, choice.side))
        else:
            if name == point.as_asked and choice.status == "present":
                found.affirmed.append(Affirmed(choice.point, choice.side))
            found.departures.append(
                Departure(
                    option.fault,
                    "choice",
                    (choice.point,),
                    choice.degree or option.degree,
                    choice.side or option.side,
                    choice.status,
                    _detail(choice) or option.detail,
                )
            )


def _judged(ruleset: Ruleset, point: ChoicePoint) -> bool:
    """Does the edition say what is right here? Not of what is only seen, where it gives that no meaning."""
    return not point.instead_of or point.id in ruleset.edition.seen


def _note(found: _Seen, ruleset: Ruleset, note: Note) -> None:
    for row in note.findings:
        place = place_of(ruleset, note, row)
        found.departures.append(
            Departure(
                row.fault,
                "note",
                (place,) if place else (),
                row.degree,
                row.side,
                row.status,
                row.detail,
                reasons=(Reason("worse-side", row.worse),) if row.worse else (),
            )
        )


def _detail(row: Record) -> str | None:
    """A place or form written by hand beside an answer: `detail = "toes"`."""
    extra: dict[str, Any] = row.model_extra or {}
    detail = extra.get("detail")
    return detail if isinstance(detail, str) and detail else None


def _one_answer(found: _Seen, ruleset: Ruleset, choices: Iterable[Choice]) -> None:
    """Two answers at a point where only one can hold."""
    given: dict[tuple[str, Side | None], dict[str, None]] = {}
    for choice in choices:
        point = ruleset.points.get(choice.point)
        if isinstance(point, ChoicePoint) and not point.several and choice.status == "present":
            # Left and right may differ where the point has sides.
            side = choice.side if point.sides and choice.side in ("left", "right") else None
            given.setdefault((choice.point, side), {}).update(dict.fromkeys(choice.choice))
    for (name, _), answers in given.items():
        if len(answers) > 1:
            found.alarms.append(Alarm("contradiction", (name,), SeveralAnswers(name, tuple(answers))))


def _unknown_points(found: _Seen, ruleset: Ruleset, rows: Iterable[Grade | Choice]) -> None:
    for name in dict.fromkeys(row.point for row in rows):
        if name not in ruleset.points:
            found.alarms.append(Alarm("unknown-point", (name,), UnknownPoint(name)))


def _unknown_faults(found: _Seen, ruleset: Ruleset) -> None:
    for name in dict.fromkeys(row.fault for row in found.departures):
        if name not in ruleset.faults:
            points = next(row.points for row in found.departures if row.fault == name)
            found.alarms.append(Alarm("unknown-point", points, UnknownFault(name)))
