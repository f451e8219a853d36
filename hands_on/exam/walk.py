"""The walk: which points in which order, where it stands, what is left."""

from __future__ import annotations

import datetime
from collections.abc import Collection
from typing import Literal

from hands_on.exam.answers import amended, answers_at
from hands_on.exam.conditions import Entered
from hands_on.exam.session import Session
from hands_on.frozen import dataclass
from hands_on.ruleset.points import ChoicePoint, MeasurePoint, Point, Region
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "RegionProgress",
    "State",
    "Stop",
    "called_for",
    "first_open",
    "measures_of",
    "progress",
    "state_of",
    "stops",
    "where_stopped",
]

State = Literal["answered", "skipped", "open"]


@dataclass(frozen=True)
class Stop:
    """One point of the walk."""

    index: int
    region: Region
    point: Point
    place: int = 0
    """Place of the region in the edition's order of regions."""


@dataclass(frozen=True)
class RegionProgress:
    """How far a region is."""

    region: Region
    number: int
    """Place in the order, counted from 1; what is typed to jump there."""
    first: int
    """Index of the stop where most of it begins: single points of it may stand elsewhere in the walk."""
    answered: int
    skipped: int
    total: int

    @property
    def done(self) -> bool:
        """Nothing open."""
        return self.answered + self.skipped == self.total


def stops(ruleset: Ruleset, session: Session, also: Collection[str] = ()) -> tuple[Stop, ...]:
    """The points this edition asks of this dog, in order; and measures taken beside them, or named in `also`.

    Points for the other sex are left out, and those whose condition surely does not hold of this dog.
    """
    regions = {region.id: region for region in ruleset.regions}
    places = {name: place for place, name in enumerate(regions)}
    known = Entered(ruleset, session)
    asked = {point.id for point in ruleset.walk_points}
    beside = {*also, *(take.point for take in amended(session).takes if not take.struck)} - asked
    walk = [
        point
        for point in ruleset.on_the_way
        if point.region in regions
        and (
            (point.id in asked and _asked(ruleset, known, point))
            or (point.id in beside and isinstance(point, MeasurePoint))
        )
    ]
    return tuple(
        Stop(index, regions[point.region], point, places[point.region]) for index, point in enumerate(walk)
    )


def called_for(ruleset: Ruleset, session: Session) -> frozenset[str]:
    """The measures that recorded choices call for, to say how far what was chosen goes."""
    chosen = {(row.point, name) for row in amended(session).choices for name in row.choice}
    return frozenset(
        option.measure
        for point in ruleset.points.values()
        if isinstance(point, ChoicePoint)
        for option in point.options
        if option.measure and (point.id, option.id) in chosen and not ruleset.waived(option.fault or "")
    )


def measures_of(ruleset: Ruleset, session: Session, region: str) -> tuple[MeasurePoint, ...]:
    """Every measure of a region that is defined and can be taken of this dog, asked by the edition or not."""
    sex = session.dog.sex
    return tuple(
        point
        for point in ruleset.points.values()
        if isinstance(point, MeasurePoint)
        and point.region == region
        and (sex is None or point.only_sex in (None, sex))
    )


def _asked(ruleset: Ruleset, known: Entered, point: Point) -> bool:
    if point.only_sex is not None and known.dog.sex not in (None, point.only_sex):
        return False
    return known.state(ruleset.edition.walk.when.get(point.id)) in ("holds", "unknown")


def state_of(session: Session, point: Point, called: Collection[str] = ()) -> State:
    """Answered, also by a call (`called`), skipped (the point or its region, and no answer), or open."""
    answers = answers_at(session, point)
    if answers.given or point.id in called:
        return "answered"
    return "skipped" if answers.skip is not None else "open"


def progress(
    walk: tuple[Stop, ...], session: Session, called: Collection[str] = ()
) -> tuple[RegionProgress, ...]:
    """Each region of the walk with how far it is, in the edition's order of regions.

    `called`: points that a call has settled; they count as answered.
    """
    now = amended(session)
    rows: list[RegionProgress] = []
    regions = dict.fromkeys(stop.region for stop in sorted(walk, key=lambda stop: stop.place))
    for number, region in enumerate(regions, start=1):
        inside = [stop for stop in walk if stop.region.id == region.id]
        states = [state_of(now, stop.point, called) for stop in inside]
        answered, skipped = states.count("answered"), states.count("skipped")
        first = _most_of(inside, len(walk) - 1)
        rows.append(RegionProgress(region, number, first, answered, skipped, len(inside)))
    return tuple(rows)


def _most_of(inside: list[Stop], last: int) -> int:
    """Index of the first stop of the longest run of stops behind one another.

    What a region has to say at the end of the walk (`last`) comes by itself: one jumps to what stands before.
    """
    runs: list[list[int]] = []
    for stop in inside:
        if runs and runs[-1][-1] == stop.index - 1:
            runs[-1].append(stop.index)
        else:
            runs.append([stop.index])
    return max([run for run in runs if run[-1] != last] or runs, key=len)[0]


def first_open(
    walk: tuple[Stop, ...], session: Session, after: int = -1, called: Collection[str] = ()
) -> int | None:
    """Index of the first open stop behind `after`, going round to the start; None when nothing is open."""
    now = amended(session)
    order = [*walk[after + 1 :], *walk[: after + 1]]
    return next((stop.index for stop in order if state_of(now, stop.point, called) == "open"), None)


def where_stopped(walk: tuple[Stop, ...], session: Session, called: Collection[str] = ()) -> int:
    """Index of the stop to go on at: behind the newest answer, or at a measurement that lacks takes."""
    now = amended(session)
    newest: tuple[datetime.datetime, int] | None = None
    for stop in walk:
        own = answers_at(now, stop.point)
        rows = (*own.takes, *own.grades, *own.choices, own.teeth, own.skip)
        for row in rows:
            if row is not None and row.at is not None and (newest is None or (row.at, stop.index) >= newest):
                newest = (row.at, stop.index)
    if newest is None:
        return first_open(walk, session, called=called) or 0
    last = walk[newest[1]].point
    takes = sum(not take.struck for take in answers_at(now, last).takes)
    if isinstance(last, MeasurePoint) and 0 < takes < last.takes:
        return newest[1]
    rows_at = answers_at(now, last)
    if any(row.by_region for row in (*rows_at.grades, *rows_at.choices)):
        # The rest of a region was given at once: what is entered by itself there comes next.
        inside = (stop for stop in walk[: newest[1]] if stop.region.id == walk[newest[1]].region.id)
        alone = next((stop.index for stop in inside if state_of(now, stop.point, called) == "open"), None)
        if alone is not None:
            return alone
    after = first_open(walk, session, newest[1], called)
    return newest[1] if after is None else after
