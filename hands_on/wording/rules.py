"""What a limit gives for a dog, in one short sentence."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from hands_on.evaluate.result import Evaluation, RuleResult
from hands_on.measure.conformity import Band, Verdict
from hands_on.measure.further import TakesReason
from hands_on.measure.units import format_measured, format_value
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.ages import age_text
from hands_on.wording.labels import label_words

if TYPE_CHECKING:  # a report without a drawing needs no figure
    from hands_on.figure.asked import Brought

__all__ = [
    "asked_band",
    "attribute_label",
    "band_words",
    "brought_words",
    "chance_words",
    "class_chances_words",
    "class_name",
    "held_words",
    "more_takes_words",
    "point_label",
    "reading_words",
    "rule_sentence",
    "sorted_words",
    "until_inside_words",
    "verdict_words",
]

_SIDES = {"inside": "likelier within", "below": "likelier below", "above": "likelier above"}


def rule_sentence(evaluation: Evaluation, rule: RuleResult) -> str:
    """Value, what is asked for, verdict, how sure: `71.5 ± 0.6 cm, asked 63 to 70: outside, 0.3 % ...`."""
    if rule.verdict == "not-measured":
        return _not_measured(evaluation, rule)
    if rule.verdict == "not-yet":
        age = evaluation.age_months
        when = "age not known" if age is None else f"at {age_text(age)}"
        return f"{reading_words(rule)}: judged from {rule.from_age or 0:g} months, not yet ({when})"
    if rule.contradictory:
        return _contradictory(evaluation, rule)
    if rule.sorts:
        return "; ".join([sorted_words(evaluation, rule), *_notes(rule)])
    heavy = _may_disqualify(evaluation, rule)
    # Of a dog too young nothing is to be settled yet by more takes.
    takes = rule.judged_from is None and (not heavy or rule.more_takes is not None)
    told = held_words(rule, takes=takes)
    if not rule.ladder:
        return f"{told} (the rule's stretches overlap; nothing is called)"
    return "; ".join([told, *heavy, *_notes(rule)])


def class_chances_words(evaluation: Evaluation, chances: Mapping[str, float]) -> str:
    """Each class with its probability, likeliest first: `Disqualifying fault 90 %, no fault 10 %`."""
    order = sorted(chances, key=lambda cls: -chances[cls])
    ruleset = evaluation.classes.ruleset
    return ", ".join(
        f"{class_name(ruleset, cls)} {chance_words(chances[cls])}" for cls in order if chances[cls]
    )


def _may_disqualify(evaluation: Evaluation, rule: RuleResult) -> list[str]:
    """Of a value by which nothing was found: how likely it disqualifies; of a finding its line tells it."""
    return [
        f"{class_name(evaluation.classes.ruleset, one.heaviest)} {chance_words(one.chances[one.heaviest])}"
        for one in evaluation.outlook.open
        if one.rule is not None
        and (one.rule.id, one.rule.side) == (rule.id, rule.side)
        and one.finding is None
        and evaluation.classes.disqualifies(one.heaviest)
    ]


def held_words(rule: RuleResult, *, takes: bool = True) -> str:
    """How a value stands to what is asked for, and with `takes` whether more of them would settle it."""
    assert rule.held is not None
    assert rule.asked is not None  # of a limit that was held
    value, u = rule.value or 0.0, rule.u or 0.0
    return verdict_words(value, u, rule.asked, rule.held, rule.unit, asked=_asked_word(rule), takes=takes)


def verdict_words(
    value: float,
    u: float,
    limits: Band,
    verdict: Verdict,
    unit: str = "cm",
    *,
    asked: str = "asked",
    takes: bool = True,
) -> str:
    """Value, limits, outcome and how sure it is; `asked` is the word before the limits.

    The limits are printed without the unit of the value.
    """
    head = f"{format_measured(value, u, unit)}, {asked} {band_words(limits)}: "
    if u == 0:
        return head + verdict.outcome
    within = chance_words(verdict.p_inside)
    if verdict.outcome == "inside":
        return f"{head}inside, {within} sure"
    if verdict.outcome == "outside":
        return f"{head}outside, {within} that it is within"
    if verdict.too_narrow and verdict.takes_more is None:
        return f"{head}no hand can tell a band this narrow; {_likelier(value, limits, verdict)}"
    told = f"{head}undecided, {within} that it is within"
    more = more_takes_words(verdict.takes_more, verdict.takes_reason, verdict.takes_p) if takes else ""
    return "; ".join(filter(None, (told, more)))


def _likelier(value: float, limits: Band, verdict: Verdict) -> str:
    chances = {"inside": verdict.p_inside, "below": verdict.p_below, "above": verdict.p_above}
    chance = chances[verdict.likelier_side]
    # Dead in the middle of a very narrow band every side is unlikely: then the figure alone is told.
    if chance < 0.5 and limits.holds(value):
        return f"by the figure within ({chance_words(verdict.p_inside)})"
    return f"{_SIDES[verdict.likelier_side]} ({chance_words(chance)})"


def chance_words(p: float) -> str:
    """A probability: `66 %`, `0.4 %`, `under 0.1 %`, `over 99.9 %`; never 0 or 100."""
    if p < 0.001:
        return "under 0.1 %"
    if p > 0.999:
        return "over 99.9 %"
    digits = 1 if p < 0.0995 or p > 0.9 else 0
    return f"{100 * p:.{digits}f} %"


def until_inside_words(rule: RuleResult) -> str:
    """What going on until a value is inside costs: where more takes are advised, and where it just is inside.

    Empty elsewhere.
    """
    if rule.looked is not None:
        until = f"{100.0 * rule.looked.until_inside:.1f}"
        return (
            f"Had you stopped only once it was inside, {until} of 100 dogs just at the limit would pass "
            f"by {rule.looked.takes} takes, not {100.0 * rule.looked.at_once:.1f}."
        )
    if rule.stopping is None:
        return ""
    at_once, until = (f"{100.0 * p:.1f}" for p in (rule.stopping.at_once, rule.stopping.until_inside))
    return (
        f"Decide on the number first: with {rule.stopping.takes} takes {at_once} of 100 dogs just at the "
        f"limit pass, {until} where one stops as soon as it is inside."
    )


def more_takes_words(more: int | None, reason: TakesReason | None, p: float | None = None) -> str:
    """Would more takes by the same hand settle it, and how probably; empty where that is not known."""
    if more is not None:
        how = "would probably settle it" if p is None else f"would settle it ({chance_words(p)})"
        return f"{more} more take{'s' if more > 1 else ''} {how}"
    return "more takes would not settle it" if reason in ("lasting", "too-many") else ""


def sorted_words(evaluation: Evaluation, rule: RuleResult) -> str:
    """What a limit sorts the dog into."""
    sure = "" if rule.sorted_surely else "undecided, by the figure "
    label = attribute_label(evaluation, rule.sorts)
    return f"{reading_words(rule)}: {label.lower()} {sure}{rule.band or 'none of those named'}"


def reading_words(rule: RuleResult) -> str:
    """A value with its uncertainty."""
    if rule.u:
        return format_measured(rule.value or 0.0, rule.u, rule.unit)
    return format_value(rule.value or 0.0, rule.unit)


def point_label(evaluation: Evaluation, point: str) -> str:
    """A point's label, or its id where the edition does not know it."""
    known = evaluation.classes.ruleset.points.get(point)
    return known.label if known is not None else point


def class_name(ruleset: Ruleset, cls: str | None) -> str:
    """A class by its label, or what stands in place of one."""
    known = ruleset.classes.get(cls or "")
    words = {"none": "no fault", "observation": "observation", "unclassed": "unclassed"}
    return known.label if known is not None else words.get(cls or "", cls or "")


def attribute_label(evaluation: Evaluation, name: str) -> str:
    """The label of something that is known of a dog."""
    declared = evaluation.classes.ruleset.edition.attributes.get(name)
    return declared.label if declared is not None else name


def _contradictory(evaluation: Evaluation, rule: RuleResult) -> str:
    names = ", ".join(point_label(evaluation, name) for name in rule.contradictory)
    asked = (
        f"asked {band_words(Band(rule.low, rule.high))}: " if (rule.low, rule.high) != (None, None) else ""
    )
    return (
        f"{asked}no verdict, the takes contradict each other ({names}): "
        "strike the wrong one, or take it again"
    )


def _not_measured(evaluation: Evaluation, rule: RuleResult) -> str:
    if rule.missing:
        return "not measured: " + ", ".join(point_label(evaluation, name) for name in rule.missing)
    if rule.value_unit:
        return f"the rule is in {rule.unit}, the value in {rule.value_unit}"
    return rule.problem


def _notes(rule: RuleResult) -> list[str]:
    if not rule.judged:
        return []
    notes = ["practice, not counted"] if rule.optional else []
    notes += [f"too young, judged from {rule.judged_from:g} months"] if rule.judged_from is not None else []
    if rule.cls == "none":
        notes.append("tolerated" if rule.tolerated else "no fault")
    return notes


def _asked_word(rule: RuleResult) -> str:
    """The word before what is asked for: an ideal is no limit, and `about` is the standard's own word."""
    if rule.ideal:
        return "ideal"
    both = rule.low is not None and rule.high is not None
    return "asked about" if rule.about and both else "asked"


def brought_words(brought: Brought) -> str:
    """What a value is and what it was brought to."""
    unit = brought.rule.unit or "share"
    digits = 2 if unit == "share" else 1
    own, to = (format_value(value, unit, digits) for value in (brought.rule.value or 0.0, brought.to))
    return f"{label_words(brought.rule.named)}: {own}, asked {to}"


def band_words(band: Band, unit: str = "count") -> str:
    """The band in words: ``60 to 65 cm``, ``at least 60 cm``, ``below 70 cm``; without unit by default.

    Both ends get as many decimals as the longer one has: ``1.10 to 1.15``.
    """
    if band.low is not None and band.high is not None:
        digits = max(_decimals(band.low), _decimals(band.high))
        high = format_value(band.high, unit, digits)
        if band.low == band.high:
            return high
        return f"{format_value(band.low, 'count', digits)} to {high}"
    if band.low is not None:
        return f"{'above' if band.low_open else 'at least'} {format_value(band.low, unit)}"
    if band.high is not None:
        return f"{'below' if band.high_open else 'at most'} {format_value(band.high, unit)}"
    return "any value"


def _decimals(end: float) -> int:
    """How many decimals a limit has, three at most."""
    return len(format_value(end, "count").partition(".")[2])


def asked_band(evaluation: Evaluation, point: str) -> tuple[float | None, float | None] | None:
    """Both ends of what is asked of a measurement alone, None for an open one; None where nothing is."""
    for rule in evaluation.rules:
        if rule.measures == (point,) and not (rule.low is None and rule.high is None) and not rule.sorts:
            return rule.low, rule.high
    return None
