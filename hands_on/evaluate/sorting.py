"""Limits that sort instead of judging: which named stretch a value lies in, and what hangs on it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hands_on.evaluate.result import Verdict
from hands_on.evaluate.values import Reading
from hands_on.measure import conformity
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import Band, Limit, Range
from hands_on.ruleset.ruleset import Ruleset

ROUNDED = 9
"""Decimals at which a computed number and a limit count as equal."""


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
            reading.value, reading.u, one.low, one.high, low_open=one.low_open, high_open=one.high_open
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


def deciding_attributes(ruleset: Ruleset) -> frozenset[str]:
    """The attributes that some rule of the edition hangs on; others are only shown."""
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


def stretch(part: Range, weight: int = 0) -> conformity.Band:
    """A ruleset's range as a stretch of values with a weight."""
    low, high = finite(part.low), finite(part.high)
    label = part.label if isinstance(part, Band) else ""
    return conformity.Band(
        low, high, low is not None and part.low_open, high is not None and part.high_open, weight, label
    )


def finite(end: float) -> float | None:
    """An end of a range, None where it has none."""
    return end if math.isfinite(end) else None
