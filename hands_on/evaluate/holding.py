"""Limits that judge, each held against one reading.

A class is called only where it is sure, the heaviest first; nothing is ever disqualified on a value
that could still be within (JCGM 106:2012, guarded rejection; see `measure.conformity`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import get_args

from hands_on.evaluate.alarms.judged import HeavierNotSure, NearLimit
from hands_on.evaluate.departure import Called
from hands_on.evaluate.held import Held, judged, rule_result
from hands_on.evaluate.ladder import (
    ROUNDED,
    Case,
    class_in,
    class_there,
    light_class,
    rungs,
    stretch,
    weighed,
)
from hands_on.evaluate.result import Alarm, AlarmKind, RuleResult, Verdict
from hands_on.evaluate.values import Reading
from hands_on.frozen import dataclass
from hands_on.measure import conformity
from hands_on.ruleset.rules import Band, Limit, Range

__all__ = ["hold"]

_NEAR = 2.0
"""A disqualifying limit within so many standard uncertainties of a value is told."""


@dataclass(frozen=True)
class _Placed:
    """A reading on the ladder of a limit."""

    verdict: conformity.Verdict
    ladder: Sequence[conformity.Band]
    """What is asked for, then the limit's stretches, weighed."""
    on: conformity.Classification
    best: int | None
    """Place of the stretch that the figure itself lies in."""

    @property
    def sure(self) -> bool:
        """Is it surely in a stretch that counts?"""
        return self.on.called is not None and self.ladder[self.on.called].weight > 0


def hold(case: Case, limit: Limit, wanted: Range, reading: Reading) -> Held:
    """A limit held against a reading: the verdict, the class that may be called, what is to be looked at."""
    asked = stretch(wanted)
    verdict = conformity.verdict(
        reading.value,
        reading.u,
        asked,
        case.confidence,
        dof=reading.dof,
        resting=reading.resting,
        against=reading.against,
    )
    ladder = (asked, *(weighed(case, band) for band in limit.bands))
    try:
        on = conformity.classify(
            reading.value,
            reading.u,
            ladder,
            case.confidence,
            dof=reading.dof,
            resting=reading.resting,
            against=reading.against,
        )
    except ValueError:
        # Stretches that overlap: `check` refuses such a file; here nothing is called on it.
        rule = rule_result(case, limit, reading, "undecided")
        return Held(replace(rule, asked=asked, held=verdict))
    best = next((n for n, one in enumerate(ladder) if one.holds(round(reading.value, ROUNDED))), None)
    placed = _Placed(verdict, ladder, on, best)
    more, more_p = _more_takes(placed)
    band, called = _called(case, limit, placed)
    rule = replace(
        rule_result(case, limit, reading, _verdict(verdict.outcome)),
        asked=asked,
        held=verdict,
        p_inside=verdict.p_inside,
        likelier=verdict.likelier_side,
        more_takes=more,
        more_takes_p=more_p,
        resting=reading.resting,
        confidence=case.confidence,
        too_narrow=verdict.too_narrow,
        ladder=rungs(case, limit, ladder, on.probabilities),
        fault=band.fault if band is not None else None,
        cls=called.cls if called is not None else None,
        band=band.label if band is not None else "",
    )
    alarm = None if limit.optional else _warning(case, limit, reading, rule, placed)
    alarms = (alarm,) if alarm is not None else ()
    return judged(case, limit, reading, rule, band, called, placed.sure, alarms)


def _called(case: Case, limit: Limit, placed: _Placed) -> tuple[Band | None, Called | None]:
    """The stretch a value is said to lie in and its class; for an undecided value the light one."""
    place = placed.on.called
    if place is not None and place > 0:
        return limit.bands[place - 1], class_in(case, limit, limit.bands[place - 1])
    best = placed.best
    if place is None and best and placed.ladder[best].weight > 0:
        called = light_class(case, limit, placed.ladder, best, placed.on.probabilities)
        return limit.bands[best - 1], called
    return None, None


def _more_takes(placed: _Placed) -> tuple[int | None, float | None]:
    """Takes that would settle the verdict, and how probably; where that is settled, the stretch outside."""
    if placed.verdict.outcome == "undecided":
        return placed.verdict.takes_more, placed.verdict.takes_p
    on = placed.on
    return (on.takes_more, on.takes_p) if on.outcome != "inside" else (None, None)


def _verdict(outcome: str) -> Verdict:
    return next(known for known in get_args(Verdict) if known == outcome)


# --- what is to be looked at again -------------------------------------------------------------------


def _warning(case: Case, limit: Limit, reading: Reading, rule: RuleResult, placed: _Placed) -> Alarm | None:
    """Too near a limit, a limit too narrow, or a heavier class that cannot be told.

    Only where something can be done, or much depends on it; all else the rule's own sentence says.
    """
    if placed.on.outcome == "undecided" or (placed.on.called is None and placed.best is not None):
        return _undecided(case, limit, reading, rule, placed)
    if not placed.sure or placed.on.called is None:
        return None
    return _heavier(case, limit, rule, placed, placed.on.called)


def _undecided(case: Case, limit: Limit, reading: Reading, rule: RuleResult, placed: _Placed) -> Alarm | None:
    verdict = placed.verdict
    if verdict.too_narrow and verdict.takes_more is None:
        kind: AlarmKind = "too-narrow"
        wanted = verdict.likelier_side != "inside" and placed.best != 0
    else:
        kind = "near-limit"
        wanted = rule.more_takes is not None or _disqualifying_near(case, limit, reading)
    # Of a young dog only what growing cannot mend matters already.
    ripe = reading.too_young is None or verdict.likelier_side == "above"
    if not wanted or not ripe:
        return None
    return Alarm(kind, limit.measures, NearLimit(rule))


def _heavier(case: Case, limit: Limit, rule: RuleResult, placed: _Placed, called: int) -> Alarm | None:
    """A heavier stretch of the same fault that is too likely to be passed over, and not sure."""
    ladder, on = placed.ladder, placed.on
    beside = [
        place
        for place, band in enumerate(limit.bands, 1)
        if ladder[place].weight > ladder[called].weight and band.fault == limit.bands[called - 1].fault
    ]
    heavier = math.fsum(on.probabilities[place] for place in beside)
    if heavier <= 1.0 - case.confidence:
        return None
    likeliest = max(beside, key=lambda place: on.probabilities[place])
    there, here = (class_there(case, limit.bands[place - 1]) for place in (likeliest, called))
    about = HeavierNotSure(
        rule, here, there, ladder[likeliest], heavier, on.takes_more, on.takes_reason, on.takes_p
    )
    return Alarm("undecided-class", limit.measures, about)


def _disqualifying_near(case: Case, limit: Limit, reading: Reading) -> bool:
    """Does a stretch that disqualifies start within two standard uncertainties of the value?"""
    reach = _NEAR * reading.u
    return any(
        band.low - reach <= reading.value <= band.high + reach
        for band in limit.bands
        if case.classes.disqualifies(class_there(case, band))
    )
