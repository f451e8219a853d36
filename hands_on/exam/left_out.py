"""Points left out on purpose: a seminar round or a re-check asks only some of the walk."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from hands_on.exam.answers import answers_at
from hands_on.exam.session import Session, Skip
from hands_on.exam.walk import Stop
from hands_on.ruleset.points import Point

__all__ = ["LEFT_OUT", "NOT_IN_RECHECK", "NOT_IN_ROUND", "all_but", "left_out"]

NOT_IN_ROUND = "not part of this round"
NOT_IN_RECHECK = "not part of this re-check"
LEFT_OUT = (NOT_IN_ROUND, NOT_IN_RECHECK)
"""Reasons that such points are skipped with; they are no gap of the evaluator's making."""


def all_but(walk: Sequence[Stop], asked: Collection[str], reason: str) -> tuple[Skip, ...]:
    """Skips of every point that is not among `asked`; a region of which nothing is asked as a whole."""
    regions = {stop.region.id for stop in walk if stop.point.id in asked}
    whole = dict.fromkeys(stop.region.id for stop in walk if stop.region.id not in regions)
    points = [stop.point.id for stop in walk if stop.region.id in regions and stop.point.id not in asked]
    return (
        *(Skip(region=name, reason=reason) for name in whole),
        *(Skip(point=name, reason=reason) for name in points),
    )


def left_out(session: Session, point: Point) -> bool:
    """Was the point left out on purpose, and is it still without an answer?"""
    own = answers_at(session, point)
    if own.given or own.skip is None:
        return False
    return own.skip.reason in LEFT_OUT
