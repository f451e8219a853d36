"""One session under two editions: which verdicts and classes differ, and why.

Takes, grades and choices belong to the dog; what they are worth belongs to the edition. Everything told
here follows from a difference of the two editions, for the answers are the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any, Literal

from hands_on.compare.editions.classing import SILENT, class_key, profile
from hands_on.compare.editions.limits import asked_words, limit_row, no_limit
from hands_on.compare.editions.rows import Stretch
from hands_on.evaluate.result import Evaluation, Finding, RuleResult
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import class_words

NOT_FOUND = "not found"
"""What is said of a finding that the other evaluation does not have."""

NO_RULE = "no rule"
"""What is said of a verdict that the other edition has no limit for."""

Cause = Literal[
    "limit",  # other figures, or another unit
    "class",  # the editions class the same departure differently
    "silence",  # one of them says nothing of it
    "not-asked",  # one of them does not ask for it, or does not know it
    "together",  # faults that one of them counts otherwise when found together
]


@dataclass(frozen=True)
class Change:
    """A verdict or a class that the second edition changes."""

    id: str
    """The fault's, or the limit's in the edition that has it."""
    kind: Literal["finding", "rule"]
    label: str
    before: str
    after: str
    why: str
    cause: Cause
    before_class: str | None
    """The edition's own class, `none`, `observation` or `unclassed`; None where nothing is classed."""
    after_class: str | None
    before_verdict: str | None = None
    """Of a rule: inside, outside, undecided, not-yet; None of a finding, or where there is no rule."""
    after_verdict: str | None = None
    side: str | None = None
    detail: str | None = None
    source_before: str = ""
    source_after: str = ""

    def as_json(self) -> dict[str, Any]:
        """The change as `hands-on assess --json` prints it under `changes`."""
        return asdict(self)


def changes(before: Evaluation, after: Evaluation, a: Ruleset, b: Ruleset) -> tuple[Change, ...]:
    """What differs between `before`, a session under `a`, and `after`, the same session under `b`.

    Findings first, then the verdicts on limits. Nothing that both say alike is told: a class that
    disqualifies counts as the same whatever it is called, other classes are the same by their ids.
    """
    rules = _Rules(before, after, a, b).changes()
    return (*_Findings(before, after, a, b, rules).changes(), *rules)


# --- verdicts on limits ------------------------------------------------------------------------------


class _Rules:
    """The verdicts on limits, paired by what they are about."""

    def __init__(self, before: Evaluation, after: Evaluation, a: Ruleset, b: Ruleset) -> None:
        self.a, self.b = a, b
        self.limits = [{limit.id: limit for limit in rules.edition.limits} for rules in (a, b)]
        self.tables = [
            _by_value(one, limits) for one, limits in zip((before, after), self.limits, strict=True)
        ]

    def changes(self) -> list[Change]:
        found = []
        for key in dict.fromkeys([*self.tables[0], *self.tables[1]]):
            first, second = self.tables[0].get(key), self.tables[1].get(key)
            if self._state(self.a, first) != self._state(self.b, second):
                found.append(self._change(first, second))
        return found

    def _state(self, ruleset: Ruleset, rule: RuleResult | None) -> tuple[str | None, ...] | None:
        if rule is None:
            return None
        cls = class_key(ruleset, rule.cls) if rule.cls is not None else None
        return rule.verdict, cls, rule.fault if cls is not None else None, rule.band if _sorts(rule) else None

    def _change(self, first: RuleResult | None, second: RuleResult | None) -> Change:
        one = first or second
        assert one is not None  # a key stands in one of the tables
        limits = [
            table[rule.id] if rule is not None else None
            for table, rule in zip(self.limits, (first, second), strict=True)
        ]
        why, cause = self._why(limits[0], limits[1], first, second)
        return Change(
            one.id,
            "rule",
            one.label,
            _verdict(self.a, first),
            _verdict(self.b, second),
            why,
            cause,
            first.cls if first is not None else None,
            second.cls if second is not None else None,
            first.verdict if first is not None else None,
            second.verdict if second is not None else None,
            one.side,
            source_before=first.source if first is not None else "",
            source_after=second.source if second is not None else "",
        )

    def _why(
        self,
        first: Limit | None,
        second: Limit | None,
        before: RuleResult | None,
        after: RuleResult | None,
    ) -> tuple[str, Cause]:
        for limit, other in ((first, self.b), (second, self.a)):
            lacking = second if limit is first else first
            if limit is not None and lacking is None:
                return self._lacking(limit, other)
        assert first is not None
        assert second is not None  # the loop answers for one alone
        row = limit_row(self.a, self.b, first, second)
        value = before.value if before is not None else None
        stretch = (
            next((one for one in row.stretches if _holds(one, value)), None) if row is not None else None
        )
        cause: Cause = "class" if row is not None and "figures" not in row.differs else "limit"
        if stretch is not None:
            return f"{stretch.text}: {stretch.a} in {self.a.id}, {stretch.b} in {self.b.id}", cause
        units = (after.unit if after is not None else ""), (before.unit if before is not None else "")
        texts = [
            f"{asked_words(rules, limit, unit)} in {rules.id}"
            for rules, limit, unit in ((self.a, first, units[0]), (self.b, second, units[1]))
        ]
        return f"asked {texts[0]}, {texts[1]}", cause

    def _lacking(self, limit: Limit, other: Ruleset) -> tuple[str, Cause]:
        said = no_limit(other, limit)
        cause: Cause = "silence" if said.startswith("silent") else "not-asked"
        practice = "; practice beside the standard, never counted" if limit.optional else ""
        return f"{said} in {other.id}{practice}", cause


_Key = tuple[str, str, bool, bool, str | None, int]


def _by_value(evaluation: Evaluation, limits: Mapping[str, Limit]) -> dict[_Key, RuleResult]:
    """Verdicts by the value they are about, and its side; what was not measured has none."""
    found: dict[_Key, RuleResult] = {}
    for rule in evaluation.rules:
        limit = limits.get(rule.id)
        if limit is None or rule.verdict == "not-measured":
            continue
        count = 0
        while (key := _key(limit, rule, count)) in found:
            count += 1
        found[key] = rule
    return found


def _key(limit: Limit, rule: RuleResult, count: int) -> _Key:
    return limit.name, limit.classifies or "", limit.optional, limit.ideal, rule.side, count


def _sorts(rule: RuleResult) -> bool:
    return rule.low is None and rule.high is None


def _verdict(ruleset: Ruleset, rule: RuleResult | None) -> str:
    if rule is None:
        return NO_RULE
    if _sorts(rule) and rule.band:
        return f"{rule.verdict}, {rule.band}"
    return rule.verdict + (f", {class_words(ruleset, rule.cls)}" if rule.cls is not None else "")


def _holds(stretch: Stretch, value: float | None) -> bool:
    if value is None:
        return False
    above = stretch.low is None or value > stretch.low or (value == stretch.low and not stretch.low_open)
    below = stretch.high is None or value < stretch.high or (value == stretch.high and not stretch.high_open)
    return above and below


# --- findings ----------------------------------------------------------------------------------------


class _Findings:
    """The findings, paired by fault, side and detail."""

    def __init__(
        self, before: Evaluation, after: Evaluation, a: Ruleset, b: Ruleset, rules: Iterable[Change]
    ) -> None:
        self.before, self.after, self.a, self.b = before, after, a, b
        self.by_limit = {change.id: change for change in rules}

    def changes(self) -> list[Change]:
        pairs = _paired(_by_fault(self.before), _by_fault(self.after))
        return [self._change(*pair) for pair in pairs if _state(self.a, pair[0]) != _state(self.b, pair[1])]

    def _change(self, first: Finding | None, second: Finding | None) -> Change:
        one = first or second
        assert one is not None  # a key stands in one of the tables
        why, cause = self._why(one, first, second)
        return Change(
            one.id,
            "finding",
            one.label,
            _called(self.a, first),
            _called(self.b, second),
            why,
            cause,
            first.cls if first is not None else None,
            second.cls if second is not None else None,
            side=one.side,
            detail=one.detail,
            source_before=first.source if first is not None else "",
            source_after=second.source if second is not None else "",
        )

    def _why(self, one: Finding, first: Finding | None, second: Finding | None) -> tuple[str, Cause]:
        both = [finding for finding in (first, second) if finding is not None]
        for finding in both:
            if "combination" in finding.origins:
                return finding.reasons[-1] if finding.reasons else "counted together", "together"
        if any("teeth" in finding.origins for finding in both):
            pairs = zip((self.a, self.b), (first, second), strict=True)
            return "; ".join(f"{_reason(finding)} in {rules.id}" for rules, finding in pairs), "class"
        if any("take" in finding.origins for finding in both):
            measured = self._measured(one.id)
            if measured is not None:
                return measured.why, measured.cause
        for rules, there in ((self.a, first), (self.b, second)):
            if there is None:
                return f"{rules.id} does not ask for it", "not-asked"
        profiles = [profile(rules, one.id, one.detail) for rules in (self.a, self.b)]
        words = [
            f"{said.words(rules)} in {rules.id}"
            for said, rules in zip(profiles, (self.a, self.b), strict=True)
        ]
        silent = any(said.cases[-1].unruled == SILENT for said in profiles)
        return "; ".join(words), "silence" if silent else "class"

    def _measured(self, fault: str) -> Change | None:
        """The changed verdict on a limit that this fault comes from."""
        rules = [*self.before.rules, *self.after.rules]
        named = [rule.id for rule in rules if fault in (rule.fault, rule.id)]
        return next((self.by_limit[name] for name in named if name in self.by_limit), None)


_Found = dict[tuple[str, str | None, str | None], Finding]


def _paired(before: _Found, after: _Found) -> Iterator[tuple[Finding | None, Finding | None]]:
    """Each finding with the same one under the other edition; by the fault alone where the side differs.

    A measurement that speaks for a fault under one edition only may take its side away.
    """
    left: dict[str, list[Finding]] = {}
    for key, finding in after.items():
        if key not in before:
            left.setdefault(finding.id, []).append(finding)
    for key, finding in before.items():
        others = left.get(finding.id)
        yield finding, after.get(key) or (others.pop(0) if others else None)
    yield from ((None, finding) for others in left.values() for finding in others)


def _by_fault(evaluation: Evaluation) -> _Found:
    """Findings that are there, those that are no fault too."""
    every = (*evaluation.findings, *evaluation.allowed)
    return {(one.id, one.side, one.detail): one for one in every if one.status != "absent"}


def _state(ruleset: Ruleset, finding: Finding | None) -> tuple[str, ...] | None:
    """What is told apart; no fault here and not found at all are the same."""
    if finding is None or finding.cls in (None, "none"):
        return None
    return class_key(ruleset, finding.cls or ""), finding.status, str(finding.counts)


def _called(ruleset: Ruleset, finding: Finding | None) -> str:
    if finding is None:
        return NOT_FOUND
    marks = [class_words(ruleset, finding.cls or "unclassed")]
    marks += ["unsure"] if finding.status == "unsure" else []
    marks += ["too young to judge"] if finding.too_young else []
    marks += ["dismissed by the evaluator"] if finding.decision == "dismiss" else []
    return ", ".join(marks)


def _reason(finding: Finding | None) -> str:
    if finding is None:
        return NOT_FOUND
    return "; ".join(finding.reasons) or finding.cls or ""
