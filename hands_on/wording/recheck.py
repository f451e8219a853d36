"""A re-check in words: what to look at again, and what has become of it. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.compare.dogs.changed import Rechecked, RecheckRemark
from hands_on.compare.dogs.recheck import AgeNow, PlanItem, Reason, ReasonKind
from hands_on.compare.dogs.verdicts import Verdict
from hands_on.compare.examined import Examined, same_evaluator
from hands_on.wording.ages import age_text, age_words
from hands_on.wording.answers import answer_words
from hands_on.wording.differences import difference_sentence
from hands_on.wording.labels import label_words

__all__ = [
    "BLIND",
    "BLIND_TOLD",
    "RECHECK_REMARKS",
    "VERDICTS",
    "plan_words",
    "reason_words",
    "rechecked_sentence",
    "same_sentence",
]

VERDICTS: dict[Verdict, str] = {
    "real": "Changed",
    "not-settled": "Perhaps changed: error alone may do as much at one of so many points",
    "did-not-grow": "Should have grown and did not",
    "does-not-shrink": "Smaller, which a length does not become: measure again",
    "different": "Different; no figure says how often a hand errs",
    "disagree": "The evaluators disagree",
    "day-to-day": "Weight from day to day",
    "too-young": "Too young to judge then",
    "explained-by-growth": "As growth would have it",
    "within-hand-error": "No change shown",
}
"""Verdicts on one dog then and now, what matters most first."""

RECHECK_REMARKS: dict[RecheckRemark, str] = {
    "different-dogs": "The two files do not name the same dog; nothing here speaks of growth or change.",
    "different-evaluators": "Different evaluators: a difference may be between the hands and not in the dog.",
    "different-editions": "Held under different editions: takes and grades are compared, classes are not.",
    "age-not-known": "An age is not known, so growth cannot be told from change.",
}

BLIND = "look again"
"""Said alike of what was found, left unsure or did not fit, and of points that were as asked."""

BLIND_TOLD = f"{BLIND.capitalize()}: found or unsure then, or put in though as asked, about as many of each."
"""What the list must say of itself."""

_REASONS: dict[ReasonKind, str] = {
    "fault": BLIND,
    "unsure": BLIND,
    "undecided": BLIND,
    "control": BLIND,
    "too-young": "not judged at that age",
    "alarm": BLIND,
    "growth": "growth: measure it again",
    "moves": "changes with condition, coat or season",
}


def plan_words(item: PlanItem) -> str:
    """Why a point is looked at again; what was found then is not given away."""
    first = [BLIND] if item.blind else []
    return "; ".join(dict.fromkeys([*first, *map(reason_words, item.reasons)]))


def reason_words(reason: Reason) -> str:
    """One reason why a point is looked at again."""
    if reason.age is not None:
        return _age_now(reason.age)
    if reason.gap is not None:
        why = "skipped then" if reason.gap.skipped else "left open then"
        return f"{why}: {reason.gap.reason}" if reason.gap.reason else why
    told = _REASONS[reason.kind]
    if reason.tells_on is not None:
        told += f"; a re-check can tell from {reason.tells_on:%d %B %Y}"
    return f"{label_words(reason.rule)}: {told}" if reason.rule and told != BLIND else told


def _age_now(age: AgeNow) -> str:
    then = age_words(age.then)
    text = f"too young to judge at {then}"
    if age.judged_from is None:
        return text
    return (
        f"{text}; old enough now"
        if age.enough
        else f"{text}; still too young, from {age.judged_from:g} months"
    )


def rechecked_sentence(one: Rechecked) -> str:
    """One point then and now, with the verdict on the difference."""
    label = one.point.label
    at_then, at_now = _when(one.earlier, one.later)
    then = answer_words(one.then, one.earlier.ruleset)
    now = answer_words(one.now, one.later.ruleset)
    if not one.then.given:
        return f"{label}: not examined {at_then}; {now} {at_now}."
    if not one.now.given:
        return f"{label}: {then} {at_then}; not examined {at_now}."
    if then == now and one.verdict == "within-hand-error" and not one.difference.unexpected:
        return f"{label}: {now} {at_then} and again {at_now}."
    return f"{label}: {then} {at_then}, {now} {at_now}: {difference_sentence(one.difference)}."


def same_sentence(rows: Sequence[Rechecked]) -> str:
    """How many points say the same then and now, and of how many that says little; empty where none does."""
    if not rows:
        return ""
    told = f"{len(rows)} point{'s' if len(rows) > 1 else ''} the same then and now."
    young = [one for one in rows if one.then.too_young or one.now.too_young]
    if not young:
        return told
    when = "then" if all(one.now.too_young is None for one in young) else "at one of the two ages"
    return f"{told} At {len(young)} of them it was too young to judge {when}: to be alike says little."


def _when(earlier: Examined, later: Examined) -> tuple[str, str]:
    """How the two are told apart in a sentence: by age, else by day, else by evaluator."""
    if earlier.age is not None and later.age is not None:
        ages = f"at {age_text(earlier.age)}", f"at {age_text(later.age)}"
        if ages[0] != ages[1]:
            return ages
    if earlier.day != later.day:
        return f"on {earlier.day or 'a day not known'}", f"on {later.day or 'a day not known'}"
    if not same_evaluator(earlier, later):
        return f"by {earlier.evaluator or 'nobody named'}", f"by {later.evaluator or 'nobody named'}"
    return "then", "now"
