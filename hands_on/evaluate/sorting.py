"""Limits that sort instead of judging: which named stretch a value lies in, and what depends on it."""

from __future__ import annotations

import math
from dataclasses import replace

from hands_on.evaluate.alarms.judged import SortedOtherwise, SortedUnsure
from hands_on.evaluate.held import Held, judged, rule_result
from hands_on.evaluate.ladder import ROUNDED, Case, class_in, stretch
from hands_on.evaluate.result import Alarm, Verdict
from hands_on.evaluate.values import Reading
from hands_on.frozen import dataclass
from hands_on.measure import conformity
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import Band, Limit
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["conditions", "sort"]


@dataclass(frozen=True)
class Placing:
    """Where a value lies among the stretches of a limit that sorts."""

    band: Band | None
    """The stretch that the value itself lies in; None where it lies in none."""
    sure: bool
    """That it is this one reaches the confidence."""
    p_named: float
    """Probability of lying in any stretch that has a name to give."""
    verdict: Verdict
    """`inside` any named stretch, `outside` all of them, or undecided between these two."""


def placed(limit: Limit, reading: Reading, confidence: float) -> Placing:
    """Place a reading among a limit's stretches."""
    stretches = [stretch(band) for band in limit.bands]
    chances = [
        conformity.p_between(
            reading.value,
            reading.u,
            one.low,
            one.high,
            low_open=one.low_open,
            high_open=one.high_open,
            dof=reading.dof,
            against=reading.against,
        )
        for one in stretches
    ]
    value = round(reading.value, ROUNDED)
    place = next((place for place, one in enumerate(stretches) if one.holds(value)), None)
    sure = chances[place] if place is not None else 1.0 - math.fsum(chances)
    p_named = math.fsum(p for p, band in zip(chances, limit.bands, strict=True) if band.value)
    band = limit.bands[place] if place is not None else None
    verdict: Verdict = "undecided"
    if p_named >= confidence:
        verdict = "inside"
    elif p_named <= 1.0 - confidence:
        verdict = "outside"
    return Placing(band, sure >= confidence, p_named, verdict)


def sort(case: Case, limit: Limit, attribute: str, reading: Reading) -> Held:
    """Sort the dog by a reading; a stretch with a fault instead of a value judges."""
    placing = placed(limit, reading, case.confidence)
    band = placing.band
    rule = replace(
        rule_result(case, limit, reading, placing.verdict),
        p_inside=placing.p_named,
        band=_word(case.ruleset, attribute, band) if band is not None else "",
        likelier="inside" if placing.p_named > 0.5 else "",
        sorts=attribute,
        sorted_surely=placing.sure,
    )
    alarms: tuple[Alarm, ...] = ()
    settled = None
    if band is not None and placing.sure and band.value:
        settled = (attribute, band.value)
        entered = case.circumstances.entered(attribute)
        if entered and entered != band.value:
            about = SortedOtherwise(attribute, entered, band.value)
            alarms = (Alarm("contradiction", limit.measures, about),)
    elif not placing.sure and not limit.optional and attribute in deciding_attributes(case.ruleset):
        alarms = (Alarm("near-limit", limit.measures, SortedUnsure(rule)),)
    if band is None or not band.fault or band.value:
        return Held(rule, alarms=alarms, settled=settled)
    called = class_in(case, limit, band)
    if not placing.sure and case.classes.disqualifies(called.cls):
        called = replace(case.classes.lightest_sure, lacking=called.lacking)
    rule = replace(rule, fault=band.fault, cls=called.cls)
    return judged(case, limit, reading, rule, band, called, placing.sure, alarms)


def _word(ruleset: Ruleset, attribute: str, band: Band) -> str:
    """What a stretch is called; empty where it has no name."""
    declared = ruleset.edition.attributes.get(attribute)
    options = declared.options if declared is not None else {}
    named = options.get(band.value or "", band.value or "")
    return band.label or named or (ruleset.label(band.fault) if band.fault else "")


def deciding_attributes(ruleset: Ruleset) -> frozenset[str]:
    """The attributes that some rule of the edition depends on; others are only shown."""
    return frozenset(name for when in conditions(ruleset) for name in when.attributes)


def conditions(ruleset: Ruleset) -> list[When]:
    """Every condition of an edition."""
    edition = ruleset.edition
    teeth = edition.teeth.rules if edition.teeth is not None else ()
    found = [limit.when for limit in edition.limits]
    found += [ruling.when for ruling in edition.rulings]
    found += [rule.when for rule in edition.follows]
    found += [outcome.when for outcome in edition.outcomes]
    found += [combination.when for combination in edition.combinations]
    found += [cap.when for cap in edition.caps]
    found += [rule.when for rule in teeth]
    return [when for when in found if when is not None]
