"""One dog over several examinations: each point over age."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.examined import Examined, same_dog
from hands_on.frozen import dataclass

__all__ = ["History", "Moment", "Thread", "history"]


@dataclass(frozen=True)
class Moment:
    """What was said at one examination."""

    session: Examined
    answer: Answer
    """Given; a measurement is in the thread's unit."""

    @property
    def value(self) -> float | None:
        """The measurement, or the place on the scale."""
        value = self.answer.value if self.answer.value is not None else self.answer.position
        return None if value is None else float(value)


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
    def moved(self) -> bool:
        """Is it a measurement, or was something else said at one time than at another?"""
        said = [one.answer.said for one in self.moments]
        return self.kind == "measure" or any(one != said[0] for one in said)

    @property
    def drawn(self) -> tuple[tuple[float, float, float], ...]:
        """Age, value and u of what can be drawn over age."""
        return tuple(
            (one.session.age, one.value, one.answer.u or 0.0)
            for one in self.moments
            if one.session.age is not None and one.value is not None
        )


@dataclass(frozen=True)
class History:
    """All points of a dog that were answered more than once."""

    dog: str
    sessions: tuple[Examined, ...]
    """From the earliest."""
    threads: tuple[Thread, ...]


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
            moments.append(Moment(one, answer))
        if len(moments) > 1:
            threads.append(Thread(name, point.label, point.region, point.kind, unit, tuple(moments)))
    return History(dog.dog, tuple(own), tuple(threads))
