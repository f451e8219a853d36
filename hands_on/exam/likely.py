"""What a reading of this dog is likely to be under the edition; one beyond is asked about, and may be so."""

from __future__ import annotations

import math
from collections.abc import Iterator

from hands_on.exam.answers import amended
from hands_on.exam.conditions import Entered
from hands_on.exam.session import Session
from hands_on.frozen import dataclass
from hands_on.measure.entry import EntryProblem, parse_entry
from hands_on.measure.growth_curves import GrowthProblem, fraction, spread
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.rules import Limit, Range
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Likely", "likely_range"]

_SPREADS = 3.0
"""By how many standard deviations of the curve a young dog may run before or behind it."""

_SAME = 0.03
"""Readings that differ by less than this share say the same: the second one confirms the first."""


@dataclass(frozen=True)
class Likely:
    """The readings that raise no question, in the canonical unit; None: no end on that side."""

    low: float | None
    high: float | None
    asked: tuple[float | None, float | None]
    """What the edition asks for, in `unit`."""
    unit: str
    young: bool = False
    """Is it what a young dog may have reached by now?"""
    against: str = ""
    """Not empty: the measurement, by its label, that it is reckoned from."""
    known: tuple[float, ...] = ()
    """The readings given here so far."""
    practice: bool = False
    """Is it named by practice beside the standard alone, chosen or not?"""

    def within(self, value: float) -> bool:
        """Does a reading, in the canonical unit, lie in it?"""
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    def holds(self, value: float) -> bool:
        """Does a reading raise no question: within, or said once before?"""
        return self.within(value) or any(math.isclose(value, one, rel_tol=_SAME) for one in self.known)


def likely_range(ruleset: Ruleset, session: Session, point: MeasurePoint) -> Likely | None:
    """The likely readings at a point, or None where the edition has no figure that tells.

    From the limits that can hold of this dog, widened by the point's margin (`beyond`); of a young dog as far
    as it may have grown by now; from a ratio where its other measurement was taken.
    """
    if point.beyond is None:
        return None
    now = amended(session)
    entered = Entered(ruleset, now)
    young = _young(ruleset, entered, point)
    found = _by_limits(ruleset, entered, point)
    practice = found is None
    if practice:
        found = _by_limits(ruleset, entered, point, optional=True)
        practice = found is not None
    against = ""
    if found is None and not young:
        found, against = _by_ratio(ruleset, now, entered, point)
    if found is None:
        return None
    low, high = found
    share_low = share_high = 1.0
    if young:
        shares = _grown(ruleset, entered, point)
        if shares is None:
            return None
        share_low, share_high = shares
    asked = tuple(None if end is None else round(end, 4) for end in (low, high))
    canonical = canonical_unit(point.quantity)
    ends = (
        None if low is None else _wider(point, low, -1) * share_low,
        None if high is None else _wider(point, high, 1) * share_high,
    )
    bottom, top = (None if end is None else convert(end, point.unit, canonical) for end in ends)
    rows = (
        _canonical(point, take.value, take.unit)
        for take in now.takes
        if take.point == point.id and not take.struck
    )
    known = tuple(value for value in rows if value is not None)
    return Likely(bottom, top, (asked[0], asked[1]), point.unit, young, against, known, practice)


def _wider(point: MeasurePoint, end: float, way: int) -> float:
    """An end with the margin: a share of it, of an angle so many degrees."""
    beyond = point.beyond or 0.0
    return end + way * beyond if point.quantity == "angle" else max(0.0, end * (1 + way * beyond))


def _by_limits(
    ruleset: Ruleset, entered: Entered, point: MeasurePoint, *, optional: bool = False
) -> tuple[float | None, float | None] | None:
    """The widest of what the limits on this measurement ask for, in the point's unit.

    `optional`: of those that hold only where a switch was chosen; what is odd they tell unchosen too.
    """
    states = ("holds", "unknown", "off") if optional else ("holds", "unknown")
    stretches: list[tuple[float | None, float | None]] = []
    for limit in ruleset.edition.limits:
        if (
            limit.measure == point.id
            and bool(limit.optional) is optional
            and entered.state(limit.when) in states
        ):
            unit = limit.unit or point.unit
            ends = [_ends(one) for one in _stretches(limit)]
            stretches += [_converted(one, unit, point.unit) for one in ends]
    if not stretches:
        return None
    lows, highs = zip(*stretches, strict=True)
    low = None if None in lows else min(end for end in lows if end is not None)
    high = None if None in highs else max(end for end in highs if end is not None)
    return None if low is None and high is None else (low, high)


def _stretches(limit: Limit) -> Iterator[Range]:
    """What is asked for; of a limit that sorts the bands with two ends."""
    if limit.asked is not None:
        yield limit.asked
    elif limit.classifies is not None:
        yield from (band for band in limit.bands if None not in _ends(band))


def _ends(stretch: Range) -> tuple[float | None, float | None]:
    low = stretch.from_ if stretch.from_ is not None else stretch.above
    high = stretch.to if stretch.to is not None else stretch.below
    return low, high


def _converted(
    ends: tuple[float | None, float | None], unit: str, wanted: str
) -> tuple[float | None, float | None]:
    low, high = (None if end is None else convert(end, unit, wanted) for end in ends)
    return low, high


def _by_ratio(
    ruleset: Ruleset, session: Session, entered: Entered, point: MeasurePoint
) -> tuple[tuple[float | None, float | None] | None, str]:
    """From the first ratio of two measurements that the edition limits and of which the other was taken."""
    for limit in ruleset.edition.limits:
        if limit.ratio is None or limit.asked is None or limit.optional:
            continue
        names = [member.measure for member in limit.ratio]
        if point.id not in names or None in names or entered.state(limit.when) not in ("holds", "unknown"):
            continue
        place = names.index(point.id)
        other = ruleset.points.get(names[1 - place] or "")
        mean = _mean(session, other) if isinstance(other, MeasurePoint) else None
        if mean is None or not isinstance(other, MeasurePoint) or other.quantity != point.quantity:
            continue
        value = convert(mean, canonical_unit(other.quantity), point.unit)
        low, high = _ends(limit.asked)
        if place == 0:
            return (_times(value, low), _times(value, high)), other.label
        return (_over(value, high), _over(value, low)), other.label
    return None, ""


def _times(value: float, ratio: float | None) -> float | None:
    return None if ratio is None else value * ratio


def _over(value: float, ratio: float | None) -> float | None:
    return None if not ratio else value / ratio


def _mean(session: Session, point: MeasurePoint) -> float | None:
    """The mean of the takes that count, in the canonical unit."""
    rows = (take for take in session.takes if take.point == point.id and not take.struck)
    values = [value for take in rows if (value := _canonical(point, take.value, take.unit)) is not None]
    return math.fsum(values) / len(values) if values else None


def _canonical(point: MeasurePoint, written: float | str, unit: str | None) -> float | None:
    canonical = canonical_unit(point.quantity)
    try:
        if isinstance(written, str):
            return parse_entry(written, quantity=point.quantity, default_unit=unit or point.unit).canonical
        return convert(written, unit or point.unit, canonical)
    except (EntryProblem, ValueError):
        return None


def _young(ruleset: Ruleset, entered: Entered, point: MeasurePoint) -> bool:
    """Is the dog younger than the age at which this can be judged? Not where its age is not known."""
    size = ruleset.edition.size_class
    if entered.age is None or point.too_young is None:
        return False
    ages = point.too_young
    least = getattr(ages, size) if size else max(ages.small, ages.medium, ages.large, ages.giant)
    return bool(entered.age < least)


def _grown(ruleset: Ruleset, entered: Entered, point: MeasurePoint) -> tuple[float, float] | None:
    """The least and greatest share of the grown dog that it may have reached; None where no curve tells."""
    size, age = ruleset.edition.size_class, entered.age
    if size is None or age is None or point.quantity not in ("length", "mass"):
        return None
    curve = "weight" if point.quantity == "mass" else "height"
    try:
        share, apart = fraction(curve, size, age), _SPREADS * spread(curve, size, age)
    except GrowthProblem:
        return None
    return max(0.0, share - apart), min(1.0, share + apart)
