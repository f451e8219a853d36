"""Measurements and proportions, each with what is asked and how it stands to that."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hands_on.evaluate.result import DerivedResult, Evaluation, MeasureResult, RuleResult
from hands_on.measure.units import format_measured
from hands_on.report.statement import Statement
from hands_on.ruleset.points import MeasurePoint
from hands_on.wording.growth import growth_caution, growth_sentence, growth_source
from hands_on.wording.labels import label_words
from hands_on.wording.own_hand import hand_words
from hands_on.wording.rules import band_words, point_label, reading_words, rule_sentence
from hands_on.wording.uncertainty import basis_words

__all__ = ["computed_alone", "growth_statements", "measured_statements", "proportion_statements"]

_RESTING = {
    "own hand": "on the evaluator's own hand",
    "published": "on published figures",
    "derived": "on derived figures",
    "judgement": "on judgement",
}


def measured_statements(evaluation: Evaluation, full: bool) -> Iterator[Statement]:
    """Each measurement with the limits it is held to, or alone; then on what the uncertainties rest."""
    alone: list[tuple[MeasureResult, tuple[str, ...]]] = []
    left = [rule for rule in _held(evaluation) if len(rule.measures) == 1]
    for one in evaluation.measures:
        rules = [rule for rule in left if rule.measures == (one.id,) and rule.side in (None, one.side)]
        left = [rule for rule in left if rule not in rules]
        beside = f" ({_takes(one)})"
        sources = _source_of_u(evaluation, one)
        if not rules:
            alone.append((one, sources))
        for rule in rules:
            told = _rule(evaluation, rule, full)
            yield Statement(told.text + beside, (*told.sources, *sources), told.more)
            beside, sources = "", ()
    for rule in left:
        yield _rule(evaluation, rule, full)
    if alone:
        values = "; ".join(_alone(evaluation, [one for one, _ in alone]))
        cited = tuple(dict.fromkeys(key for _, keys in alone for key in keys))
        yield Statement(f"Without a limit of their own: {values}{_young([one for one, _ in alone])}", cited)
    if evaluation.measures:
        yield from _bases(evaluation)


def proportion_statements(evaluation: Evaluation, full: bool) -> Iterator[Statement]:
    """What is computed of several measurements, with what is asked of it, or alone."""
    held = [rule for rule in _held(evaluation) if len(rule.measures) != 1]
    for rule in held:
        yield _rule(evaluation, rule, full)
    alone = [
        f"{label_words(one.named) or one.id} {format_measured(one.value, one.u, one.unit)}"
        for one in computed_alone(evaluation, held)
    ]
    if alone:
        yield Statement(f"Without a limit of their own: {', '.join(alone)}")


def computed_alone(evaluation: Evaluation, held: Iterable[RuleResult]) -> Iterator[DerivedResult]:
    """Computed values that none of the limits `held` against the dog tells already."""
    ruleset = evaluation.classes.ruleset
    ids = {rule.id for rule in held}
    told = {limit.name for limit in ruleset.edition.limits if limit.id in ids}
    for one in evaluation.derived:
        # a value that only limits name, of which none was held, has their name and no entry of its own
        known = ruleset.derived.get(one.id)
        if (known.name if known is not None else one.id) not in told:
            yield one


def growth_statements(evaluation: Evaluation) -> Iterator[Statement]:
    """What a young dog may grow to; the sources are texts."""
    for one in evaluation.growth:
        label = point_label(evaluation, one.id)
        more = tuple(filter(None, (growth_caution(one),)))
        yield Statement(f"{label} {growth_sentence(one)}", (growth_source(one),) if one.source else (), more)


def _held(evaluation: Evaluation) -> list[RuleResult]:
    return [rule for rule in evaluation.rules if rule.verdict != "not-measured"]


def _rule(evaluation: Evaluation, rule: RuleResult, full: bool) -> Statement:
    # Of a limit that judges, its sentence says so itself.
    practice = "; practice, not counted" if rule.optional and not rule.judged else ""
    band = f"; {rule.band}" if rule.band and rule.fault else ""
    more = (f"How it is read: {rule.reading}",) if full and rule.reading else ()
    told = rule_sentence(evaluation, rule)
    if rule.judged_from is not None and rule.asked is not None and not full:
        # nothing is called of a dog too young: figure and asked are enough
        told = f"{reading_words(rule)}, asked {band_words(rule.asked)}"
        told += f"; judged from {rule.judged_from:g} months"
    return Statement(f"{label_words(rule.named)} {told}{practice}{band}", rule.sources, more)


def _alone(evaluation: Evaluation, measures: list[MeasureResult]) -> Iterator[str]:
    """Each with its value, those taken equally often together."""
    groups: dict[str, list[str]] = {}
    for one in measures:
        label = point_label(evaluation, one.id) + (f", {one.side}" if one.side else "")
        told = f"{label} {format_measured(one.value, one.u, one.unit)}"
        groups.setdefault(_takes(one), []).append(told)
    for takes, told_of in groups.items():
        yield f"{', '.join(told_of)} ({takes}{' each' if len(told_of) > 1 else ''})"


def _young(measures: list[MeasureResult]) -> str:
    """Which of them cannot be judged yet, and until when."""
    ages = sorted({one.judged_from for one in measures if one.judged_from})
    if not ages:
        return ""
    until = f"{ages[0]:g}" if len(ages) == 1 else f"{ages[0]:g} to {ages[-1]:g}"
    return f"; too young to judge until {until} months"


def _takes(one: MeasureResult) -> str:
    """How often it was taken, and on what its uncertainty rests unless on judgement."""
    if one.contradictory:
        return f"{one.takes} takes that contradict each other"
    if one.takes == 0:
        return "from the tooth chart"
    takes = "1 take" if one.takes == 1 else f"{one.takes} takes"
    if one.own_tem is not None:
        return "; ".join(filter(None, (basis_words(one.basis), hand_words(one))))
    return takes if one.rests_on in ("judgement", "counted") else f"{takes}, default {one.rests_on}"


def _source_of_u(evaluation: Evaluation, one: MeasureResult) -> tuple[str, ...]:
    """Where a published or derived uncertainty stands; judgement has no source to cite."""
    point = evaluation.classes.ruleset.points.get(one.id)
    cited = one.rests_on in ("published", "derived") and isinstance(point, MeasurePoint)
    return point.u.source if cited and isinstance(point, MeasurePoint) else ()


def _bases(evaluation: Evaluation) -> Iterator[Statement]:
    """On what the uncertainties of the edition's measurements rest."""
    counts = {name: count for name, count in evaluation.bases.items() if name in _RESTING}
    if any(counts.values()):
        told = ", ".join(f"{_RESTING[name]} ({count})" for name, count in counts.items())
        yield Statement(f"Uncertainties of measurement rest {told}")
