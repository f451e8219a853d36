"""A later examination held against an earlier one of the same dog, point by point, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.dogs.differ import Difference, Verdict, difference
from hands_on.compare.examined import Examined, one_edition, same_dog, same_evaluator
from hands_on.exam.walk import stops
from hands_on.ruleset.points import Point

__all__ = ["Recheck", "Rechecked", "latest_before", "recheck", "rechecked"]


@dataclass(frozen=True)
class Rechecked:
    """One point then and now."""

    point: str
    label: str
    region: str
    then: Answer
    now: Answer
    difference: Difference
    sentence: str

    @property
    def verdict(self) -> Verdict | None:
        """None where one of the two has no answer or they cannot be compared."""
        return self.difference.verdict


@dataclass(frozen=True)
class Recheck:
    """An earlier and a later examination of one dog."""

    earlier: Examined
    later: Examined
    points: tuple[Rechecked, ...]
    """In the order of the walk; points that neither answered are left out."""
    remarks: tuple[str, ...]

    def at(self, point: str) -> Rechecked | None:
        """One point, None where neither examination has it."""
        return next((one for one in self.points if one.point == point), None)

    def as_json(self) -> dict[str, Any]:
        """The verdicts."""
        return {
            "dog": self.later.dog,
            "then": {"session": self.earlier.name, "date": self.earlier.day, "age_months": self.earlier.age},
            "now": {"session": self.later.name, "date": self.later.day, "age_months": self.later.age},
            "points": [
                {
                    "id": one.point,
                    "label": one.label,
                    "then": one.then.words,
                    "now": one.now.words,
                    "difference": one.difference.difference,
                    "verdict": one.verdict,
                    "unexpected": one.difference.unexpected,
                    "sentence": one.sentence,
                }
                for one in self.points
            ],
            "remarks": list(self.remarks),
        }


def recheck(earlier: Examined, later: Examined) -> Recheck:
    """Hold a later examination against an earlier one of the same dog, whichever is given first."""
    if later.order_key < earlier.order_key:
        earlier, later = later, earlier
    rows = []
    for stop in stops(later.ruleset, later.session):
        row = rechecked(earlier, later, stop.point)
        if row.then.given or row.now.given:
            rows.append(row)
    return Recheck(earlier, later, tuple(rows), _remarks(earlier, later))


def rechecked(earlier: Examined, later: Examined, point: Point) -> Rechecked:
    """One point of the later edition, then and now: what is shown once the new answer is given."""
    before = earlier.ruleset.points.get(point.id)
    then = answer_at(earlier, before) if before is not None else Answer(point.id, "open")
    now = answer_at(later, point)
    found = difference((earlier, later), (before or point, point), (then, now))
    return Rechecked(
        point.id,
        point.label,
        point.region,
        then,
        now,
        found,
        _sentence(earlier, later, point, then, now, found),
    )


def _sentence(
    earlier: Examined, later: Examined, point: Point, then: Answer, now: Answer, found: Difference
) -> str:
    at_then, at_now = _when(earlier, later)
    if not then.given:
        return f"{point.label}: not examined {at_then}; {now.words} {at_now}."
    if not now.given:
        return f"{point.label}: {then.words} {at_then}; not examined {at_now}."
    if then.words == now.words and found.verdict == "within-hand-error" and not found.unexpected:
        return f"{point.label}: {now.words} {at_then} and again {at_now}."
    return f"{point.label}: {then.words} {at_then}, {now.words} {at_now}: {found.wording}."


def _when(earlier: Examined, later: Examined) -> tuple[str, str]:
    """How the two are told apart in a sentence: by age, else by day, else by evaluator."""
    if earlier.age is not None and later.age is not None and earlier.age_words != later.age_words:
        return f"at {earlier.age_words}", f"at {later.age_words}"
    if earlier.day != later.day:
        return f"on {earlier.day or 'a day not known'}", f"on {later.day or 'a day not known'}"
    if not same_evaluator(earlier, later):
        return f"by {earlier.evaluator or 'nobody named'}", f"by {later.evaluator or 'nobody named'}"
    return "then", "now"


def _remarks(earlier: Examined, later: Examined) -> tuple[str, ...]:
    remarks = []
    if not same_dog(earlier, later):
        remarks.append("The two files do not name the same dog; nothing here speaks of growth or change.")
    if not same_evaluator(earlier, later):
        remarks.append("Different evaluators: a difference may be between the hands and not in the dog.")
    if not one_edition((earlier, later)):
        remarks.append("Held under different editions: takes and grades are compared, classes are not.")
    if earlier.age is None or later.age is None:
        remarks.append("An age is not known, so growth cannot be told from change.")
    return tuple(remarks)


def latest_before(sessions: Sequence[Examined], later: Examined) -> Examined | None:
    """The last examination of the same dog before `later`."""
    before = [one for one in sessions if same_dog(one, later) and one.order_key < later.order_key]
    return max(before, key=lambda one: one.order_key, default=None)
