"""What the dog is and how it stands, in five lines."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.evaluate.result import Evaluation
from hands_on.exam.session import Session
from hands_on.exam.walk import state_of, stops
from hands_on.frozen import dataclass
from hands_on.report.found import class_label, finding_title, heaviest
from hands_on.ruleset.points import Point, faults_of
from hands_on.wording.ages import age_text
from hands_on.wording.outcome import outcome_label
from hands_on.wording.outlook import span_words, unsettled

__all__ = ["Lead", "dog_words", "lead_lines"]

_SEX = {"male": "dog", "female": "bitch"}


@dataclass(frozen=True)
class Lead:
    """One of the five lines."""

    label: str
    text: str


def lead_lines(session: Session, evaluation: Evaluation) -> tuple[Lead, ...]:
    """Identity, virtues, what counts most, the outcome left open, what is missing.

    `session` has its amendments put in.
    """
    return (
        Lead("Dog", _identity(session, evaluation)),
        Lead("As asked", _virtues(session, evaluation)),
        Lead("Counts most", _heaviest(evaluation)),
        Lead("Outcome", _outcome(session, evaluation)),
        Lead("Missing", _missing(evaluation)),
    )


def dog_words(session: Session, evaluation: Evaluation) -> str:
    """Name, sex and age."""
    dog = session.dog
    name = dog.registered_name or dog.call_name or "a dog without a name"
    parts = [f"{name} ({dog.call_name})" if dog.registered_name and dog.call_name else name]
    parts += [_SEX[dog.sex]] if dog.sex else []
    parts += [age_text(evaluation.age_months)] if evaluation.age_months is not None else ["age not known"]
    return ", ".join(parts)


def _identity(session: Session, evaluation: Evaluation) -> str:
    edition, held = evaluation.classes.ruleset.edition, session.examination
    told = [held.evaluator, f"{held.started:%d %B %Y}" if held.started else ""]
    examined = ", ".join(part for part in told if part)
    text = f"{dog_words(session, evaluation)}; {edition.title}"
    text = (
        f"{text}; examined by {examined}" if held.evaluator else f"{text}; {examined}" if examined else text
    )
    if session.ruleset.id != evaluation.ruleset:
        text += f". The session was held under {session.ruleset.id}."
    return text


def _virtues(session: Session, evaluation: Evaluation) -> str:
    ruleset = evaluation.classes.ruleset
    walk = stops(ruleset, session)
    answered = [stop for stop in walk if state_of(session, stop.point) == "answered"]
    departed = {one.region for one in evaluation.findings if one.decision != "dismiss"}
    right = set(evaluation.as_asked)
    inside = {
        name
        for rule in evaluation.rules
        if rule.held is not None and rule.verdict == "inside"
        for name in rule.measures
    }
    whole = [
        region.label
        for region in ruleset.regions
        if region.id not in departed
        and (own := [stop for stop in walk if stop.region.id == region.id])
        and all(stop.point.id in right or stop.point.kind == "measure" for stop in own)
        and any(stop.point.id in right for stop in own)
    ]
    seen = [stop for stop in answered if stop.point.kind != "measure"]
    count = (
        f"{len(right & {stop.point.id for stop in seen})} of {len(seen)} point{'' if len(seen) == 1 else 's'}"
    )
    young = _too_young(evaluation, [stop.point for stop in seen if stop.point.id not in right])
    count += f", {young} too young to judge" if young else ""
    measured = len(inside)
    count += f"; {measured} measurement{'s' if measured > 1 else ''} surely inside" if measured else ""
    if not seen and not measured:
        return "nothing is recorded yet that could be"
    return f"{count}; all of {_listed([name.lower() for name in whole])}" if whole else count


def _too_young(evaluation: Evaluation, points: list[Point]) -> int:
    """How many of the points have only departures that cannot be judged yet."""
    faults, circumstances = evaluation.classes.ruleset.faults, evaluation.circumstances
    return sum(
        bool(known) and all(circumstances.too_young(fault.too_young) for fault in known)
        for known in ([faults[name] for name in faults_of(point) if name in faults] for point in points)
    )


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _heaviest(evaluation: Evaluation) -> str:
    first = heaviest(evaluation)
    if first is None:
        unsure = sum(one.counts for one in evaluation.findings)
        return f"no finding that counts; {unsure} unsure" if unsure else "no finding that counts"
    rest = (
        sum(one.cls == first.cls and one.counts and one.status == "present" for one in evaluation.findings)
        - 1
    )
    more = f" ({rest} more of this class)" if rest else ""
    cost = f". At work: {first.function}" if first.function else ""
    return f"{finding_title(first)}: {class_label(evaluation, first.cls)}{more}{cost}"


def _outcome(session: Session, evaluation: Evaluation) -> str:
    ruleset = evaluation.classes.ruleset
    apart = unsettled(evaluation)
    unsure = {name: count - apart.get(name, 0) for name, count in evaluation.unsure.items()}
    totals = [
        f"{class_label(evaluation, name)} {count}" + (f" (and {unsure[name]} unsure)" if unsure[name] else "")
        for name, count in evaluation.totals.items()
        if count or unsure[name] or name in ruleset.classes
    ]
    totals += [f"class not settled {sum(apart.values())}"] if apart else []
    counted = f"counted: {', '.join(totals)}"
    if evaluation.outlook.open:
        told = span_words(evaluation, chances=True)
        return f"{told[:1].lower()}{told[1:-1]}; {counted}"
    if evaluation.outcome_at_most is None:
        return counted
    return f"at best {outcome_label(ruleset, evaluation.outcome_at_most)}; {counted}"


def _missing(evaluation: Evaluation) -> str:
    return "; ".join(_lacking(evaluation)) or "nothing: all points answered, none to be looked at again"


def _lacking(evaluation: Evaluation) -> Iterator[str]:
    opened = [gap for gap in evaluation.gaps if not gap.skipped]
    skipped = len(evaluation.gaps) - len(opened)
    if opened:
        yield f"{_points(len(opened))} open"
    if skipped:
        yield f"{_points(skipped)} skipped"
    unmeasured = sum(rule.verdict == "not-measured" and not rule.optional for rule in evaluation.rules)
    if unmeasured:
        yield f"{unmeasured} limit{'s' if unmeasured > 1 else ''} not measured"
    if evaluation.alarms:
        yield f"{len(evaluation.alarms)} to look at again"


def _points(count: int) -> str:
    return "one point" if count == 1 else f"{count} points"
