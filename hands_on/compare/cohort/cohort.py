"""A cohort: how often which fault, how large, what moves over the years of birth, how an evaluator drifts."""

from __future__ import annotations

import datetime
import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from statistics import fmean, stdev

from hands_on.compare.cohort.members import Member, Sized, Wanted, counted_once
from hands_on.compare.cohort.shares import Share, wilson
from hands_on.compare.cohort.trends import Trend, slope
from hands_on.compare.several import holm
from hands_on.frozen import dataclass
from hands_on.measure.distributions import student_quantile
from hands_on.ruleset.base import DEGREES, Sex
from hands_on.ruleset.labels import Label

__all__ = ["Cohort", "Frequency", "Spread", "cohort"]


@dataclass(frozen=True)
class Frequency:
    """How often a fault is there."""

    fault: str
    named: Label
    share: Share
    """Of the dogs in which it was looked for and which were old enough for it."""
    classes: Mapping[str, int]
    """In how many dogs it has which class; editions may differ."""
    degrees: Mapping[str, int]
    """How many have it at which degree; the empty one: not said."""
    too_young: int
    """Dogs that show it and are too young for it to be judged; they are not in the share."""


@dataclass(frozen=True)
class Spread:
    """A measurement or proportion over the dogs of one sex."""

    id: str
    named: Label
    sex: Sex | None
    unit: str
    n: int
    mean: float
    sd: float | None
    """Between dogs, hand error and all; None of one dog."""
    low: float | None
    """95 % interval of the mean, Student's t; None of fewer than three, or where all are alike."""
    high: float | None
    least: float
    most: float
    u: float
    """Root mean square of the standard uncertainties: how much of the spread is the hand's."""
    asked: tuple[float | None, float | None] | None
    """What is asked, where it is the same for all of them."""
    outside: Share | None
    """How many lie outside what is asked of them; None where nothing is."""


@dataclass(frozen=True)
class Cohort:
    """Many dogs together."""

    wanted: Wanted
    members: tuple[Member, ...]
    """One examination a dog."""
    left_out: int
    """Further examinations of the same dogs, which do not count."""
    frequencies: tuple[Frequency, ...]
    """The most frequent first; faults nobody has are not among them."""
    spreads: tuple[Spread, ...]
    trends: tuple[Trend, ...]
    """Over the years of birth."""
    drift: tuple[Trend, ...]
    """Over the years of examination: how far from as asked each evaluator graded."""

    @property
    def years(self) -> tuple[int, ...]:
        """Years of birth, each once."""
        return tuple(sorted({one.born.year for one in self.members if one.born is not None}))


def cohort(members: Sequence[Member], wanted: Wanted | None = None) -> Cohort:
    """The cohort of the examinations that fit; a dog examined twice counts once."""
    wanted = wanted or Wanted()
    fitting = [one for one in members if wanted.fits(one)]
    dogs = counted_once(fitting)
    # One family of conclusions: what is told to move is wrong in one cohort of twenty at most.
    trends = [*_trends(dogs)]
    drift = [*_drift(fitting)]
    told = [one for one in (*trends, *drift) if one.p is not None]
    corrected = dict(zip(map(id, told), holm([one.p or 0.0 for one in told]), strict=True))
    return Cohort(
        wanted,
        tuple(dogs),
        len(fitting) - len(dogs),
        tuple(_frequencies(dogs)),
        tuple(_spreads(dogs)),
        tuple(replace(one, p_corrected=corrected.get(id(one))) for one in trends),
        tuple(replace(one, p_corrected=corrected.get(id(one))) for one in drift),
    )


def _frequencies(dogs: Sequence[Member]) -> list[Frequency]:
    named: dict[str, Label] = {}
    having: Counter[str] = Counter()
    young: Counter[str] = Counter()
    looked: Counter[str] = Counter()
    classes: dict[str, Counter[str]] = defaultdict(Counter)
    degrees: dict[str, Counter[str]] = defaultdict(Counter)
    for dog in dogs:
        own: dict[str, tuple[str | None, str | None]] = {}
        too_young = set()
        for row in dog.found:
            named.setdefault(row.fault, row.named)
            if row.too_young:
                too_young.add(row.fault)
            elif row.fault not in own or _heavier(row.degree, own[row.fault][1]):
                own[row.fault] = (row.cls, row.degree)
        for fault, (cls, degree) in own.items():
            having[fault] += 1
            classes[fault][cls or ""] += 1
            degrees[fault][degree or ""] += 1
        for fault in too_young - own.keys():
            young[fault] += 1
        looked.update(dog.looked_for - (too_young - own.keys()))
    found = [
        Frequency(
            fault,
            name,
            wilson(having[fault], max(looked[fault], having[fault])),
            dict(classes[fault]),
            dict(degrees[fault]),
            young[fault],
        )
        for fault, name in named.items()
    ]
    return sorted(found, key=lambda one: (-one.share.value, -one.share.count, one.named.labels))


def _heavier(degree: str | None, than: str | None) -> bool:
    def rank(name: str | None) -> int:
        return DEGREES.index(name) if name in DEGREES else -1

    return rank(degree) > rank(than)


def _spreads(dogs: Sequence[Member]) -> list[Spread]:
    by: dict[tuple[str, Sex | None, str], list[Sized]] = {}
    order: dict[str, int] = {}
    for dog in dogs:
        for row in dog.sizes:
            order.setdefault(row.id, len(order))
            if not row.too_young:
                by.setdefault((row.id, dog.sex, row.unit), []).append(row)
    return [
        _spread(name, sex, unit, rows)
        for (name, sex, unit), rows in sorted(by.items(), key=lambda one: (order[one[0][0]], str(one[0][1])))
    ]


def _spread(name: str, sex: Sex | None, unit: str, rows: Sequence[Sized]) -> Spread:
    values = [row.value for row in rows]
    n, mean = len(values), fmean(values)
    sd = stdev(values) if n > 1 else None
    # Where all are alike, as the numbers of teeth mostly are, the spread tells nothing of other dogs.
    half = student_quantile(0.975, n - 1) * sd / math.sqrt(n) if sd and n > 2 else None
    asked = {(row.low, row.high) for row in rows if row.asked}
    judged = [row for row in rows if row.asked]
    outside = sum(
        (row.low is not None and row.value < row.low) or (row.high is not None and row.value > row.high)
        for row in judged
    )
    return Spread(
        name,
        rows[0].named,
        sex,
        unit,
        n,
        mean,
        sd,
        None if half is None else mean - half,
        None if half is None else mean + half,
        min(values),
        max(values),
        math.sqrt(fmean(row.u**2 for row in rows)),
        asked.pop() if len(asked) == 1 else None,
        wilson(outside, len(judged)) if judged else None,
    )


def _trends(dogs: Sequence[Member]) -> Iterable[Trend]:
    """Every measurement by sex, and how far from as asked the dogs were graded, over the years of birth."""
    rows: dict[tuple[str, Sex | None, str], tuple[Label, list[tuple[float, float]]]] = {}
    graded = []
    for dog in dogs:
        if dog.born is None:
            continue
        year = _year(dog.born)
        for row in dog.sizes:
            if not row.too_young:
                rows.setdefault((row.id, dog.sex, row.unit), (row.named, []))[1].append((year, row.value))
        if dog.graded:
            graded.append((year, dog.steps / dog.graded))
    for (name, sex, unit), (named, values) in rows.items():
        yield slope(Trend("size", name, named, sex, unit), values)
    if graded:
        yield slope(Trend("graded", "", Label(), None, "degree"), graded)


def _drift(members: Sequence[Member]) -> Iterable[Trend]:
    """How far from as asked each evaluator graded, over the days of examination; every examination counts."""
    rows: dict[str, list[tuple[float, float]]] = {}
    names: dict[str, str] = {}
    for one in members:
        if one.evaluator and one.day and one.graded:
            key = one.evaluator.casefold()
            names.setdefault(key, one.evaluator)
            day = datetime.date.fromisoformat(one.day)
            rows.setdefault(key, []).append((_year(day), one.steps / one.graded))
    for key, values in rows.items():
        yield slope(Trend("evaluator", names[key], Label(), None, "degree"), values)


def _year(day: datetime.date) -> float:
    return day.year + (day.timetuple().tm_yday - 1) / 365.25
