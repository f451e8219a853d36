"""What is left open of a dog, in words: each class with its probability, the outcome at best and at worst."""

from __future__ import annotations

from hands_on.evaluate.outlook import End, LeftOpen
from hands_on.evaluate.result import Evaluation, Finding
from hands_on.wording.labels import label_words
from hands_on.wording.rules import chance_words, class_chances_words, class_name, reading_words

__all__ = [
    "finding_class_words",
    "left_open_words",
    "outlook_lines",
    "span_words",
    "unsettled",
]


def unsettled(evaluation: Evaluation) -> dict[str, int]:
    """How many unsure findings of each class are measured and may be of another: no count of that class."""
    found: dict[str, int] = {}
    for one in evaluation.outlook.open:
        finding = one.finding
        if finding is not None and one.chances and finding.status == "unsure" and finding.cls:
            found[finding.cls] = found.get(finding.cls, 0) + 1
    return found


def finding_class_words(evaluation: Evaluation, finding: Finding) -> str:
    """The classes that are left open of a finding; empty where its class is settled."""
    one = evaluation.outlook.of(finding)
    if one is None:
        return ""
    if one.chances:
        return class_chances_words(evaluation, one.chances)
    return _span(evaluation, one)


def left_open_words(evaluation: Evaluation, one: LeftOpen) -> str:
    """One thing that is not settled."""
    if one.rule is not None:
        told = class_chances_words(evaluation, one.chances)
        return f"{label_words(one.rule.named)} {reading_words(one.rule)}: {told}"
    why = "unsure" if one.finding is not None and one.finding.status == "unsure" else "degree not said"
    return f"{label_words(one.named)} ({why}): {_span(evaluation, one)}"


def _span(evaluation: Evaluation, one: LeftOpen) -> str:
    lightest, heaviest = (class_name(evaluation.classes.ruleset, cls) for cls in (one.lightest, one.heaviest))
    return f"{lightest} to {heaviest}; no figure says which"


def outlook_lines(evaluation: Evaluation) -> tuple[str, ...]:
    """What is left open at best and at worst, then what leaves it open; empty where nothing does."""
    ahead = evaluation.outlook
    if not ahead.open:
        return ()
    lines = [span_words(evaluation)]
    figures = [one for one in ahead.open if one.chances]
    if len(figures) > 1:
        told = class_chances_words(evaluation, ahead.chances)
        lines.append(f"Heaviest class of all measured: {told}.")
    lines += [f"{left_open_words(evaluation, one)}." for one in ahead.open]
    sure = evaluation.classes.ruleset.edition.confidence
    lines.append(
        f"A class less likely than {100 * (1.0 - sure):.3g} % is taken as ruled out; "
        "what was not examined is left out of this."
    )
    return tuple(lines)


def span_words(evaluation: Evaluation, *, chances: bool = False) -> str:
    """`Left open: at best Excellent; at worst Disqualified (90 %).`, with the `chances` of every class."""
    ahead = evaluation.outlook
    if ahead.settled:
        return f"Whatever is left open: {_end_words(evaluation, ahead.best)}."
    worst = _end_words(evaluation, ahead.worst)
    p = ahead.chances.get(ahead.worst.cls)
    chance = f" ({chance_words(p)})" if p else ""
    if chances and len(ahead.chances) > 2:
        chance = f" ({class_chances_words(evaluation, ahead.chances)})"
    return f"Left open: at best {_end_words(evaluation, ahead.best)}; at worst {worst}{chance}."


def _end_words(evaluation: Evaluation, end: End) -> str:
    """The outcome and the heaviest class; the class alone where the edition has no outcomes."""
    labels = {row.id: row.label for row in evaluation.classes.ruleset.edition.outcomes}
    cls = class_name(evaluation.classes.ruleset, end.cls)
    if end.outcome is None:
        return cls
    told = labels.get(end.outcome, end.outcome)
    return told if end.cls == "none" or end.disqualified else f"{told}, with {cls}"
