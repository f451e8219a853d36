"""What one limit gives for one reading, before all limits are put together."""

from __future__ import annotations

from dataclasses import replace

from hands_on.evaluate.classes import NONE
from hands_on.evaluate.departure import Called, Departure
from hands_on.evaluate.ladder import Case, finite
from hands_on.evaluate.reasons import said
from hands_on.evaluate.result import Alarm, RuleResult, Verdict
from hands_on.evaluate.values import Reading, unit_of
from hands_on.frozen import dataclass
from hands_on.ruleset.labels import Label, label_of
from hands_on.ruleset.rules import Band, Limit

__all__ = ["Held", "judged", "rule_result"]


@dataclass(frozen=True)
class Held:
    """A limit held against one reading."""

    rule: RuleResult
    judges: bool = False
    """False: it only sorts, or says nothing of this dog."""
    departure: Departure | None = None
    alarms: tuple[Alarm, ...] = ()
    settled: tuple[str, str] | None = None
    """The attribute of the dog that it decides, and its value."""
    lacking: tuple[str, ...] = ()
    """What was not known when the class was asked for."""


def judged(
    case: Case,
    limit: Limit,
    reading: Reading,
    rule: RuleResult,
    band: Band | None,
    called: Called | None,
    sure: bool,
    alarms: tuple[Alarm, ...],
) -> Held:
    """A limit that judges: its result, and the departure where the value lies in a stretch beside it."""
    if band is not None and called is not None and called.cls == NONE:
        rule = replace(rule, tolerated=band.tolerated)
    found = _departure(case, limit, reading, rule, band, called, sure)
    lacking = called.lacking if called is not None else ()
    return Held(rule, True, found, alarms, lacking=lacking)


def _departure(
    case: Case,
    limit: Limit,
    reading: Reading,
    rule: RuleResult,
    band: Band | None,
    called: Called | None,
    sure: bool,
) -> Departure | None:
    """None where nothing departs, and for practice beside the standard."""
    if limit.optional or band is None or called is None or (called.cls == NONE and band.fault is None):
        return None
    above = limit.asked is not None and reading.value > limit.asked.high
    return Departure(
        fault=band.fault or limit.id,
        origin="take",
        points=limit.measures,
        degree=band.degree,
        side=reading.side,
        # A tolerated stretch is never a fault, sure or not.
        status="present" if sure or called.cls == NONE else "unsure",
        detail=band.place,
        same=band.detail[1:],
        named=None if band.fault else Label(band.label) if band.label else label_of(case.ruleset, limit),
        called=replace(called, reasons=(*called.reasons, *said(limit.text, band.note))),
        rule=rule,
        too_young=reading.too_young,
        lasting=sure and above and limit.measure is not None,
    )


def rule_result(case: Case, limit: Limit, reading: Reading | None, verdict: Verdict) -> RuleResult:
    """The result of a limit, as far as it is the same for all kinds of limits."""
    asked, named = limit.asked, label_of(case.ruleset, limit)
    young = reading.too_young if reading is not None else None
    return RuleResult(
        id=limit.id,
        value=reading.value if reading is not None else None,
        u=reading.u if reading is not None else None,
        unit=reading.unit if reading is not None else limit.unit or unit_of(case.ruleset, limit),
        low=finite(asked.low) if asked is not None else None,
        high=finite(asked.high) if asked is not None else None,
        p_inside=None,
        verdict=verdict,
        fault=None,
        cls=None,
        named=replace(named, side=reading.side) if reading is not None else named,
        source=case.ruleset.source_text(limit.source),
        sources=limit.source,
        reading=limit.reading,
        optional=limit.optional,
        about=limit.about,
        side=reading.side if reading is not None else None,
        measures=limit.measures,
        ideal=limit.ideal,
        words=limit.words,
        judged_from=young.from_months if young is not None else None,
    )
