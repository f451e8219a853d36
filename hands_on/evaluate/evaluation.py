"""Ruleset and session to evaluation, in stages that each stand in a module of their own and give one result.

takes -> measures -> circumstances (age, size class)
limits: those that sort (the circumstances with what they settle), those that judge
grades, choices, notes -> observed; tooth chart -> teeth; the dog alone -> observed.of_dog
departures of all these -> merge -> findings -> totals, best outcome left
beside them: growth of young dogs, closures, contradictions
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from hands_on.evaluate import observed, outcome
from hands_on.evaluate.alarms.recorded import EditionChanged, NoSuchSwitch
from hands_on.evaluate.as_asked import as_asked
from hands_on.evaluate.circumstances import Circumstances, Lacking, circumstances_of, lacking_alarms
from hands_on.evaluate.classes import Classes
from hands_on.evaluate.closures import closure_alarms
from hands_on.evaluate.contradictions import contradictions
from hands_on.evaluate.departure import Departure
from hands_on.evaluate.findings import found_faults, make_findings
from hands_on.evaluate.growing import growth
from hands_on.evaluate.ladder import Case
from hands_on.evaluate.limits import Limits, hold_limits
from hands_on.evaluate.measures import TEETH_COUNT, Measures, at_age, bases, measure, results
from hands_on.evaluate.merge import merge, ruled_out
from hands_on.evaluate.outlook import outlook
from hands_on.evaluate.result import Alarm, Evaluation, Gap
from hands_on.evaluate.sorting import conditions
from hands_on.evaluate.teeth import Chart, read_chart
from hands_on.evaluate.together import asked_together
from hands_on.evaluate.unlikely import unlikely_readings
from hands_on.evaluate.values import derived
from hands_on.exam.answers import amended
from hands_on.exam.session import Session
from hands_on.exam.walk import state_of, stops
from hands_on.frozen import dataclass
from hands_on.measure.hand import OwnHand
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["evaluate"]

_ROUNDS = 3
"""How often limits and chart are read anew when a fault they find changes a condition."""


def evaluate(
    ruleset: Ruleset,
    session: Session,
    *,
    name: str = "",
    hand: Mapping[str, OwnHand] | None = None,
) -> Evaluation:
    """What `session` gives under `ruleset`; the session may have been held under another edition.

    `name` is how the session is called in the result; `hand` the evaluator's own repeatability by point.
    Never raises for a session and a ruleset that were read: what is odd becomes an alarm.
    """
    now = amended(session)
    taken = measure(ruleset, now, hand or {})
    before = circumstances_of(ruleset, now, taken.weight_kg)
    measures = at_age(taken, before)
    seen = observed.observe(ruleset, now)
    held = _settled(ruleset, now, before, measures, seen)
    limits, chart, circumstances = held.limits, held.chart, held.limits.circumstances
    classes = Classes(ruleset, circumstances)

    departures = held.departures(seen)
    groups, absent = merge(departures), ruled_out(departures)
    findings = make_findings(classes, now.decisions, held.present, groups, absent)
    best = outcome.best_left(classes, findings.counted, limits.outside)
    clashes = contradictions(ruleset, departures, seen.affirmed, limits, chart, now.decisions)
    stages = (limits.lacking, chart.lacking, held.of_dog_lacking, findings.lacking, best.lacking)
    alarms = [
        *_about_edition(ruleset, now),
        *lacking_alarms(circumstances, stages),
        *measures.alarms,
        *unlikely_readings(ruleset, now, measures),
        *closure_alarms(ruleset, measures),
        *clashes,
        *asked_together(ruleset, departures, seen.affirmed, measures, circumstances, now.decisions),
        *seen.alarms,
        *limits.alarms,
        *chart.alarms,
        *findings.alarms,
    ]
    return Evaluation(
        session=name or now.dog.call_name or now.dog.registered_name,
        ruleset=ruleset.id,
        edition=ruleset.edition.edition,
        circumstances=circumstances,
        classes=classes,
        measured=measures,
        measures=results(measures),
        derived=derived(ruleset, measures),
        rules=limits.rules,
        findings=findings.counted,
        allowed=findings.allowed,
        totals=outcome.totals(ruleset, findings.counted, "present"),
        unsure=outcome.totals(ruleset, findings.counted, "unsure"),
        alarms=_each_once(alarms),
        gaps=_gaps(ruleset, now, measures),
        disqualifying=outcome.disqualifying(classes, findings.counted),
        outcome_at_most=best.outcome,
        outcome_reasons=best.reasons,
        outlook=outlook(
            classes, findings.counted, limits.judging, limits.outside, ruleset.edition.confidence
        ),
        outcomes=tuple(row.id for row in circumstances.outcomes()),
        as_asked=as_asked(ruleset, now, circumstances, seen, (*findings.counted, *findings.allowed), alarms),
        growth=growth(measures, circumstances),
        bases=bases(ruleset, hand or {}),
    )


@dataclass(frozen=True)
class _Held:
    """Limits, tooth chart and what follows from the dog alone, given the faults found."""

    present: frozenset[str]
    limits: Limits
    chart: Chart
    of_dog: tuple[Departure, ...]
    of_dog_lacking: Lacking

    def departures(self, seen: observed.Observed) -> tuple[Departure, ...]:
        """All departures, from answers too."""
        return (*self.limits.departures, *seen.departures, *self.chart.departures, *self.of_dog)


def _settled(
    ruleset: Ruleset,
    session: Session,
    circumstances: Circumstances,
    measures: Measures,
    seen: observed.Observed,
) -> _Held:
    """Held until the faults found no longer change; they matter where conditions ask for other faults."""
    among_faults = any(when.together_with or when.without for when in conditions(ruleset))
    present = found_faults(seen.departures, session.decisions)
    held = _hold(ruleset, session, circumstances, measures, present)
    for _ in range(_ROUNDS):
        found = found_faults(held.departures(seen), session.decisions)
        if found == present:
            break
        present = found
        held = _hold(ruleset, session, circumstances, measures, present) if among_faults else held
    return replace(held, present=present)


def _hold(
    ruleset: Ruleset,
    session: Session,
    circumstances: Circumstances,
    measures: Measures,
    present: frozenset[str],
) -> _Held:
    limits = hold_limits(Case(ruleset, circumstances, measures, present))
    chart = read_chart(ruleset, session.teeth, Classes(ruleset, limits.circumstances), present)
    of_dog, lacking = observed.of_dog(ruleset, limits.circumstances)
    return _Held(present, limits, chart, of_dog, lacking)


def _about_edition(ruleset: Ruleset, session: Session) -> list[Alarm]:
    """What is to be said of edition and switches."""
    alarms: list[Alarm] = []
    held = session.ruleset
    if held.id == ruleset.id and held.digest and held.digest != ruleset.digest:
        alarms.append(Alarm("digest", (), EditionChanged()))
    if held.id == ruleset.id:
        for name in session.examination.switches:
            if name not in ruleset.edition.switches:
                alarms.append(Alarm("unknown-attribute", (), NoSuchSwitch(name)))
    return alarms


def _gaps(ruleset: Ruleset, session: Session, measures: Measures) -> tuple[Gap, ...]:
    """The points of the walk without an answer."""
    gaps: list[Gap] = []
    skips = {skip.point or skip.region: skip.reason for skip in reversed(session.skips)}
    for stop in stops(ruleset, session):
        point = stop.point
        state = state_of(session, point)
        counted = point.id == TEETH_COUNT and TEETH_COUNT in measures.by_point
        if state != "answered" and not counted:
            reason = skips.get(point.id, skips.get(point.region, ""))
            gaps.append(Gap(point.id, point.region, state == "skipped", reason))
    return tuple(gaps)


def _each_once(alarms: Iterable[Alarm]) -> tuple[Alarm, ...]:
    return tuple(dict.fromkeys(alarms))
