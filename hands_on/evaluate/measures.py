"""Takes to measurements: every take is read, none is dropped silently."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field, replace
from functools import cached_property
from statistics import median
from types import MappingProxyType

from hands_on.evaluate.alarms.recorded import CountsDiffer, TakeRefused, TakesOdd, TakesUnused
from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.handling import as_handled, harder_to_measure
from hands_on.evaluate.result import BASES, Alarm, AlarmKind, Basis, MeasureResult
from hands_on.exam.session import Session, Take
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.measure.concordance import Concordance, concordance
from hands_on.measure.entry import EntryProblem, parse_entry
from hands_on.measure.hand import OwnHand
from hands_on.measure.takes import (
    Counted,
    DefaultU,
    Measured,
    expected_repeatability,
    summarise,
    summarise_count,
    take_alarms,
)
from hands_on.measure.units import canonical_unit, convert, format_value, quantity_of
from hands_on.ruleset.base import Side
from hands_on.ruleset.dentition import FULL
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "HEIGHT",
    "TEETH_COUNT",
    "WEIGHT",
    "Measurement",
    "Measures",
    "at_age",
    "bases",
    "measure",
    "read_value",
    "results",
]

TEETH_COUNT = "teeth-count"
"""The measurement that the tooth chart gives."""

HEIGHT = "height"
"""The measurement that falls from take to take while a dog settles; it has a growth curve."""

WEIGHT = "weight"
"""The measurement that tells the size class where nothing names it; it has a growth curve."""


@dataclass(frozen=True)
class Measurement:
    """One measured point: what its takes give, by side and taken together, in canonical units."""

    point: MeasurePoint
    sides: Mapping[Side | None, Measured]
    pooled: Measured
    entered_units: Mapping[Side | None, str]
    """The unit most of the takes of a side were entered in; none where nobody took it."""
    own: OwnHand | None = None
    """The evaluator's own hand, where it is used."""
    own_tem: Mapping[Side | None, float] = field(default_factory=dict)
    """Its repeatability of one take at each of these readings."""
    too_young: TooYoung | None = None
    """Why it cannot be judged yet; None when it can."""

    @property
    def judged_from(self) -> float | None:
        """From how many months on it can be judged, where it cannot be yet."""
        return self.too_young.from_months if self.too_young is not None else None

    @property
    def canonical(self) -> str:
        """The unit it is computed in."""
        return canonical_unit(self.point.quantity)


@dataclass(frozen=True)
class Measures:
    """All measurements of a session, with the parts of their uncertainty."""

    by_point: Mapping[str, Measurement]
    alarms: tuple[Alarm, ...]

    @cached_property
    def pooled(self) -> Mapping[str, tuple[float, float]]:
        """Value and u of each measurement, canonical."""
        return {name: (one.pooled.value, one.pooled.u) for name, one in self.by_point.items()}

    @property
    def weight_kg(self) -> float | None:
        """The weight, None where it was not taken."""
        weight = self.by_point.get(WEIGHT)
        return weight.pooled.value if weight is not None else None


def measure(ruleset: Ruleset, session: Session, hand: Mapping[str, OwnHand]) -> Measures:
    """The measurements of a session (amendments already put in), with alarms for odd takes.

    Whether they can be judged at the dog's age is for `at_age` to say.
    """
    found: dict[str, Measurement] = {}
    alarms: list[Alarm] = []
    by_point: dict[str, list[Take]] = {}
    harder = harder_to_measure(ruleset, session)
    for take in session.takes:
        by_point.setdefault(take.point, []).append(take)
    for name, point in ruleset.points.items():
        if isinstance(point, MeasurePoint) and name in by_point:
            default = as_handled(ruleset, point, _default_u(ruleset, point), harder)
            measurement, odd = _measure_point(point, default, by_point.pop(name), hand.get(name))
            alarms += odd
            if measurement is not None:
                found[name] = measurement
    for name, takes in by_point.items():
        alarms += _unknown(ruleset, name, takes)
    counted = _count_chart(ruleset, session) if TEETH_COUNT not in found else None
    if counted is not None:
        found[TEETH_COUNT] = counted
    return Measures(MappingProxyType(found), tuple(alarms))


def at_age(measures: Measures, circumstances: Circumstances) -> Measures:
    """The same measurements, each with whether the dog is old enough for it to be judged."""
    aged = {
        name: replace(one, too_young=circumstances.too_young(one.point.too_young))
        for name, one in measures.by_point.items()
    }
    return Measures(MappingProxyType(aged), measures.alarms)


def results(measures: Measures) -> tuple[MeasureResult, ...]:
    """Each side of each measurement in the unit of its point."""
    return tuple(_result(one, side) for one in measures.by_point.values() for side in one.sides)


def _result(one: Measurement, side: Side | None) -> MeasureResult:
    found, point = one.sides[side], one.point
    return MeasureResult(
        id=point.id,
        value=convert(found.value, one.canonical, point.unit),
        u=convert(found.u, one.canonical, point.unit),
        unit=point.unit,
        takes=found.n if one.entered_units else 0,
        side=side,
        dof=found.dof if math.isfinite(found.dof) and one.entered_units else None,
        basis=found.basis,
        too_young=one.too_young is not None,
        judged_from=one.judged_from,
        rests_on=_rests_on(point, one.own),
        own_tem=convert(one.own_tem[side], one.canonical, point.unit) if side in one.own_tem else None,
        hand_share=found.hand_share,
        contradictory=found.contradictory,
        entered_unit=one.entered_units.get(side, ""),
    )


def _measure_point(
    point: MeasurePoint, default: DefaultU, takes: Iterable[Take], own: OwnHand | None
) -> tuple[Measurement | None, list[Alarm]]:
    """A measurement, None where no take counts; and what is odd about its takes."""
    canonical = canonical_unit(point.quantity)
    alarms: list[Alarm] = []
    by_side: dict[Side | None, list[float]] = {}
    listed: dict[Side | None, list[int]] = {}
    stands: dict[Side | None, list[int]] = {}
    units: dict[Side | None, Counter[str]] = {}
    side: Side | None
    for number, take in enumerate(takes, 1):
        if take.struck:
            continue
        side = take.side if point.sides and take.side != "both" else None
        try:
            value, unit = read_value(point, take.value, take.unit)
        except EntryProblem as problem:
            kind: AlarmKind = "implausible" if problem.kind in ("implausible", "negative") else "unreadable"
            alarms.append(Alarm(kind, (point.id,), TakeRefused(point.id, number, problem.message)))
            continue
        by_side.setdefault(side, []).append(value)
        listed.setdefault(side, []).append(number)
        stands.setdefault(side, []).append(take.stand)
        units.setdefault(side, Counter())[unit] += 1
    if not by_side:
        return None, alarms
    step = convert(point.resolution, point.unit, canonical)
    sides: dict[Side | None, Measured] = {}
    for side, values in by_side.items():
        on = stands[side]
        sigma_r = expected_repeatability(median(values), default, step, own, stands=len(set(on)))
        together = _concordance(point, values, sigma_r, step)
        kept = [place for place in range(len(values)) if place != together.aside]
        found = _summary(point, [values[n] for n in kept], [on[n] for n in kept], default, step, own)
        sides[side] = replace(found, contradictory=together.kind == "contradict")
        for odd in _odd_takes(point, side, values, sigma_r, step, together):
            alarms.append(_as_listed(odd, listed[side]))
    entered = {side: named.most_common(1)[0][0] for side, named in units.items()}
    pooled = _together(list(sides.values()))
    hand = (
        {}
        if own is None
        else {side: expected_repeatability(one.value, default, 0.0, own) for side, one in sides.items()}
    )
    return Measurement(
        point, MappingProxyType(sides), pooled, MappingProxyType(entered), own, own_tem=hand
    ), alarms


def read_value(point: MeasurePoint, written: float | str, named: str | None) -> tuple[float, str]:
    """A take in the canonical unit, and the unit it was given in; without a unit the point's is meant.

    Raises EntryProblem for what is no reading or not plausible, ValueError for a unit that is not known.
    """
    canonical = canonical_unit(point.quantity)
    low, high = (convert(end, point.unit, canonical) for end in point.plausible)
    unit = named or point.unit
    if quantity_of(unit) != point.quantity:
        message = f"{unit} is a unit of {quantity_of(unit)}; here it is {point.quantity}."
        raise EntryProblem("wrong-unit", message)
    if isinstance(written, str):
        plausible = (low, high)
        entry = parse_entry(written, quantity=point.quantity, default_unit=unit, plausible=plausible)
        return entry.canonical, entry.unit
    if not math.isfinite(written):
        raise EntryProblem("unreadable", "this is no number.")
    value = convert(written, unit, canonical)
    if point.quantity == "count" and not value.is_integer():
        raise EntryProblem("not-whole", f"{written:g}: a count is a whole number.")
    if not low <= value <= high:
        possible = f"{point.plausible[0]:g} to {format_value(point.plausible[1], point.unit)}"
        message = f"{format_value(written, unit)} cannot be right here: {possible} is possible."
        raise EntryProblem("implausible", message)
    return value, unit


def _rests_on(point: MeasurePoint, own: OwnHand | None) -> Basis:
    """On what the uncertainty of a measurement rests."""
    if point.quantity == "count":
        return "counted"
    if own is not None:
        return "own hand"
    return next((basis for basis in BASES if basis == point.u.basis), "judgement")


def bases(ruleset: Ruleset, hand: Mapping[str, OwnHand]) -> dict[str, int]:
    """On what the uncertainties of an edition's measurements rest: how many of them on each basis."""
    asked = (point for point in ruleset.walk_points if isinstance(point, MeasurePoint))
    found = Counter(_rests_on(point, hand.get(point.id)) for point in asked)
    return {basis: found[basis] for basis in BASES if found[basis] or basis == "judgement"}


def _default_u(ruleset: Ruleset, point: MeasurePoint) -> DefaultU:
    a = convert(point.u.a, point.unit, canonical_unit(point.quantity))
    source = ruleset.source_text(point.u.source)
    return DefaultU(a, point.u.b, point.u.basis or "judgement", source)


def _summary(
    point: MeasurePoint,
    values: list[float],
    stands: list[int],
    default: DefaultU,
    step: float,
    own: OwnHand | None,
) -> Measured:
    if point.quantity == "count":
        # Where nothing below nought is plausible a count cannot be refused here.
        return summarise_count([max(0, round(value)) for value in values])
    return summarise(values, default, step, own, stands=stands)


def _concordance(point: MeasurePoint, values: list[float], sigma_r: float, step: float) -> Concordance:
    """Can all takes be right? Counts that differ are for `summarise_count`."""
    if point.quantity == "count":
        return Concordance("agree")
    return concordance(values, sigma_r, step)


def _odd_takes(
    point: MeasurePoint,
    side: Side | None,
    values: list[float],
    sigma_r: float,
    step: float,
    together: Concordance,
) -> Iterator[Alarm]:
    if len(values) < 2:
        return
    if point.quantity == "count":
        if len(set(values)) > 1:
            yield Alarm("discordant", (point.id,), CountsDiffer(point.id, side))
        return
    unit = canonical_unit(point.quantity)
    found = take_alarms(values, unit=unit, sigma_r=sigma_r, resolution=step, is_height=point.id == HEIGHT)
    for alarm in found:
        if alarm.kind == "discordant" and together.kind != "agree":
            alarm = replace(
                alarm,
                kind="aside" if together.kind == "aside" else "contradictory",
                takes=alarm.takes if together.aside is None else (together.aside + 1,),
                values=alarm.values if together.aside is None else (values[together.aside],),
                allowed=together.allowed,
            )
        kind: AlarmKind = "drift" if alarm.kind == "drift" else "discordant"
        yield Alarm(kind, (point.id,), TakesOdd(point.id, side, alarm))


def _as_listed(alarm: Alarm, listed: list[int]) -> Alarm:
    """The alarm with each take's number among all takes of the point, struck ones and other sides too."""
    told = alarm.about
    if not isinstance(told, TakesOdd):
        return alarm
    takes = tuple(listed[number - 1] for number in told.odd.takes)
    return replace(alarm, about=replace(told, odd=replace(told.odd, takes=takes)))


def _together(sides: list[Measured]) -> Measured:
    """Left and right as one: the mean, with the larger uncertainty, since one hand's error is in both."""
    if len(sides) == 1:
        return sides[0]
    widest = max(sides, key=lambda one: one.u)
    return Measured(
        value=math.fsum(one.value for one in sides) / len(sides),
        u=widest.u,
        dof=widest.dof,
        n=min(one.n for one in sides),
        u_repeat=widest.u_repeat,
        u_lasting=widest.u_lasting,
        sigma_r=widest.sigma_r,
        spread=None,
        basis=widest.basis,
        dof_repeat=widest.dof_repeat,
        dof_lasting=widest.dof_lasting,
        contradictory=any(one.contradictory for one in sides),
    )


def _unknown(ruleset: Ruleset, name: str, takes: list[Take]) -> Iterator[Alarm]:
    """Takes at a point that this edition does not know, or that is not measured."""
    counted = sum(1 for take in takes if not take.struck)
    if not counted:
        return
    kind: AlarmKind = "unreadable" if name in ruleset.points else "unknown-point"
    yield Alarm(kind, (name,), TakesUnused(name, counted))


def _count_chart(ruleset: Ruleset, session: Session) -> Measurement | None:
    """The number of teeth by the chart, where all were seen."""
    point = ruleset.points.get(TEETH_COUNT)
    chart = session.teeth
    if not isinstance(point, MeasurePoint) or chart is None or chart.unseen:
        return None
    count = FULL - len(set(chart.missing))
    found = Measured(float(count), 0.0, math.inf, 1, 0.0, 0.0, 0.0, None, Counted(by_chart=True))
    return Measurement(point, {None: found}, found, {})
