"""Points left out on purpose: a seminar round or a re-check asks only some of the walk."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from hands_on.exam.answers import answers_at
from hands_on.exam.session import Session, Skip
from hands_on.exam.walk import Stop, stops
from hands_on.ruleset.points import Point
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["LEFT_OUT", "NOT_IN_RECHECK", "NOT_IN_ROUND", "NOT_IN_WALK", "all_but", "left_out", "on_walk"]

NOT_IN_ROUND = "not part of this round"
NOT_IN_RECHECK = "not part of this re-check"
NOT_IN_WALK = "not part of this walk"
LEFT_OUT = (NOT_IN_ROUND, NOT_IN_RECHECK, NOT_IN_WALK)
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


def on_walk(session: Session, ruleset: Ruleset, walk: str) -> Session:
    """The session with everything left out that a shorter walk does not ask. Raises KeyError."""
    chosen = ruleset.walks[walk]
    every = stops(ruleset, session)
    asked = {stop.point.id for stop in every if chosen.asks(stop.point)}
    skips = all_but(every, asked, NOT_IN_WALK)
    return session.model_copy(update={"skips": (*session.skips, *skips)})
