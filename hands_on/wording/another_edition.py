"""What becomes of a session's findings and verdicts under another edition, in words. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.compare.editions.under_another import (
    Cause,
    Change,
    ClassedBy,
    CountedTogether,
    Lacking,
    LimitsDiffer,
    NotAsked,
    sorts,
)
from hands_on.evaluate.result import Evaluation, Finding, RuleResult
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import class_words
from hands_on.wording.findings import finding_reasons
from hands_on.wording.labels import label_words
from hands_on.wording.limit_pairs import asked_words, fault_classes_words, lies_words, stretch_words
from hands_on.wording.outlook import span_words, unsettled
from hands_on.wording.two_editions import lack_words

__all__ = ["CAUSES", "before_and_after", "change_sources", "change_title", "change_why", "count_words"]

CAUSES: Mapping[Cause, str] = {
    "limit": "other figures",
    "class": "classed otherwise",
    "silence": "one of them is silent",
    "not-asked": "not asked in one of them",
    "together": "counted otherwise together",
}
"""Why a verdict changes, in a few words."""

_NOT_FOUND = "not found"


def change_title(change: Change) -> str:
    """What changes, and from what to what."""
    one = change.one
    detail = one.detail if isinstance(one, Finding) else None
    named = ", ".join(filter(None, (label_words(change.named), detail, one.side)))
    verdict = " (measured)" if change.kind == "rule" else ""
    before, after = before_and_after(change)
    return f"{named}{verdict}: {before} -> {after}"


def before_and_after(change: Change) -> tuple[str, str]:
    """What each edition makes of it."""
    absent = _NOT_FOUND if change.kind == "finding" else "no rule"
    before, after = (
        absent
        if one is None
        else _verdict(rules, one)
        if isinstance(one, RuleResult)
        else _called(rules, one)
        for rules, one in ((change.a, change.before), (change.b, change.after))
    )
    return before, after


def _verdict(ruleset: Ruleset, rule: RuleResult) -> str:
    if sorts(rule) and rule.band:
        return f"{rule.verdict}, {rule.band}"
    return rule.verdict + (f", {class_words(ruleset, rule.cls)}" if rule.cls is not None else "")


def _called(ruleset: Ruleset, finding: Finding) -> str:
    marks = [class_words(ruleset, finding.cls or "unclassed")]
    marks += ["unsure"] if finding.status == "unsure" else []
    marks += ["too young to judge"] if finding.too_young else []
    marks += ["dismissed by the evaluator"] if finding.decision == "dismiss" else []
    return ", ".join(marks)


def change_why(change: Change) -> str:
    """The difference of the two editions that the change follows from."""
    why, a, b = change.why, change.a, change.b
    if isinstance(why, Lacking):
        practice = "; practice beside the standard, never counted" if why.optional else ""
        return f"{lack_words(why.lack)} in {why.ruleset.id}{practice}"
    if isinstance(why, LimitsDiffer):
        return _limits(why, a, b)
    if isinstance(why, CountedTogether):
        said = finding_reasons(a if why.finding is change.before else b, why.finding)
        return said[-1] if said else "counted together"
    if isinstance(why, NotAsked):
        return f"{why.ruleset.id} does not ask for it"
    if isinstance(why, ClassedBy):
        pairs = ((why.first, a), (why.second, b))
        return "; ".join(f"{fault_classes_words(rules, said)} in {rules.id}" for said, rules in pairs)
    found = ((change.before, a), (change.after, b))
    return "; ".join(f"{_reasons(rules, finding)} in {rules.id}" for finding, rules in found)


def _limits(why: LimitsDiffer, a: Ruleset, b: Ruleset) -> str:
    if why.stretch is not None:
        one, other = lies_words(a, why.stretch.a), lies_words(b, why.stretch.b)
        return f"{stretch_words(why.stretch)}: {one} in {a.id}, {other} in {b.id}"
    first, second = asked_words(a, why.first, why.units[1]), asked_words(b, why.second, why.units[0])
    return f"asked {first} in {a.id}, {second} in {b.id}"


def _reasons(ruleset: Ruleset, finding: Finding | RuleResult | None) -> str:
    if not isinstance(finding, Finding):
        return _NOT_FOUND
    return "; ".join(finding_reasons(ruleset, finding)) or finding.cls or ""


def change_sources(change: Change) -> list[str]:
    """The sources of both editions, each once."""
    named = (one.source for one in (change.before, change.after) if one is not None)
    return list(dict.fromkeys(filter(None, named)))


def count_words(ruleset: Ruleset, evaluation: Evaluation) -> str:
    """How many findings count in each class, heaviest first, and the best outcome left open."""
    order = [*reversed(list(ruleset.classes)), "unclassed"]
    names = sorted(evaluation.totals, key=lambda name: order.index(name) if name in order else len(order))
    counts, apart = [], unsettled(evaluation)
    for name in names:
        count, unsure = evaluation.totals[name], evaluation.unsure.get(name, 0) - apart.get(name, 0)
        if count or unsure:
            known = ruleset.classes.get(name)
            more = f" (and {unsure} unsure)" if unsure else ""
            counts.append(f"{known.label if known is not None else name}: {count}{more}")
    if apart:
        counts.append(f"class not settled: {sum(apart.values())}")
    told = "; ".join(counts) or "nothing counts against the dog"
    labels = {outcome.id: outcome.label for outcome in ruleset.edition.outcomes}
    best = evaluation.outcome_at_most
    if evaluation.outlook.open:
        return f"{told}. {span_words(evaluation).rstrip('.')}"
    return told + (f". Best outcome left open: {labels.get(best, best)}" if best is not None else "")
