"""An evaluation as one JSON document: values, and the sentences about them."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from hands_on.evaluate.outlook import End
from hands_on.evaluate.result import (
    DerivedResult,
    Evaluation,
    Finding,
    GrowthResult,
    MeasureResult,
    RuleResult,
)
from hands_on.wording.alarms import alarm_text
from hands_on.wording.findings import finding_reasons, measured_words
from hands_on.wording.growth import growth_caution, growth_sentence, growth_source, no_growth_words
from hands_on.wording.labels import label_words
from hands_on.wording.outcome import outcome_reasons
from hands_on.wording.outlook import left_open_words, outlook_lines
from hands_on.wording.rules import rule_sentence, until_inside_words
from hands_on.wording.uncertainty import basis_words

__all__ = ["evaluation_document"]


def evaluation_document(evaluation: Evaluation) -> dict[str, Any]:
    """The evaluation as `hands-on assess --json` prints it and a signed session keeps it."""
    alarms = evaluation.alarms
    return {
        "session": evaluation.session,
        "ruleset": evaluation.ruleset,
        "edition": evaluation.edition,
        "age_months": evaluation.age_months,
        "measures": [_measure(entry) for entry in evaluation.measures],
        "bases": dict(evaluation.bases),
        "derived": [_derived(entry) for entry in evaluation.derived],
        "growth": [_growth(entry) for entry in evaluation.growth],
        "rules": [_rule(evaluation, rule) for rule in evaluation.rules],
        "findings": [_finding(evaluation, finding) for finding in evaluation.findings],
        "allowed": [_finding(evaluation, finding) for finding in evaluation.allowed],
        "totals": dict(evaluation.totals),
        "unsure": dict(evaluation.unsure),
        "disqualifying": list(evaluation.disqualifying),
        "outcome_at_most": evaluation.outcome_at_most,
        "outcome_reasons": list(outcome_reasons(evaluation)),
        "outcomes": list(evaluation.outcomes),
        "outlook": _outlook(evaluation),
        "alarms": [
            {"kind": one.kind, "points": one.points, "text": alarm_text(evaluation, one)} for one in alarms
        ],
        "gaps": [entry.point for entry in evaluation.gaps],
        "skipped": [asdict(entry) for entry in evaluation.gaps if entry.skipped],
    }


def _measure(measured: MeasureResult) -> dict[str, Any]:
    return asdict(measured) | {"basis": basis_words(measured.basis)}


def _derived(computed: DerivedResult) -> dict[str, Any]:
    values = asdict(computed)
    del values["named"]
    return values | {"label": label_words(computed.named)}


def _outlook(evaluation: Evaluation) -> dict[str, Any]:
    """What is left open: each class with its probability, the outcome at best and at worst."""
    ahead = evaluation.outlook
    return {
        "best": _end(ahead.best),
        "worst": _end(ahead.worst),
        "p_class": dict(ahead.chances),
        "open": [
            {
                "label": label_words(one.named),
                "points": one.points,
                "rule": one.rule.id if one.rule is not None else None,
                "fault": one.finding.id if one.finding is not None else None,
                "lightest": one.lightest,
                "heaviest": one.heaviest,
                "p_class": dict(one.chances),
                "text": left_open_words(evaluation, one),
            }
            for one in ahead.open
        ],
        "text": list(outlook_lines(evaluation)),
    }


def _end(end: End) -> dict[str, Any]:
    return {"outcome": end.outcome, "class": end.cls, "disqualified": end.disqualified}


def _growth(grown: GrowthResult) -> dict[str, Any]:
    values = asdict(grown)
    del values["cautions"], values["refused"]
    del values["source"]
    return values | {
        "caution": growth_caution(grown),
        "source": growth_source(grown),
        "refused": no_growth_words(grown.refused),
        "sentence": growth_sentence(grown),
    }


def _rule(evaluation: Evaluation, rule: RuleResult) -> dict[str, Any]:
    return {
        "id": rule.id,
        "value": rule.value,
        "u": rule.u,
        "unit": rule.unit,
        "low": rule.low,
        "high": rule.high,
        "p_inside": rule.p_inside,
        "verdict": rule.verdict,
        "fault": rule.fault,
        "class": rule.cls,
        "label": label_words(rule.named),
        "sentence": rule_sentence(evaluation, rule),
        "until_inside": until_inside_words(rule),
        "likelier": rule.likelier,
        "more_takes": rule.more_takes,
        "more_takes_p": rule.more_takes_p,
        "contradictory": rule.contradictory,
        "source": rule.source,
        "reading": rule.reading,
        "optional": rule.optional,
        "about": rule.about,
        "band": rule.band,
        "missing": rule.missing,
        "side": rule.side,
        "measures": rule.measures,
        "ideal": rule.ideal,
        "words": rule.words,
        "too_narrow": rule.too_narrow,
        "p_class": rule.p_class,
    }


def _finding(evaluation: Evaluation, finding: Finding) -> dict[str, Any]:
    return {
        "id": finding.id,
        "label": label_words(finding.named),
        "region": finding.region,
        "degree": finding.degree,
        "side": finding.side,
        "status": finding.status,
        "class": finding.cls,
        "origin": finding.origin,
        "origins": finding.origins,
        "points": finding.points,
        "too_young": finding.too_young,
        "judged_from": finding.judged_from,
        "detail": finding.detail,
        "measured": measured_words(evaluation, finding),
        "teeth": finding.teeth,
        "function": finding.function,
        "veterinary": finding.veterinary,
        "source": finding.source,
        "reading": finding.reading,
        "reasons": finding_reasons(evaluation.classes.ruleset, finding),
        "decision": finding.decision,
        "computed_class": finding.computed_cls,
        "counts": finding.counts,
    }
