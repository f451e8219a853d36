"""What is to be looked at again, in words."""

from __future__ import annotations

from hands_on.evaluate.alarms import About, judged, recorded
from hands_on.evaluate.alarms.judged import Claim
from hands_on.evaluate.result import Alarm, Evaluation, Origin
from hands_on.measure.closure import Misfit
from hands_on.measure.takes import OddTakes
from hands_on.measure.units import format_value
from hands_on.ruleset.base import Side
from hands_on.wording.labels import label_words
from hands_on.wording.rules import (
    attribute_label,
    band_words,
    chance_words,
    class_name,
    held_words,
    more_takes_words,
    point_label,
    reading_words,
    rule_sentence,
    sorted_words,
    until_inside_words,
)
from hands_on.wording.teeth import least_missing, teeth_words

__all__ = ["alarm_text", "misfit_words", "odd_takes_words"]

ORIGINS: dict[Origin, str] = {
    "take": "measured",
    "grade": "graded",
    "choice": "chosen",
    "teeth": "tooth chart",
    "note": "noted",
    "combination": "together",
    "dog": "by what was entered of the dog",
}

_ASK = "Which is it?"

_TELLS = {
    "girth": "Chest girth goes with chest depth and width",
    "head": "Muzzle and skull make the head",
    "sum": "The parts make the whole",
    "agreement": "Both ways agree",
    "order": "One is smaller than the other",
}
"""What must go together, where nobody says it otherwise."""


def alarm_text(evaluation: Evaluation, alarm: Alarm) -> str:
    """An alarm in words."""
    return _said(evaluation, alarm.about)


def _said(evaluation: Evaluation, what: About) -> str:
    ruleset = evaluation.classes.ruleset
    edition = ruleset.edition
    match what:
        case recorded.BornLater(born, on):
            return f"The dog is born on {born}, after the examination of {on}: one date is wrong."
        case recorded.NotKnown(name):
            return _not_known(evaluation, name)
        case recorded.EditionChanged():
            return "The edition's file has changed since this session was held; so may the result."
        case recorded.NoSuchSwitch(switch):
            return f"The rule {switch} was chosen for this examination; this edition has no such switch."
        case judged.SwitchChosen(switch, of):
            known = edition.switches.get(switch)
            caution = known.caution if known is not None else f"{switch} was chosen for this examination."
            return f"{label_words(of)}: {caution}"
        case judged.SwitchOff(switch, of, would_be):
            known = edition.switches.get(switch)
            name, caution = (known.label, known.caution) if known is not None else (switch, "")
            told = f'{label_words(of)} is not judged: the rule "{name}" was not chosen.'
            return f"{told} By it: {class_name(ruleset, would_be)}. {caution}".strip()
        case recorded.UnknownFault(fault):
            return f"{fault} is no fault that this edition knows; it is shown without a class."
        case recorded.OfOtherSex(fault, sex):
            dog = "male" if sex == "male" else "bitch"
            named = evaluation.classes.ruleset.label(fault)
            return f"{named}: a {dog} cannot have it; it is not counted. Was it noted for another dog?"
        case recorded.TeethUnseen(unseen, missing):
            seen = "1 tooth was" if len(unseen) == 1 else f"{len(unseen)} teeth were"
            return f"{seen} not seen ({teeth_words(unseen)}): {least_missing(missing)}."
        case recorded.MilkTeeth(teeth):
            return (
                f"Milk teeth still stand at {teeth_words(teeth)}, past the change of teeth: something for a "
                "veterinarian to see. Whether the tooth that follows is there is for the chart to say."
            )
        case judged.DegreeNeeded(of):
            return f"{label_words(of)}: the class hangs on the degree; none was said, lightest used."
        case judged.DegreeNeededTogether(of, cls, from_degree):
            name = class_name(ruleset, cls)
            told = f"with others it may count as {name}, from {from_degree} up; no degree was said."
            return f"{label_words(of)}: {told}"
        case judged.ForVeterinarian(of, advice):
            return f"{label_words(of)}: {advice}"
    return _measured(evaluation, what)


def _measured(evaluation: Evaluation, what: About) -> str:
    """Takes, measurements and limits."""
    ruleset = evaluation.classes.ruleset
    match what:
        case recorded.TakeRefused(point, take, problem):
            return f"{point_label(evaluation, point)}, take {take} is not counted: {problem}"
        case recorded.TakesOdd(point, side, odd):
            return f"{_sided(evaluation, point, side)}: {odd_takes_words(odd)}"
        case recorded.CountsDiffer(point, side):
            label = _sided(evaluation, point, side)
            return f"{label}: the counts differ. Count again; until then no limit between them is decided."
        case recorded.FarFromAsked():
            return _far(evaluation, what)
        case recorded.TakesUnused(point, count):
            known = evaluation.classes.ruleset.points.get(point)
            if known is None:
                return f"Readings of {point}: this edition knows no such point. They are kept and not used."
            return f"{known.label} is not measured but judged: its {count} readings are kept and not used."
        case recorded.Unclosed(misfit, said, advice):
            return " ".join(
                filter(None, (misfit_words(misfit, said or _told_of(evaluation, misfit)), advice))
            )
        case judged.NearLimit(rule):
            told = f"{label_words(rule.named)} {held_words(rule)}"
            # of an undecided verdict held_words tells it
            more = (
                more_takes_words(rule.more_takes, None, rule.more_takes_p)
                if rule.verdict == "outside"
                else ""
            )
            told = f"{told}; {more}." if more else f"{told}."
            return " ".join(filter(None, (told, until_inside_words(rule))))
        case judged.HeavierNotSure(rule, called, heavier, stretch, p, more, reason, settling):
            sure_of = (
                f"{label_words(rule.named)} {reading_words(rule)}: {class_name(ruleset, called)} for sure"
            )
            name = class_name(ruleset, heavier)
            beyond = f"{name} ({band_words(stretch)}) only {chance_words(p)} sure, so not called"
            return "; ".join(filter(None, (sure_of, beyond, more_takes_words(more, reason, settling)))) + "."
        case judged.SortedUnsure(rule):
            return f"{label_words(rule.named)} {sorted_words(evaluation, rule)}; rules hang on it."
        case judged.SortedOtherwise(attribute, entered, measured):
            label = attribute_label(evaluation, attribute)
            return f"{label}: entered as {entered}, measured as {measured}, which is used. Look at both."
    return _answered(evaluation, what)


def _answered(evaluation: Evaluation, what: About) -> str:
    """Answers that the edition cannot read, and answers that contradict each other."""
    match what:
        case recorded.UnknownPoint(point):
            return f"An answer at {point}: this edition knows no such point."
        case recorded.NoScale(point):
            label = point_label(evaluation, point)
            return f"{label}: a step was recorded, but this edition has no scale there. It is not used."
        case recorded.NoSuchStep(point, step, steps):
            named = ", ".join(map(str, steps))
            label = point_label(evaluation, point)
            return f"{label}: there is no step {step} (steps: {named}). It is not used."
        case recorded.NoChoice(point, chosen):
            label = point_label(evaluation, point)
            return f"{label}: {', '.join(chosen)} was chosen, but this edition has no choice there."
        case recorded.NoSuchAnswer(point, chosen, answers):
            label = point_label(evaluation, point)
            return f"{label}: {chosen} is none of its answers ({', '.join(answers)}). It is not used."
        case recorded.SeveralAnswers(point, answers):
            label = point_label(evaluation, point)
            return f"{label}: only one answer can hold, given are {', '.join(answers)}."
        case judged.Opposed(first, second):
            pair = f"{_claim(evaluation, first)} and {_claim(evaluation, second)}"
            return f"{pair} cannot hold together. {_ASK}"
        case judged.Denied(claim, by):
            return f"{_claim(evaluation, claim)}, and ruled out as well ({ORIGINS[by]}). {_ASK}"
        case judged.AsAskedBut(point, claim):
            found = _lower(_claim(evaluation, claim))
            return f"{point_label(evaluation, point)} is recorded as asked for, but {found}. {_ASK}"
        case judged.MeasuredOtherwise(claim, rule):
            measured = f"{_lower(label_words(rule.named))} {rule_sentence(evaluation, rule)}"
            return f"{_claim(evaluation, claim)}, but {measured}. {_ASK}"
        case judged.TogetherAsked():
            return _together(evaluation, what)
        case judged.FullMouth(claim):
            return f"{_claim(evaluation, claim)}, but in the tooth chart none is missing. {_ASK}"
    raise TypeError(f"nothing is said of {what!r}")


def _far(evaluation: Evaluation, what: recorded.FarFromAsked) -> str:
    """One reading far from what is asked for: taken again before anything is made of it."""
    low, high = what.asked
    ends = (("from", low), ("to", high))
    asked = " ".join(f"{word} {format_value(end, what.unit)}" for word, end in ends if end is not None)
    of = (
        f"a young dog that is to grow to what is asked ({asked})"
        if what.young
        else f"what is asked ({asked})"
    )
    reading = f"{_sided(evaluation, what.point, what.side)}: {format_value(what.value, what.unit)}"
    return f"{reading} is far from {of}, and one take alone says so. Take it once more."


def _together(evaluation: Evaluation, what: judged.TogetherAsked) -> str:
    """What stands together, why that is asked about, on what this rests, and the question."""
    rows = [_stands(evaluation, one) for one in what.stands]
    named = " and ".join([rows[0], *(_lower(row) for row in rows[1:])])
    source = evaluation.classes.ruleset.source_text(what.source)
    if what.how == "explains":
        return f"{named}: the one may explain the other. {what.text} Do both stand by themselves? [{source}]"
    return f"{named} seldom stand together. {what.text} Look at both again. [{source}]"


def _stands(evaluation: Evaluation, one: judged.Stands) -> str:
    match one:
        case judged.SaidRight(point):
            return f"{point_label(evaluation, point)} as asked for"
        case judged.Measured(named, value, unit):
            label = label_words(named)
            return f"{label} {value:.2f}" if unit == "share" else f"{label} {format_value(value, unit)}"
        case Claim():
            return _claim(evaluation, one)
    raise TypeError(f"nothing is said of {one!r}")


def odd_takes_words(odd: OddTakes) -> str:
    """What is odd about takes, and what to do."""
    numbers = " and ".join(map(str, odd.takes))
    if odd.kind == "implausible":
        pairs = zip(odd.takes, odd.values, strict=True)
        named = ", ".join(f"take {number}: {format_value(value, odd.unit)}" for number, value in pairs)
        return f"Cannot be right: {named}. Read it again."
    if odd.kind == "drift":
        return (
            f"The height falls from take to take, {format_value(odd.apart, odd.unit)} in all: "
            "the dog is settling. Let it stand, take it again and keep the last takes."
        )
    if odd.kind == "aside":
        value = format_value(odd.values[0], odd.unit)
        return (
            f"Take {numbers} ({value}) is set aside: the others agree without it. "
            "Strike it, or take again if it was right."
        )
    if odd.kind == "contradictory":
        return (
            f"The takes contradict each other: they lie {format_value(odd.apart, odd.unit)} apart, honest "
            f"ones by more than {format_value(odd.allowed, odd.unit, 2)} once in a hundred measurements. "
            "No verdict until one is struck (u), or one more take tells which is wrong."
        )
    takes = f"take {numbers}" if len(odd.takes) == 1 else f"takes {numbers}"
    advice = "One more take." if odd.n == 2 else "One more take, and look at the median."
    return (
        f"The takes lie {format_value(odd.apart, odd.unit)} apart, more than "
        f"{format_value(odd.allowed, odd.unit, 2)} that one hand allows: look at {takes}. {advice}"
    )


def misfit_words(misfit: Misfit, said: str = "") -> str:
    """How measurements miss each other; `said` is what must go together."""
    advice = "Measure again." if misfit.level == "alarm" else "Look again."
    told = _TELLS["head"] if misfit.kind == "head" else _clause(said) or _TELLS.get(misfit.kind, "")
    size = format_value(abs(misfit.w), misfit.unit or "count", 1)
    if misfit.kind == "fence":
        return f"{told}: {misfit.w:.2f} is hardly possible. Please read again."
    if misfit.kind == "girth":
        ratio = f"it is {misfit.w:.2f} of the ellipse they make, expected 0.97 to 0.99"
        return f"{told}: {ratio}. Check all three. {advice}"
    if misfit.kind == "head" and misfit.w < 0:
        return (
            f"{told}: they are {size} short of it, which cannot be. A wrong stop point, or a tape over the "
            f"curve of the head. {advice}"
        )
    if misfit.kind == "head":
        return (
            f"{told}: they exceed it by {size}, more than any stop explains. Both must start from the same "
            f"stop point. {advice}"
        )
    if misfit.kind == "left-right":
        text = f"{told}: left and right differ by {size}. {advice}"
        note = "it is a note for the owner to ask a veterinarian, not a fault."
        stays = f" If it stays on a dog that stands square, {note}"
        return text + (stays if misfit.level == "alarm" else "")
    if misfit.kind == "order":
        return f"{told}: it is larger by {size}. {advice}"
    turned = " One may have been read from the vertical, the other from the horizontal."
    return f"{told}: they miss by {size}. {advice}{turned if misfit.turned else ''}"


def _clause(said: str) -> str:
    """A statement as it stands before a colon."""
    return (said[:1].upper() + said[1:]).rstrip(".")


def _told_of(evaluation: Evaluation, misfit: Misfit) -> str:
    """Of left against right: what was measured."""
    return point_label(evaluation, misfit.ids[0]) if misfit.kind == "left-right" else ""


def _claim(evaluation: Evaluation, claim: Claim) -> str:
    """A fault with its side and where it comes from: `Cow hocks, left (graded)`."""
    side = f", {claim.side}" if claim.side else ""
    how = rule_sentence(evaluation, claim.rule) if claim.rule is not None else ORIGINS[claim.origin]
    return f"{label_words(claim.named)}{side} ({how})"


def _sided(evaluation: Evaluation, point: str, side: Side | None) -> str:
    label = point_label(evaluation, point)
    return f"{label} ({side})" if side else label


def _not_known(evaluation: Evaluation, name: str) -> str:
    if name == "detail":
        return "The place or form of a fault is not said, and its class hangs on it."
    declared = evaluation.classes.ruleset.edition.attributes.get(name)
    written = evaluation.circumstances.dog.attribute(name).strip()
    if declared is not None and written:
        return (
            f"{declared.label} “{written}” is none that this edition knows "
            f"({', '.join(declared.options)}): rules that ask for it were not applied."
        )
    what = f"The {name}" if name in ("sex", "age", "country", "purpose") else name
    if declared is not None:
        what = declared.label
    return f"{what} is not known: rules that hang on it were not applied."


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
