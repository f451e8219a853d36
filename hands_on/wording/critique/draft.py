"""The draft of a critique, in three lengths.

First impression, head to tail, movement, temperament; what is right before what departs. Nothing is said that
no answer of the session stands for: a point left open is neither praised nor faulted.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, get_args

from hands_on.evaluate.result import Evaluation, Finding
from hands_on.exam.answers import amended
from hands_on.exam.session import Session
from hands_on.ruleset.base import DEGREES
from hands_on.wording.critique.clauses import (
    Costs,
    fault_clause,
    fault_clauses,
    merit_clauses,
    region_clause,
    rule_label,
    value_words,
)
from hands_on.wording.critique.language import Language, Plan, fill
from hands_on.wording.critique.sentence import Clause, Critique, Sentence, linked, listed, sentences, stopped
from hands_on.wording.critique.source import Source

__all__ = ["LENGTHS", "Length", "draft"]

Length = Literal["catalogue", "paragraph", "page"]
LENGTHS: tuple[Length, ...] = get_args(Length)

_IN_CATALOGUE = 2
"""Findings that three lines name; the others are counted."""


def draft(
    session: Session, evaluation: Evaluation, language: Language, plan: Plan, length: Length
) -> Critique:
    """A critique of this length; empty paragraphs are left out."""
    source = Source(amended(session), evaluation, language, plan)
    paragraphs = {"catalogue": _catalogue, "paragraph": _paragraph, "page": _page}[length](source)
    linked_up = (tuple(linked(language, one)) for one in paragraphs if one)
    return Critique(language.language, length, tuple(linked_up))


def _page(source: Source) -> Iterator[list[Sentence]]:
    costs = Costs()
    yield [_opening(source), *_block(source, ("general",), costs), *_measured(source)]
    for block in source.regions():
        own = tuple(region for region in block if region != "general")
        yield list(_block(source, own, costs)) if own else []
    yield [*_free(source, costs), *_young(source), *_veterinary(source), *_gaps(source), *_outcome(source)]


def _block(source: Source, regions: tuple[str, ...], costs: Costs) -> Iterator[Sentence]:
    """Regions spoken of together; those without a fault run on into each other."""
    calm: list[Clause] = []
    for turn, region in enumerate(regions):
        rights = list(merit_clauses(source, region))
        faults = list(fault_clauses(source, _heaviest_first(source, region), costs))
        if not faults:
            calm += rights
            continue
        yield from sentences(source.language, calm, turn)
        calm = []
        yield from sentences(source.language, [*rights, *faults], turn)
    yield from sentences(source.language, calm, len(regions))


def _paragraph(source: Source) -> Iterator[list[Sentence]]:
    costs = Costs()
    said = [_opening(source)]
    for block in source.regions():
        calm: list[Clause] = []
        for region in block:
            whole = region_clause(source, region)
            rights = [whole] if whole is not None else list(merit_clauses(source, region))[:1]
            faults = list(fault_clauses(source, _heaviest_first(source, region), costs))
            if faults:
                said += sentences(source.language, calm)
                said += sentences(source.language, [*rights, *faults])
                calm = []
            else:
                calm += rights
        said += sentences(source.language, calm)
    yield [*said, *_young(source), *_veterinary(source), *_unexamined(source), *_outcome(source)]


def _catalogue(source: Source) -> Iterator[list[Sentence]]:
    yield [_opening(source)]
    yield list(_in_short(source))
    yield list(_faults_in_short(source))


def _in_short(source: Source) -> Iterator[Sentence]:
    """In what regions the dog is right, and that not all was examined."""
    words, language = source.language.words, source.language
    order = [region for block in source.regions() for region in block]
    examined = [region for region in order if _answered(source, region)]
    right = [one for one in examined if _nothing_against(source, one)]
    others = [one for one in examined if one not in right]
    whole = [one for one in right if not set(_open(source, one)) & source.seen]
    answers = tuple(
        point for region in right for point in _points(source, region) if point not in source.open
    )
    if right and not others:
        yield Sentence(fill(words.all_right, it=language.pronouns[source.sex][0]), answers)
    elif len(right) > len(others):
        yield Sentence(fill(words.apart, parts=_nouns(source, others)), answers)
    elif whole:
        answers = tuple(point for point in answers if source.ruleset.points[point].region in whole)
        yield Sentence(fill(words.right_in, parts=_nouns(source, whole)), answers)
    else:
        best = [clause for region in order for clause in merit_clauses(source, region)][:2]
        yield from sentences(language, best)
    left = tuple(stop.point.id for stop in source.walk if stop.point.id in source.open & source.seen)
    if left:
        yield Sentence(words.in_part if examined else words.unexamined_all, left)


def _faults_in_short(source: Source) -> Iterator[Sentence]:
    words, language = source.language.words, source.language
    faults = sorted(source.faults, key=lambda one: _weight(source, one))
    if not faults:
        if source.too_young:
            yield from _young(source, brief=True)
        elif source.walk and len(source.open) < len(source.walk):
            answered = tuple(stop.point.id for stop in source.walk if stop.point.id not in source.open)
            yield Sentence(words.nothing, answered)
        return
    first = [fault_clause(source, one) for one in faults[:_IN_CATALOGUE]]
    yield from sentences(language, first)
    rest = faults[_IN_CATALOGUE:]
    if rest:
        answers = tuple(dict.fromkeys(point for one in rest for point in one.points or ("dog",)))
        text = words.more_one if len(rest) == 1 else fill(words.more, n=language.number(len(rest)))
        yield stopped(Clause(text, answers))


def _opening(source: Source) -> Sentence:
    """Who the dog is: name, sex, age, height."""
    words, dog = source.language.words, source.session.dog
    age = _age(source)
    height = _height(source)
    template = {
        (True, True): words.opening_aged_height,
        (True, False): words.opening_aged,
        (False, True): words.opening_height,
        (False, False): words.opening,
    }[bool(age), bool(height)]
    sex = {"male": words.male, "female": words.female, "unknown": words.unknown}[source.sex]
    name = " ".join((dog.registered_name or dog.call_name or words.nameless).split())
    answers = ["dog.name", "dog.sex", *(["dog.born"] if age else []), *(["height"] if height else [])]
    return stopped(Clause(fill(template, name=name, sex=sex, age=age, height=height), tuple(answers)))


def _age(source: Source) -> str:
    """The age as weeks below four months, months below two years, then years and months; never rounded up."""
    words, months = source.language.words, source.evaluation.age_months
    if months is None:
        return ""
    if months < 4:
        weeks = int(months * 30.4375 / 7)
        return words.week if weeks == 1 else fill(words.weeks, n=weeks)
    if months < 24:
        return fill(words.months, n=int(months))
    years, rest = divmod(int(months), 12)
    template = words.years if not rest else words.years_month if rest == 1 else words.years_months
    return fill(template, n=years, m=rest)


def _height(source: Source) -> str:
    """At the withers, in the unit of the edition's own limit."""
    rules = (one for one in source.evaluation.rules if one.measures == ("height",) and one.value is not None)
    held = next(rules, None)
    if held is not None:
        return value_words(source, held)
    one = next((one for one in source.evaluation.measures if one.id == "height" and one.side is None), None)
    if one is None:
        return ""
    return f"{one.value:.1f} {one.unit}".replace(".", source.language.decimal)


def _measured(source: Source) -> Iterator[Sentence]:
    """What was measured and is within what is asked, or cannot be told."""
    words = source.language.words
    for template, verdict in ((words.inside, "inside"), (words.undecided, "undecided")):
        rules = [
            rule
            for rule in source.evaluation.rules
            if rule.verdict == verdict and rule.ladder and not rule.optional and rule.judged_from is None
            if rule.unit != "teeth"  # the teeth are spoken of in the mouth
        ]
        if verdict == "undecided":
            named = {rule.id for one in source.faults for rule in one.rules}
            rules = [rule for rule in rules if rule.id not in named]
        if rules:
            # the opening told the height
            values = [
                rule_label(source, rule)
                + ("" if rule.measures == ("height",) else f" {value_words(source, rule)}")
                for rule in rules
            ]
            answers = tuple(dict.fromkeys(name for rule in rules for name in rule.measures))
            yield Sentence(fill(template, values=listed(source.language, values)), answers)


def _free(source: Source, costs: Costs) -> Iterator[Sentence]:
    """Said once of all that costs the dog nothing, where other things cost it something."""
    if costs.free and costs.told:
        answers = tuple(dict.fromkeys(point for one in costs.free for point in one.points or ("dog",)))
        yield Sentence(source.language.words.free, answers)


def _young(source: Source, *, brief: bool = False) -> Iterator[Sentence]:
    young = source.too_young[:_IN_CATALOGUE] if brief else source.too_young
    if not young:
        return
    clauses = [fault_clause(source, one) for one in young]
    text = "; ".join(one.text for one in clauses)
    answers = tuple(dict.fromkeys(("dog.born", *(answer for one in clauses for answer in one.answers))))
    yield Sentence(fill(source.language.words.young, age=_span(source), clauses=text), answers)


def _span(source: Source) -> str:
    """The age as a span of time, for `at 7 months`."""
    words = source.language.words
    months = source.evaluation.age_months or 0.0
    if months < 4:
        weeks = int(months * 30.4375 / 7)
        return words.span_week if weeks == 1 else fill(words.span_weeks, n=weeks)
    return fill(words.span_months, n=int(months))


def _veterinary(source: Source) -> Iterator[Sentence]:
    points = {
        point for alarm in source.evaluation.alarms if alarm.kind == "veterinary" for point in alarm.points
    }
    found = [one for one in source.faults if points & set(one.points)]
    if found:
        parts = listed(source.language, dict.fromkeys(source.noun(one.region) for one in found))
        answers = tuple(dict.fromkeys(point for one in found for point in one.points))
        yield Sentence(fill(source.language.words.veterinarian, parts=parts), answers)


def _gaps(source: Source) -> Iterator[Sentence]:
    yield from _unexamined(source)
    order = [region for block in source.regions() for region in block]
    left = {region: [point for point in _open(source, region) if point in source.seen] for region in order}
    partly = [region for region in order if _answered(source, region) and left[region]]
    if partly:
        answers = tuple(point for region in partly for point in left[region])
        yield Sentence(fill(source.language.words.partly, parts=_nouns(source, partly)), answers)


def _unexamined(source: Source) -> Iterator[Sentence]:
    order = [region for block in source.regions() for region in block]
    left = [region for region in order if _points(source, region) and not _answered(source, region)]
    if left and not any(_answered(source, region) for region in order):
        yield Sentence(source.language.words.unexamined_all, tuple(source.open))
    elif left:
        answers = tuple(point for region in left for point in _points(source, region))
        yield Sentence(fill(source.language.words.unexamined, parts=_nouns(source, left)), answers)


def _outcome(source: Source) -> Iterator[Sentence]:
    """The grade that the evaluator gave."""
    given = source.session.summary.outcome
    if given:
        known = {outcome.id: outcome.label for outcome in source.ruleset.edition.outcomes}
        label = source.language.outcomes.get(given) or known.get(given, given)
        yield Sentence(fill(source.language.words.outcome, outcome=label), ("summary.outcome",))


def _points(source: Source, region: str) -> list[str]:
    return [stop.point.id for stop in source.walk if stop.point.region == region]


def _open(source: Source, region: str) -> list[str]:
    return [point for point in _points(source, region) if point in source.open]


def _answered(source: Source, region: str) -> bool:
    return any(point not in source.open for point in _points(source, region))


def _nothing_against(source: Source, region: str) -> bool:
    """Is all that was answered as asked, or allowed? Measurements apart, unless a finding rests on them."""
    answered = [point for point in _points(source, region) if point in source.seen - source.open]
    against = {one.region for one in source.evaluation.findings}
    return bool(answered) and region not in against and source.fine.issuperset(answered)


def _nouns(source: Source, regions: list[str]) -> str:
    return listed(source.language, (source.noun(region) for region in regions))


def _heaviest_first(source: Source, region: str) -> list[Finding]:
    return sorted(
        (one for one in source.faults if one.region == region), key=lambda one: _weight(source, one)
    )


def _weight(source: Source, finding: Finding) -> tuple[bool, int, bool, int]:
    degree = DEGREES.index(finding.degree) if finding.degree is not None else 0
    free = source.plan.cost_of(finding.id, finding.teeth) == "none"
    return (finding.status == "unsure", -source.evaluation.classes.weight(finding.cls or ""), free, -degree)
