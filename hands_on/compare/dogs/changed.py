"""A later examination compared with an earlier one of the same dog, point by point."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.dogs.differ import Difference, Verdict, difference
from hands_on.compare.dogs.earlier_ones import answered_before
from hands_on.compare.dogs.together import judged_together
from hands_on.compare.examined import Examined, one_edition, same_dog, same_evaluator
from hands_on.exam.walk import stops
from hands_on.frozen import dataclass
from hands_on.ruleset.points import Point

__all__ = ["Recheck", "RecheckRemark", "Rechecked", "all_together", "recheck", "rechecked"]


RecheckRemark = Literal["different-dogs", "different-evaluators", "different-editions", "age-not-known"]
"""What must be borne in mind of all verdicts."""


@dataclass(frozen=True)
class Rechecked:
    """One point then and now."""

    earlier: Examined
    later: Examined
    point: Point
    """As the later edition has it."""
    then: Answer
    now: Answer
    difference: Difference

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
    remarks: tuple[RecheckRemark, ...]

    def at(self, point: str) -> Rechecked | None:
        """One point, None where neither examination has it."""
        return next((one for one in self.points if one.point.id == point), None)


def recheck(earlier: Examined, later: Examined, before: Sequence[Examined] = ()) -> Recheck:
    """Compare a later examination with an earlier one of the same dog, whichever is given first.

    Each point is held against `before`, still earlier examinations of the dog, too.
    """
    if later.order_key < earlier.order_key:
        earlier, later = later, earlier
    rows = []
    for stop in stops(later.ruleset, later.session):
        row = rechecked(earlier, later, stop.point, before)
        if row.then.given or row.now.given:
            rows.append(row)
    return Recheck(earlier, later, all_together(rows), _remarks(earlier, later))


def all_together(rows: Sequence[Rechecked]) -> tuple[Rechecked, ...]:
    """The same points, changed only where all of them together bear it (`compare.dogs.together`).

    What is beyond its own error only is not settled.
    """
    if not rows:
        return ()
    judged, _ = judged_together([(row.difference,) for row in rows], (rows[0].earlier, rows[0].later))
    told = (replace(one, verdict="not-settled") if one.alone_only else one for (one,) in judged)
    return tuple(replace(row, difference=one) for row, one in zip(rows, told, strict=True))


def rechecked(earlier: Examined, later: Examined, point: Point, before: Sequence[Examined] = ()) -> Rechecked:
    """One point of the later edition, then and now: what is shown once the new answer is given."""
    at = earlier.ruleset.points.get(point.id)
    then = answer_at(earlier, at) if at is not None else Answer(point.id, "open")
    now = answer_at(later, point)
    seen = answered_before(before, point, then, later) if then.given else ()
    found = difference((earlier, later), (at or point, point), (then, now), before=seen)
    return Rechecked(earlier, later, point, then, now, found)


def _remarks(earlier: Examined, later: Examined) -> tuple[RecheckRemark, ...]:
    remarks: list[RecheckRemark] = []
    if not same_dog(earlier, later):
        remarks.append("different-dogs")
    if not same_evaluator(earlier, later):
        remarks.append("different-evaluators")
    if not one_edition((earlier, later)):
        remarks.append("different-editions")
    if earlier.age is None or later.age is None:
        remarks.append("age-not-known")
    return tuple(remarks)
