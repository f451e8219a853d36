"""Limits held against the dog's numbers: a verdict, and a departure where one is found.

A class is called only where it is sure, the heaviest first; nothing is ever disqualified on a value
that could still be within (JCGM 106:2012, guarded rejection; see `measure.conformity`).
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass, field, replace
from typing import get_args

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.classes import NONE, Classes
from hands_on.evaluate.departure import Called, Departure
from hands_on.evaluate.measures import Measures
from hands_on.evaluate.result import Alarm, AlarmKind, RuleResult, Verdict
from hands_on.evaluate.sorting import ROUNDED, deciding_attributes, finite, placed, stretch
from hands_on.evaluate.values import Incomputable, Reading, describe, readings, unit_of
from hands_on.measure import conformity
from hands_on.measure.age import age_text
from hands_on.measure.telling import more_takes_text, percent
from hands_on.measure.units import format_measured, format_value
from hands_on.ruleset.rules import Band, Limit, Range
from hands_on.ruleset.ruleset import Ruleset

_NEAR = 2.0
"""A disqualifying limit within so many standard uncertainties of a value is told."""


@dataclass
class Limits:
    """What all limits of an edition give."""

    rules: list[RuleResult] = field(default_factory=list)
    departures: list[Departure] = field(default_factory=list)
    alarms: list[Alarm] = field(default_factory=list)
    inside: list[tuple[str, str | None, RuleResult]] = field(default_factory=list)
    """Faults (and their details) that a counted limit names and that are surely not there; its result."""
    outside: set[str] = field(default_factory=set)
    """Ids of limits surely not kept, old enough to count; those of practice beside the standard too."""


class LimitJudge:
    """Holds limits against one dog."""

    def __init__(
        self,
        ruleset: Ruleset,
        circumstances: Circumstances,
        classes: Classes,
        measures: Measures,
        present: Collection[str],
    ) -> None:
        self.ruleset = ruleset
        self.circumstances = circumstances
        self.classes = classes
        self.measures = measures
        self.present = present
        self.confidence = ruleset.edition.confidence
        self.found = Limits()

    def judge(self) -> Limits:
        """All limits that apply: those that sort first, since others may hang on what they find."""
        limits = self.ruleset.edition.limits
        for limit in sorted(limits, key=lambda limit: limit.classifies is None):
            measured = all(name in self.measures.by_point for name in limit.measures)
            if measured:
                applies = self.circumstances.holds(limit.when, present=self.present, points=limit.measures)
            else:
                applies = self.circumstances.state(limit.when, present=self.present) == "holds"
            if applies:
                self._one(limit)
        order = {limit.id: place for place, limit in enumerate(limits)}
        self.found.rules.sort(key=lambda rule: order[rule.id])
        return self.found

    def _one(self, limit: Limit) -> None:
        try:
            found = readings(self.ruleset, self.measures, limit, limit.unit)
        except Incomputable as problem:
            self.found.rules.append(self._result(limit, None, "not-measured", problem.text, problem.missing))
            return
        age = self.circumstances.age
        if limit.from_age is not None and (age is None or age < limit.from_age):
            for reading in found:
                when = "age not known" if age is None else f"at {age_text(age)}"
                text = f"{_shown(reading)}: judged from {limit.from_age:g} months, not yet ({when})"
                self.found.rules.append(self._result(limit, reading, "not-yet", text))
            if age is None:
                self.circumstances.lacking.setdefault("age", limit.measures)
            return
        for reading in found:
            if limit.classifies is not None:
                self._sort(limit, limit.classifies, reading)
            elif limit.asked is not None:
                self._hold(limit, limit.asked, reading)

    # --- limits that judge -----------------------------------------------------------------------

    def _hold(self, limit: Limit, wanted: Range, reading: Reading) -> None:
        asked = stretch(wanted)
        verdict = conformity.verdict(
            reading.value, reading.u, asked, self.confidence,
            u_lasting=reading.u_lasting, n=reading.n, unit=reading.unit, asked=_asked_word(limit, wanted),
        )  # fmt: skip
        ladder = [asked, *(self._weighed(band) for band in limit.bands)]
        try:
            placed = conformity.classify(
                reading.value, reading.u, ladder, self.confidence, u_lasting=reading.u_lasting, n=reading.n
            )
        except ValueError:
            # Stretches that overlap: `check` refuses such a file; here nothing is called on it.
            text = f"{verdict.sentence} (the rule's stretches overlap; nothing is called)"
            self.found.rules.append(self._result(limit, reading, "undecided", text))
            return
        best = next((n for n, one in enumerate(ladder) if one.holds(round(reading.value, ROUNDED))), None)
        band: Band | None = None
        called: Called | None = None
        sure = placed.called is not None and ladder[placed.called].weight > 0
        if placed.called is not None and placed.called > 0:
            band = limit.bands[placed.called - 1]
            called = self._class_in(limit, band)
        elif placed.called is None and best and ladder[best].weight > 0:
            band = limit.bands[best - 1]
            called = self._light_class(limit, ladder, best, placed.probabilities)
        sentence = verdict.sentence
        if reading.judged_from is not None:  # nothing is to be settled yet
            sentence = sentence.removesuffix(f"; {more_takes_text(verdict.takes_more, verdict.takes_reason)}")
        result = self._result(limit, reading, _verdict(verdict.outcome), sentence)
        if verdict.outcome == "undecided":
            more = verdict.takes_more
        else:
            more = placed.takes_more if sure and not placed.settled else None
        self._keep(
            limit, reading, replace(
                result, p_inside=verdict.p_inside, likelier=verdict.likelier_side, more_takes=more,
                too_narrow=verdict.too_narrow, p_class=self._p_class(limit, placed.probabilities),
                fault=band.fault if band is not None else None,
                cls=called.cls if called is not None else None,
                band=band.label if band is not None else "",
            ),
            band, called, sure,
        )  # fmt: skip
        if not limit.optional:
            self._warn(limit, reading, verdict, ladder, placed, best, sure)

    def _keep(
        self,
        limit: Limit,
        reading: Reading,
        result: RuleResult,
        band: Band | None,
        called: Called | None,
        sure: bool,
    ) -> None:
        notes = []
        if limit.optional:
            notes.append("practice, not counted")
        if reading.judged_from is not None:
            notes.append(f"too young, judged from {reading.judged_from:g} months")
        if band is not None and called is not None and called.cls == NONE:
            notes.append("tolerated" if band.tolerated else "no fault")
        sentence = "; ".join([result.sentence, *notes])
        result = replace(result, sentence=sentence)
        self.found.rules.append(result)
        if result.verdict == "outside" and not reading.too_young:
            self.found.outside.add(limit.id)
        if limit.optional:
            return
        if result.verdict == "inside":
            named = dict.fromkeys((one.fault, one.place) for one in limit.bands if one.fault)
            self.found.inside += [(fault, detail, result) for fault, detail in named]
        if band is None or called is None or (called.cls == NONE and band.fault is None):
            return
        above = limit.asked is not None and reading.value > limit.asked.high
        reasons = [text for text in (limit.text, band.note) if text]
        self.found.departures.append(
            Departure(
                fault=band.fault or limit.id,
                origin="take",
                points=limit.measures,
                degree=band.degree,
                side=reading.side,
                # A tolerated stretch is never a fault, sure or not.
                status="present" if sure or called.cls == NONE else "unsure",
                detail=band.place,
                same=band.detail[1:],
                label="" if band.fault else band.label or describe(self.ruleset, limit),
                called=replace(called, reasons=(*called.reasons, *reasons)),
                measured=sentence,
                too_young=reading.too_young,
                judged_from=reading.judged_from,
                lasting=sure and above and limit.measure is not None,
            )
        )

    def _weighed(self, band: Band) -> conformity.Band:
        """A stretch with its weight; what counts outside is 1 at least."""
        return stretch(band, self.classes.weight(self._class_there(band)))

    def _class_there(self, band: Band) -> str:
        """The class of a stretch whether the value lies in it or not: what is lacking is not remembered."""
        if band.tolerated:
            return NONE
        return band.class_ or self._by_rulings(band, None).cls

    def _by_rulings(self, band: Band, points: tuple[str, ...] | None) -> Called:
        if band.fault is None:
            return self.classes.unnamed()
        return self.classes.class_of(band.fault, band.degree, band.place, self.present, points)

    def _class_in(self, limit: Limit, band: Band) -> Called:
        """The class of a stretch that the value surely lies in."""
        if band.tolerated:
            return Called(NONE, limit.source, limit.reading, ("out of what is asked for, but tolerated",))
        if band.class_ is None:
            return self._by_rulings(band, limit.measures)
        switch = next(iter(limit.when.switch), "") if limit.when is not None and limit.when.switch else ""
        return Called(band.class_, limit.source, limit.reading, (), switch)

    def _light_class(
        self, limit: Limit, ladder: list[conformity.Band], best: int, probabilities: tuple[float, ...]
    ) -> Called:
        """The class of an undecided value: the likeliest on its side that does not disqualify."""
        fault = limit.bands[best - 1].fault
        options = [
            (probabilities[place], self._class_in(limit, band))
            for place, band in enumerate(limit.bands, 1)
            if band.fault == fault and ladder[place].weight > 0
        ]
        light = [(p, called) for p, called in options if not self.classes.disqualifies(called.cls)]
        if not light:
            return self.classes.lightest_sure
        return max(light, key=lambda option: option[0])[1]

    def _warn(
        self,
        limit: Limit,
        reading: Reading,
        verdict: conformity.Verdict,
        ladder: list[conformity.Band],
        placed: conformity.Classification,
        best: int | None,
        sure: bool,
    ) -> None:
        """Alarms: too near a limit, limits too narrow, a heavier class that cannot be told.

        Only where something can be done, or much hangs on it; all else the rule's own sentence says.
        """
        label = self._label(limit, reading)
        if placed.outcome == "undecided" or (placed.called is None and best is not None):
            if verdict.too_narrow and verdict.takes_more is None:
                kind: AlarmKind = "too-narrow"
                wanted = verdict.likelier_side != "inside" and best != 0
            else:
                kind = "near-limit"
                wanted = verdict.takes_more is not None or self._disqualifying_near(limit, reading)
            # Of a young dog only what growing cannot mend matters already.
            ripe = reading.judged_from is None or verdict.likelier_side == "above"
            if wanted and ripe:
                self.found.alarms.append(Alarm(kind, limit.measures, f"{label} {verdict.sentence}."))
            return
        if not sure or placed.called is None:
            return
        weight = ladder[placed.called].weight
        beside = [
            place
            for place, band in enumerate(limit.bands, 1)
            if ladder[place].weight > weight and band.fault == limit.bands[placed.called - 1].fault
        ]
        heavier = math.fsum(placed.probabilities[place] for place in beside)
        if heavier > 1.0 - self.confidence:
            likeliest = max(beside, key=lambda place: placed.probabilities[place])
            there = self._class_in(limit, limit.bands[likeliest - 1]).cls
            here = self._class_in(limit, limit.bands[placed.called - 1]).cls
            sure_of = f"{label} {_shown(reading)}: {self.classes.name(here)} for sure"
            beyond = f"{self.classes.name(there)} ({ladder[likeliest].text()}) only {percent(heavier)} sure"
            advice = more_takes_text(placed.takes_more, placed.takes_reason)
            text = "; ".join(filter(None, (sure_of, f"{beyond}, so not called", advice)))
            self.found.alarms.append(Alarm("undecided-class", limit.measures, f"{text}."))

    def _disqualifying_near(self, limit: Limit, reading: Reading) -> bool:
        """Does a stretch that disqualifies start within two standard uncertainties of the value?"""
        reach = _NEAR * reading.u
        return any(
            band.low - reach <= reading.value <= band.high + reach
            for band in limit.bands
            if self.classes.disqualifies(self._class_there(band))
        )

    def _p_class(self, limit: Limit, probabilities: tuple[float, ...]) -> dict[str, float]:
        """The probability of each class, over the stretches outside what is asked for."""
        chances: dict[str, float] = {}
        for band, p in zip(limit.bands, probabilities[1:], strict=True):
            cls = self._class_there(band)
            chances[cls] = chances.get(cls, 0.0) + p
        return chances

    # --- limits that sort ------------------------------------------------------------------------

    def _sort(self, limit: Limit, attribute: str, reading: Reading) -> None:
        """Which named stretch the value lies in; a stretch with a fault instead of a value judges."""
        placing = placed(limit, reading, self.confidence)
        band = placing.band
        declared = self.ruleset.edition.attributes.get(attribute)
        label = declared.label if declared is not None else attribute
        word = "none of those named"
        if band is not None:
            options = declared.options if declared is not None else {}
            named = options.get(band.value or "", band.value or "")
            word = band.label or named or (self.ruleset.label(band.fault) if band.fault else word)
        sure = "" if placing.sure else "undecided, by the figure "
        text = f"{_shown(reading)}: {label.lower()} {sure}{word}"
        result = replace(
            self._result(limit, reading, placing.verdict, text),
            p_inside=placing.p_named,
            band=word if band is not None else "",
            likelier="inside" if placing.p_named > 0.5 else "",
        )
        if band is not None and placing.sure and band.value:
            self._settle(limit, attribute, band.value, label)
        elif not placing.sure and not limit.optional and attribute in deciding_attributes(self.ruleset):
            text = f"{self._label(limit, reading)} {text}; rules hang on it."
            self.found.alarms.append(Alarm("near-limit", limit.measures, text))
        if band is None or not band.fault or band.value:
            self.found.rules.append(result)
            return
        called = self._class_in(limit, band)
        if not placing.sure and self.classes.disqualifies(called.cls):
            called = self.classes.lightest_sure
        result = replace(result, fault=band.fault, cls=called.cls)
        self._keep(limit, reading, result, band, called, placing.sure)

    def _settle(self, limit: Limit, attribute: str, value: str, label: str) -> None:
        entered = self.circumstances.entered(attribute)
        self.circumstances.classified[attribute] = value
        if entered and entered != value:
            text = f"{label}: entered as {entered}, measured as {value}, which is used. Look at both."
            self.found.alarms.append(Alarm("contradiction", limit.measures, text))

    # --- results ---------------------------------------------------------------------------------

    def _label(self, limit: Limit, reading: Reading | None) -> str:
        words = describe(self.ruleset, limit)
        return f"{words} ({reading.side})" if reading is not None and reading.side else words

    def _result(
        self,
        limit: Limit,
        reading: Reading | None,
        verdict: Verdict,
        sentence: str,
        missing: tuple[str, ...] = (),
    ) -> RuleResult:
        asked = limit.asked
        return RuleResult(
            id=limit.id,
            value=reading.value if reading is not None else None,
            u=reading.u if reading is not None else None,
            unit=reading.unit if reading is not None else limit.unit or unit_of(self.ruleset, limit),
            low=finite(asked.low) if asked is not None else None,
            high=finite(asked.high) if asked is not None else None,
            p_inside=None,
            verdict=verdict,
            fault=None,
            cls=None,
            label=self._label(limit, reading),
            sentence=sentence,
            source=self.ruleset.source_text(limit.source),
            reading=limit.reading,
            optional=limit.optional,
            about=limit.about,
            missing=missing,
            side=reading.side if reading is not None else None,
            measures=limit.measures,
            ideal=limit.ideal,
            words=limit.words,
        )


def _verdict(outcome: str) -> Verdict:
    return next(known for known in get_args(Verdict) if known == outcome)


def _shown(reading: Reading) -> str:
    if reading.u:
        return format_measured(reading.value, reading.u, reading.unit)
    return format_value(reading.value, reading.unit)


def _asked_word(limit: Limit, wanted: Range) -> str:
    """The word before what is asked for: an ideal is no limit, and `about` is the standard's own word."""
    if limit.ideal:
        return "ideal"
    both = math.isfinite(wanted.low) and math.isfinite(wanted.high)
    return "asked about" if limit.about and both else "asked"
