"""Ruleset and session to evaluation, in steps that each stand in a module of their own.

                     growing (young dogs)
takes -> measures -> values -> limits ----+
grades, choices, notes -> observed -------+-> merge -> findings -> totals, outcome
tooth chart -> teeth ---------------------+
dog -> follows ---------------------------+
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hands_on.evaluate import observed, outcome
from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.classes import Classes
from hands_on.evaluate.closures import closure_alarms
from hands_on.evaluate.contradictions import contradictions
from hands_on.evaluate.departure import Departure
from hands_on.evaluate.findings import FindingMaker, found_faults
from hands_on.evaluate.follows import followed
from hands_on.evaluate.growing import growth
from hands_on.evaluate.limits import LimitJudge, Limits
from hands_on.evaluate.measures import TEETH_COUNT, WEIGHT, Measures, bases, measure
from hands_on.evaluate.merge import merge, ruled_out
from hands_on.evaluate.result import Alarm, Evaluation, Gap
from hands_on.evaluate.sorting import conditions
from hands_on.evaluate.teeth import Chart, read_chart
from hands_on.evaluate.values import derived
from hands_on.exam.answers import amended
from hands_on.exam.session import Session
from hands_on.exam.walk import state_of, stops
from hands_on.measure.hand import OwnHand
from hands_on.ruleset.ruleset import Ruleset

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
    circumstances = Circumstances(ruleset, now)
    measures = measure(ruleset, now, circumstances, hand or {})
    if circumstances.size_class is None and WEIGHT in measures.by_point:
        circumstances.settle_size(measures.by_point[WEIGHT].pooled.value)
        measures = measure(ruleset, now, circumstances, hand or {})
    seen = observed.observe(ruleset, now)
    classes = Classes(ruleset, circumstances)

    present = found_faults(seen.departures, now.decisions)
    limits, chart, of_dog = _held(ruleset, now, circumstances, classes, measures, present)
    among_faults = any(when.together_with or when.without for when in conditions(ruleset))
    for _ in range(_ROUNDS):
        departures = [*limits.departures, *seen.departures, *chart.departures, *of_dog]
        found = found_faults(departures, now.decisions)
        if found == present:
            break
        present = found
        if among_faults:
            limits, chart, of_dog = _held(ruleset, now, circumstances, classes, measures, present)

    departures = [*limits.departures, *seen.departures, *chart.departures, *of_dog]
    maker = FindingMaker(ruleset, circumstances, classes, now.decisions, present)
    findings = maker.make(merge(departures), ruled_out(departures))
    best, reasons = outcome.best_left(ruleset, circumstances, classes, findings.counted, limits.outside)
    clashes = contradictions(ruleset, departures, seen.affirmed, limits, chart, now.decisions)
    alarms = [
        *_about_edition(ruleset, now),
        *circumstances.alarms(),
        *measures.alarms,
        *closure_alarms(ruleset, measures),
        *clashes,
        *seen.alarms,
        *limits.alarms,
        *chart.alarms,
        *findings.alarms,
    ]
    return Evaluation(
        session=name or now.dog.call_name or now.dog.registered_name,
        ruleset=ruleset.id,
        edition=ruleset.edition.edition,
        age_months=circumstances.age,
        measures=tuple(measures.results),
        derived=derived(ruleset, measures),
        rules=tuple(limits.rules),
        findings=tuple(findings.counted),
        allowed=tuple(findings.allowed),
        totals=outcome.totals(ruleset, findings.counted, "present"),
        unsure=outcome.totals(ruleset, findings.counted, "unsure"),
        alarms=_each_once(alarms),
        gaps=_gaps(ruleset, now, measures),
        disqualifying=outcome.disqualifying(classes, findings.counted),
        outcome_at_most=best,
        outcome_reasons=reasons,
        outcomes=tuple(row.id for row in circumstances.outcomes()),
        growth=growth(measures, circumstances),
        bases=bases(ruleset, hand or {}),
    )


def _held(
    ruleset: Ruleset,
    session: Session,
    circumstances: Circumstances,
    classes: Classes,
    measures: Measures,
    present: frozenset[str],
) -> tuple[Limits, Chart, list[Departure]]:
    """Limits, tooth chart and what follows from the dog alone, given the faults found."""
    circumstances.classified.clear()
    circumstances.lacking.clear()
    limits = LimitJudge(ruleset, circumstances, classes, measures, present).judge()
    chart = read_chart(ruleset, session.teeth, circumstances, classes, present)
    return limits, chart, followed(ruleset, circumstances)


def _about_edition(ruleset: Ruleset, session: Session) -> list[Alarm]:
    """What is to be said of edition and switches."""
    alarms: list[Alarm] = []
    held = session.ruleset
    if held.id == ruleset.id and held.digest and held.digest != ruleset.digest:
        text = "The edition's file has changed since this session was held; so may the result."
        alarms.append(Alarm("digest", (), text))
    if held.id == ruleset.id:
        for name in session.examination.switches:
            if name not in ruleset.edition.switches:
                text = f"The rule {name} was chosen for this examination; this edition has no such switch."
                alarms.append(Alarm("unknown-attribute", (), text))
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
