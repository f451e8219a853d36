"""What several earlier examinations of a dog say at one point, and measurements taken together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.examined import Examined, same_dog, same_evaluator
from hands_on.measure.gum import welch_satterthwaite
from hands_on.ruleset.points import MeasurePoint, Point

__all__ = ["SHARED_BY_ONE_HAND", "Before", "answered_before", "pooled", "shared_covariance"]

SHARED_BY_ONE_HAND = 0.5
"""Share of the lasting variance that two readings by one evaluator have in common; a judgement."""

Before = Sequence[tuple[Examined, Answer]]
"""Earlier examinations with what each says at one point, the earliest first."""


def answered_before(sessions: Sequence[Examined], point: Point, like: Answer, dog: Examined) -> Before:
    """Those of `sessions` that answered this point of the dog; a measurement in the unit of `like`."""
    found = []
    for one in sorted(sessions, key=lambda one: one.order_key):
        at = one.ruleset.points.get(point.id)
        if at is None or at.kind != point.kind or not same_dog(one, dog):
            continue
        answer = answer_at(one, at)
        measured = answer.unit == like.unit and not answer.contradictory and answer.value is not None
        if answer.given and (measured or not isinstance(at, MeasurePoint)):
            found.append((one, answer))
    return found


def pooled(seen: Before) -> Answer:
    """The mean of several measurements of a dog that stays as it is, with its uncertainty; each counts alike.

    Errors that readings by one hand share do not get smaller by it (JCGM 100:2008, 5.2.2).
    """
    n = len(seen)
    value = math.fsum(answer.value or 0.0 for _, answer in seen) / n
    own = math.fsum((answer.u or 0.0) ** 2 for _, answer in seen)
    both = math.fsum(2.0 * shared_covariance(seen[a], seen[b]) for a in range(n) for b in range(a))
    parts = [((answer.u or 0.0) / n, answer.dof) for _, answer in seen]
    last = seen[-1][1]
    dof = max(min(one.dof for _, one in seen), welch_satterthwaite(parts))
    return replace(last, value=value, u=math.sqrt(own + both) / n, dof=dof)


def shared_covariance(one: tuple[Examined, Answer], other: tuple[Examined, Answer]) -> float:
    """Of two measurements: half of the lasting variance where one hand took both."""
    (first, a), (second, b) = one, other
    if not same_evaluator(first, second) or a.u_lasting is None or b.u_lasting is None:
        return 0.0
    return SHARED_BY_ONE_HAND * a.u_lasting * b.u_lasting
