"""One session under two editions: which verdicts and classes differ, and why.

Takes, grades and choices belong to the dog; what they are worth belongs to the edition. Everything told
here follows from a difference of the two editions, for the answers are the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from typing import Literal

from hands_on.compare.editions.classing import class_key, fault_classes
from hands_on.compare.editions.limits import limit_pair, no_limit
from hands_on.compare.editions.rule_pair import FaultClasses, Lack, Stretch
from hands_on.evaluate.result import Evaluation, Finding, RuleResult
from hands_on.frozen import dataclass
from hands_on.ruleset.labels import Label
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "Cause",
    "Change",
    "ClassedBy",
    "CountedTogether",
    "Lacking",
    "LimitsDiffer",
    "NotAsked",
    "TeethCounted",
    "Why",
    "changes",
    "sorts",
]

Cause = Literal[
    "limit",  # other figures, or another unit
    "class",  # the editions class the same departure differently
    "silence",  # one of them says nothing of it
    "not-asked",  # one of them does not ask for it, or does not know it
    "together",  # faults that one of them counts otherwise when found together
]


@dataclass(frozen=True)
class Lacking:
    """An edition sets no limit on the value."""

    ruleset: Ruleset
    """The edition that sets none."""
    lack: Lack
    optional: bool
    """The other's limit is practice beside the standard."""


@dataclass(frozen=True)
class LimitsDiffer:
    """Both limit the value, otherwise."""

    first: Limit
    second: Limit
    units: tuple[str, str]
    """Those the verdicts are in: of the first edition, of the second."""
    stretch: Stretch | None
    """Where the value lies, if the editions differ there."""


@dataclass(frozen=True)
class CountedTogether:
    """One edition counts faults otherwise when they are found together."""

    finding: Finding


@dataclass(frozen=True)
class TeethCounted:
    """The editions count teeth otherwise; the findings tell how."""


@dataclass(frozen=True)
class NotAsked:
    """An edition does not ask for it."""

    ruleset: Ruleset


@dataclass(frozen=True)
class ClassedBy:
    """What the rulings of both say of the fault."""

    first: FaultClasses
    second: FaultClasses


Why = Lacking | LimitsDiffer | CountedTogether | TeethCounted | NotAsked | ClassedBy
"""The difference of the two editions that a change follows from."""


@dataclass(frozen=True)
class Change:
    """A verdict or a class that the second edition changes."""

    named: Label
    before: Finding | RuleResult | None
    """None: not found, or no rule."""
    after: Finding | RuleResult | None
    why: Why
    cause: Cause
    a: Ruleset = field(repr=False, compare=False)
    b: Ruleset = field(repr=False, compare=False)

    @property
    def one(self) -> Finding | RuleResult:
        """What there is under the first edition that has it."""
        one = self.before or self.after
        assert one is not None  # a change has one of the two
        return one

    @property
    def id(self) -> str:
        """The fault's, or the limit's in the edition that has it."""
        return self.one.id

    @property
    def kind(self) -> Literal["finding", "rule"]:
        """What changes: a finding, or the verdict on a limit."""
        return "finding" if isinstance(self.one, Finding) else "rule"

    @property
    def classes(self) -> tuple[str | None, str | None]:
        """Each edition's own class, `none`, `observation` or `unclassed`; None where nothing is classed."""
        before, after = self.before, self.after
        return before.cls if before is not None else None, after.cls if after is not None else None


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
        return rule.verdict, cls, rule.fault if cls is not None else None, rule.band if sorts(rule) else None

    def _change(self, first: RuleResult | None, second: RuleResult | None) -> Change:
        one = first or second
        assert one is not None  # a key stands in one of the tables
        limits = [
            table[rule.id] if rule is not None else None
            for table, rule in zip(self.limits, (first, second), strict=True)
        ]
        why, cause = self._why(limits[0], limits[1], first, second)
        return Change(one.named, first, second, why, cause, self.a, self.b)

    def _why(
        self,
        first: Limit | None,
        second: Limit | None,
        before: RuleResult | None,
        after: RuleResult | None,
    ) -> tuple[Why, Cause]:
        for limit, other in ((first, self.b), (second, self.a)):
            lacking = second if limit is first else first
            if limit is not None and lacking is None:
                return self._lacking(limit, other)
        assert first is not None
        assert second is not None  # the loop answers for one alone
        pair = limit_pair(self.a, self.b, first, second)
        value = before.value if before is not None else None
        stretches = pair.stretches if pair is not None else ()
        stretch = next((one for one in stretches if _holds(one, value)), None)
        cause: Cause = "class" if pair is not None and "figures" not in pair.differs else "limit"
        units = (before.unit if before is not None else ""), (after.unit if after is not None else "")
        return LimitsDiffer(first, second, units, stretch), cause

    def _lacking(self, limit: Limit, other: Ruleset) -> tuple[Why, Cause]:
        lack = no_limit(other, limit)
        return Lacking(other, lack, limit.optional), "silence" if lack.kind == "silent" else "not-asked"


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


def sorts(rule: RuleResult) -> bool:
    """Does the limit sort instead of judging?"""
    return rule.low is None and rule.high is None


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
        return Change(one.named, first, second, why, cause, self.a, self.b)

    def _why(self, one: Finding, first: Finding | None, second: Finding | None) -> tuple[Why, Cause]:
        both = [finding for finding in (first, second) if finding is not None]
        for finding in both:
            if "combination" in finding.origins:
                return CountedTogether(finding), "together"
        if any("teeth" in finding.origins for finding in both):
            return TeethCounted(), "class"
        if any("take" in finding.origins for finding in both):
            measured = self._measured(one.id)
            if measured is not None:
                return measured.why, measured.cause
        for rules, there in ((self.a, first), (self.b, second)):
            if there is None:
                return NotAsked(rules), "not-asked"
        classed = ClassedBy(*(fault_classes(rules, one.id, one.detail) for rules in (self.a, self.b)))
        silent = "silent" in (classed.first.cases[-1].unruled, classed.second.cases[-1].unruled)
        return classed, "silence" if silent else "class"

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
