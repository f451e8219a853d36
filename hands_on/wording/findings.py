"""Findings of one dog, in words."""

from __future__ import annotations

from hands_on.evaluate.reasons import Reason, ReasonKind
from hands_on.evaluate.result import Evaluation, Finding
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.ages import too_young_words
from hands_on.wording.labels import label_words
from hands_on.wording.rules import class_name, rule_sentence
from hands_on.wording.teeth import least_missing, teeth_words

__all__ = [
    "finding_reasons",
    "measured_words",
    "reading_mark",
    "reason_words",
    "side_words",
    "telling_reasons",
]

_FIXED: dict[ReasonKind, str] = {
    "degree-not-said": "the degree was not said",
    "unknown-fault": "this edition does not know the fault",
    "silent": "the standard is silent on this point",
    "unruled": "no ruling names it and the edition has no general clause",
    "tolerated": "out of what is asked for, but tolerated",
    "of-dog": "follows from what was entered of the dog",
    "seen-not-measured": (
        "seen so, but the measurement cannot tell it from what is allowed: nothing disqualifies on it"
    ),
    "ruled-out": "looked for and ruled out",
}

_TEETH: dict[ReasonKind, str] = {
    "unseen-is-missing": "by this edition a tooth not seen is missing: ",
    "missing": "missing: ",
    "worn": "worn: ",
    "broken": "broken: ",
    "extra": "a tooth too many beside ",
    "exempt": "not counted in this edition: ",
}

_OFF = "the law of many places forbids to apply this rule"


def measured_words(evaluation: Evaluation, finding: Finding) -> str:
    """What was measured, limit by limit; empty for what was seen."""
    return "; ".join(dict.fromkeys(rule_sentence(evaluation, rule) for rule in finding.rules))


def reading_mark(finding: Finding) -> str:
    """`our reading` where the class rests on how this program reads the edition; else empty."""
    return "our reading" if "reading" in finding.sources else ""


def side_words(side: str | None, worse: str | None) -> str:
    """A side as it was said: `left`, `both, more on the left`; empty where none was."""
    return ", ".join(filter(None, (side, f"more on the {worse}" if worse else "")))


def finding_reasons(ruleset: Ruleset, finding: Finding) -> tuple[str, ...]:
    """Why a finding has its class and whether it counts, each thing once."""
    return tuple(dict.fromkeys(reason_words(ruleset, reason) for reason in finding.reasons))


_TOLD_BY_CLASS: tuple[ReasonKind, ...] = (
    *("worse-side", "said", "by-degree", "general-clause", "too-young", "ruled-out", "teeth-rule"),
)
"""Reasons that add nothing to a finding whose class is told: the edition's own words on it."""


def telling_reasons(ruleset: Ruleset, finding: Finding) -> tuple[str, ...]:
    """Why a finding counts otherwise than its name lets expect: what was lacking, decided, put together."""
    told = (one for one in finding.reasons if one.kind not in _TOLD_BY_CLASS)
    return tuple(dict.fromkeys(reason_words(ruleset, one) for one in told))


def reason_words(ruleset: Ruleset, reason: Reason) -> str:
    """One reason."""
    name = class_name(ruleset, reason.cls)
    match reason.kind:
        case "said":
            return reason.text
        case "too-young" if reason.young is not None:
            return too_young_words(reason.young)
        case "not-sure":
            return f"not yet sure enough for a {'heavier class' if reason.cls else 'class'}"
        case "worse-side":
            return f"more on the {reason.text}"
        case "practice":
            return f"practice beside the standard, not counted: {name}"
        case "by-degree":
            return f"{reason.degree}: {name}"
        case "off":
            return f"off until chosen: {reason.text or _OFF}"
        case "general-clause":
            return f"general clause: {reason.text}"
        case "at-least-missing":
            return f"{least_missing(reason.count)}; not seen: {teeth_words(reason.teeth)}"
        case "teeth-rule":
            return f"{reason.text.rstrip('.')}: {name}" if reason.text else name
        case "degrees-differ":
            each = ", ".join(f"{origin}: {degree}" for origin, degree in reason.degrees)
            return f"degrees differ ({each}); the heavier is kept"
        case "counted-young":
            return f"counted before the age at which it is judged: {reason.text}"
        case "dismissed" | "upheld":
            return f"{reason.kind} by the evaluator" + (f": {reason.text}" if reason.text else "")
        case "class-unknown":
            return f"the evaluator's class {reason.cls} is none of this edition's; not applied"
        case "class-not-applied":
            return f"{name} by the evaluator is not applied: no measured value is disqualified by decision"
        case "class-given":
            return f"{name} by the evaluator, computed {class_name(ruleset, reason.computed)}"
        case "together":
            return f"{reason.text or 'together'} ({' + '.join(map(label_words, reason.names))}): {name}"
        case _ if reason.kind in _TEETH:
            return _TEETH[reason.kind] + teeth_words(reason.teeth)
    return _FIXED[reason.kind]
