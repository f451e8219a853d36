"""What is right and what departs, as clauses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from hands_on.evaluate.result import Finding, RuleResult
from hands_on.measure.units import decimals_for, format_value
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.critique.language import Merit, fill
from hands_on.wording.critique.sentence import Clause, subject_of, together
from hands_on.wording.critique.source import Source
from hands_on.wording.labels import label_words

__all__ = [
    "Costs",
    "fault_clause",
    "fault_clauses",
    "merit_clauses",
    "region_clause",
    "rule_label",
    "value_words",
]


_TOGETHER = 3
"""Findings of one cost that one sentence holds."""


class Costs:
    """The costs told so far: the second time is said to be one."""

    def __init__(self) -> None:
        self.told: set[str] = set()
        self.free: list[Finding] = []
        """Findings that cost the dog nothing."""


def merit_clauses(source: Source, region: str) -> Iterator[Clause]:
    """What is right in a region, the longest clauses that fit, in the order of the examination."""
    places = {stop.point.id: place for place, stop in enumerate(source.walk)}
    left = {
        point for point in source.right if point in places and source.ruleset.points[point].region == region
    }
    found: list[tuple[int, Clause]] = []
    for merit in sorted(source.language.merits, key=lambda one: -len(one.points)):
        if set(merit.points) <= left and _chosen(source, merit):
            left -= set(merit.points)
            text = _of_dog(source, merit.text)
            found.append((min(places[point] for point in merit.points), Clause(text, merit.points)))
    for point in left:
        known = {name for merit in source.language.merits for name in merit.points}
        if point not in known:  # a point of the edition's own
            text = fill(source.language.words.point, label=_label(source, source.ruleset.points[point].label))
            found.append((places[point], Clause(text, (point,))))
    groups: dict[str, list[Clause]] = {}  # what is said of one part stays together
    for _, clause in sorted(found, key=lambda one: one[0]):
        groups.setdefault(subject_of(source.language, clause.text) or clause.text, []).append(clause)
    yield from (clause for group in groups.values() for clause in group)


def region_clause(source: Source, region: str) -> Clause | None:
    """A region in one clause; None unless all its points are right and it claims nothing else."""
    words = source.language.regions.get(region)
    needs = source.plan.needs.get(region, ())
    asked = [
        stop.point for stop in source.walk if stop.point.region == region and stop.point.kind != "measure"
    ]
    whole = asked and all(point.id in source.right for point in asked)
    if words is None or not words.clause or not needs or not whole or not source.right.issuperset(needs):
        return None
    return Clause(_of_dog(source, words.clause), tuple(point.id for point in asked))


def fault_clause(source: Source, finding: Finding, costs: Costs | None = None) -> Clause:
    """A finding as a clause, with what it costs where `costs` are told."""
    words = source.language.words
    text = _named(source, finding)
    if finding.status == "unsure":
        text = fill(words.unsure, clause=text)
    elif costs is not None:
        text = _with_cost(source, finding, text, costs)
    if finding.id in source.evaluation.disqualifying and finding.status == "present":
        text = fill(words.disqualifying, clause=text)
    answers = finding.points or ("dog",)
    punctuated = (
        len(text) > 110 or ";" in text or "(" in text or finding.status == "unsure" or bool(finding.worse)
    )
    return Clause(text, answers, fault=True, whole=punctuated)


def fault_clauses(source: Source, findings: Sequence[Finding], costs: Costs) -> Iterator[Clause]:
    """The findings of a region as clauses: those of one cost together, so that it is told once, and what is
    not sure together at the end.
    """
    words, language = source.language.words, source.language
    unsure = [one for one in findings if one.status == "unsure"]
    sure = [one for one in findings if one.status != "unsure"]
    kinds: dict[str, list[Finding]] = {}
    for one in sure:
        kind = source.plan.cost_of(one.id, one.teeth)
        barred = one.id in source.evaluation.disqualifying
        if kind not in (None, "none") and not barred:
            kinds.setdefault(kind or "", []).append(one)
    grouped = {kind: of_one[:_TOGETHER] for kind, of_one in kinds.items() if len(of_one) > 1}
    told: set[str] = set()
    for one in sure:
        kind = source.plan.cost_of(one.id, one.teeth) or ""
        if one not in grouped.get(kind, ()):
            yield fault_clause(source, one, costs)
        elif kind not in told:
            told.add(kind)
            costs.told.add(kind)
            of_one = together(language, [fault_clause(source, member) for member in grouped[kind]])
            text = fill(words.cost_together, clause=of_one.text, cost=language.costs[kind])
            yield replace(of_one, text=text, fault=True, whole=True)
    if len(unsure) < 2:
        yield from (fault_clause(source, one) for one in unsure)
        return
    named = [Clause(_named(source, one), one.points or ("dog",)) for one in unsure]
    answers = tuple(dict.fromkeys(answer for one in named for answer in one.answers))
    text = fill(words.unsure_several, clauses="; ".join(one.text for one in named))
    yield Clause(text, answers, fault=True, whole=True)


def _named(source: Source, finding: Finding) -> str:
    """The finding without what it costs."""
    language = source.language
    degree = language.degrees[finding.degree] if finding.degree is not None else ""
    much = language.degrees_too[finding.degree] if finding.degree is not None else ""
    template = language.faults.get(finding.id)
    if template is None:
        template = language.bands.get(label_words(finding.named))
    if template is None:
        label = label_words(finding.named)
        text = fill(language.words.fault_degree if degree else language.words.fault, label=label, d=degree)
        return text + _measured(source, finding)
    plain, _, detailed = template.partition("|")
    detail = _detail(source, finding)
    template = detailed if detailed and detail else plain
    side = _side(source, finding)
    if "{s}" not in template:
        slot = next((slot for slot in ("{d}", "{t}") if language.side_first and slot in template), "")
        template = template.replace(slot, f"{{s}} {slot}") if slot else template + " {s}"
    text = fill(template.replace("{s}", " {s}"), d=degree, t=much, x=detail, s=side, **_pronouns(source))
    return text + _measured(source, finding)


def _side(source: Source, finding: Finding) -> str:
    """On which side; empty where that adds nothing. That one of both is the worse always adds something."""
    language = source.language
    if finding.worse:
        return language.worse[finding.worse]
    unsaid = finding.side is None or (finding.side == "both" and finding.region in source.plan.both_unsaid)
    return "" if unsaid or finding.side is None else language.sides[finding.side]


def _with_cost(source: Source, finding: Finding, text: str, costs: Costs) -> str:
    words = source.language.words
    kind = source.plan.cost_of(finding.id, finding.teeth)
    if kind is None:
        return (
            fill(words.function, clause=text, function=finding.function.rstrip("."))
            if finding.function
            else text
        )
    if kind == "none":
        costs.free.append(finding)
        return text
    template = words.cost_again if kind in costs.told else words.cost
    costs.told.add(kind)
    return fill(template, clause=text, cost=source.language.costs[kind])


def _detail(source: Source, finding: Finding) -> str:
    if finding.teeth:
        return ", ".join(str(tooth) for tooth in finding.teeth)
    if not finding.detail:
        return ""
    return source.language.details.get(f"{finding.id} {finding.detail}", finding.detail)


def _measured(source: Source, finding: Finding) -> str:
    """The value behind a measured finding, in brackets."""
    rule = next((rule for rule in finding.rules if rule.value is not None), None)
    if rule is None:
        return ""
    label = "" if len(rule.measures) == 1 else f"{rule_label(source, rule)} "
    return f" ({label}{value_words(source, rule)})"


def value_words(source: Source, rule: RuleResult) -> str:
    """A value with its unit and without its uncertainty, as many decimals as that allows."""
    unit = "count" if rule.unit == "teeth" else rule.unit  # the label says what is counted
    text = format_value(rule.value or 0.0, unit, decimals_for(rule.u) if rule.u else None)
    return text.replace(".", source.language.decimal)


def rule_label(source: Source, rule: RuleResult) -> str:
    """What a limit is about: one measurement, or one to another."""
    labels, ruleset = source.language.labels, source.ruleset
    own = [
        labels.get(name) or (ruleset.points[name].label if name in ruleset.points else name)
        for name in rule.measures
    ]
    if len(own) == 1:
        return _label(source, own[0])
    if len(own) == 2 and labels and _is_ratio(ruleset, rule.id):
        return fill(source.language.words.ratio, a=own[0], b=own[1])
    return _label(source, label_words(rule.named))


def _is_ratio(ruleset: Ruleset, rule: str) -> bool:
    return any(limit.id == rule and limit.ratio is not None for limit in ruleset.edition.limits)


def _chosen(source: Source, merit: Merit) -> bool:
    """Was the option given that the clause is for?"""
    if not merit.option:
        return True
    given = (row for row in source.session.choices if row.point in merit.points and row.status == "present")
    return merit.option in {name for row in given for name in row.choice}


def _pronouns(source: Source) -> dict[str, str]:
    return dict(zip(("it", "its", "them"), source.language.pronouns[source.sex], strict=True))


def _of_dog(source: Source, text: str) -> str:
    return fill(text, **_pronouns(source))


def _label(source: Source, label: str) -> str:
    """A label within a sentence."""
    small = source.language.lower_labels and not label[1:2].isupper()
    return label[:1].lower() + label[1:] if small else label
