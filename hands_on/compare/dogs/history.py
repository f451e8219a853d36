"""One dog over several examinations: each point over age."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hands_on.compare.answer import answer_at
from hands_on.compare.examined import Examined, same_dog

__all__ = ["History", "Moment", "Thread", "history"]


@dataclass(frozen=True)
class Moment:
    """What was said at one age."""

    session: str
    date: str
    age: float | None
    evaluator: str
    words: str
    value: float | None
    """The measurement in the thread's unit, or the place on the scale."""
    u: float | None
    too_young: bool


@dataclass(frozen=True)
class Thread:
    """One point over all examinations that answered it, from the earliest."""

    point: str
    label: str
    region: str
    kind: str
    unit: str
    moments: tuple[Moment, ...]

    @property
    def drawn(self) -> tuple[tuple[float, float, float], ...]:
        """Age, value and u of what can be drawn over age."""
        return tuple(
            (one.age, one.value, one.u or 0.0)
            for one in self.moments
            if one.age is not None and one.value is not None
        )


@dataclass(frozen=True)
class History:
    """All points of a dog that were answered more than once."""

    dog: str
    sessions: tuple[Examined, ...]
    """From the earliest."""
    threads: tuple[Thread, ...]

    def as_json(self) -> dict[str, Any]:
        """The history as JSON."""
        return {
            "dog": self.dog,
            "points": [
                {
                    "id": thread.point,
                    "label": thread.label,
                    "unit": thread.unit,
                    "moments": [
                        {
                            "session": one.session,
                            "date": one.date,
                            "age_months": one.age,
                            "evaluator": one.evaluator,
                            "words": one.words,
                            "value": one.value,
                            "u": one.u,
                            "too_young": one.too_young,
                        }
                        for one in thread.moments
                    ],
                }
                for thread in self.threads
            ],
        }


def history(sessions: Sequence[Examined]) -> History:
    """The history of the dog of the last session; sessions of other dogs are left out.

    Raises ValueError without any session.
    """
    if not sessions:
        raise ValueError("a history needs a session")
    dog = sessions[-1]
    own = sorted((one for one in sessions if same_dog(one, dog)), key=lambda one: one.order_key) or [dog]
    points = {point.id: point for one in own for point in one.ruleset.points.values()}
    latest = own[-1].ruleset.points
    order = [*latest, *(name for name in points if name not in latest)]
    threads = []
    for name in order:
        point = latest.get(name, points[name])
        moments = []
        unit = ""
        for one in own:
            at = one.ruleset.points.get(name)
            if at is None or at.kind != point.kind:
                continue
            answer = answer_at(one, at)
            if not answer.given or (unit and answer.unit != unit):
                continue
            unit = answer.unit
            value = answer.value if answer.value is not None else answer.position
            moments.append(
                Moment(
                    one.name,
                    one.day,
                    one.age,
                    one.evaluator,
                    answer.words,
                    None if value is None else float(value),
                    answer.u,
                    bool(answer.too_young),
                )
            )
        if len(moments) > 1:
            threads.append(Thread(name, point.label, point.region, point.kind, unit, tuple(moments)))
    return History(dog.dog, tuple(own), tuple(threads))
