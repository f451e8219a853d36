"""What is left open: how likely each class is, and the outcome at best and at worst.

A class that a measurement gives with no more than one minus the edition's confidence is ruled out (JCGM
106:2012, 8); every other is left open, the heavier ones too, and is told with its probability. What was
seen and left unsure, and a fault without a degree, have no probability: they are open either way.

The dog's heaviest class over several open limits: those of one measurement depend on each other wholly, the
least likely to stay light decides (an upper bound of what they allow together); those of different
measurements are taken as independent.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from hands_on.evaluate import outcome
from hands_on.evaluate.classes import NONE, OBSERVATION, Classes
from hands_on.evaluate.result import Finding, RuleResult, Rung
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.labels import Label

__all__ = ["End", "LeftOpen", "Outlook", "class_chances", "outlook"]

_TINY = 1e-9


@dataclass(frozen=True)
class LeftOpen:
    """A limit, or a finding, whose class is not settled."""

    named: Label
    points: tuple[str, ...]
    lightest: str
    """The lightest class left open; `none` where it may be no fault."""
    heaviest: str
    chances: Mapping[str, float]
    """Probability of each class by the measurement, lightest first; empty where no figure says."""
    rule: RuleResult | None = None
    finding: Finding | None = None


@dataclass(frozen=True)
class End:
    """What becomes of the dog where everything open turns out lightest, or heaviest."""

    outcome: str | None
    """None where the edition has no outcomes."""
    cls: str
    """The heaviest class that counts; `none` where nothing does."""
    disqualified: bool


@dataclass(frozen=True)
class Outlook:
    """Everything left open of what was examined; what was not examined is in none of it."""

    open: tuple[LeftOpen, ...]
    chances: Mapping[str, float]
    """Probability of each class as the dog's heaviest, lightest first; empty where no figure leaves one."""
    best: End
    worst: End

    @property
    def settled(self) -> bool:
        """Do best and worst come to the same?"""
        return self.best == self.worst

    def of(self, finding: Finding) -> LeftOpen | None:
        """What is open of a finding; None where its class is settled."""
        for one in self.open:
            if one.finding is not None and (one.finding.id, one.finding.side) == (finding.id, finding.side):
                return one
        return None


def class_chances(classes: Classes, rule: RuleResult) -> dict[str, float]:
    """How likely each class is by a limit, lightest first; as asked, tolerated and no fault are `none`."""
    found: dict[str, float] = {}
    for rung in rule.ladder:
        cls = _counted(rung.cls)
        found[cls] = found.get(cls, 0.0) + rung.p
    return dict(sorted(found.items(), key=lambda item: classes.weight(item[0])))


def outlook(
    classes: Classes,
    findings: Sequence[Finding],
    rules: Sequence[RuleResult],
    outside: Collection[str],
    confidence: float,
) -> Outlook:
    """What findings and limits (those that judge the dog) leave open; `outside` as in `outcome.best_left`."""
    measured = list(_measured(classes, findings, rules, confidence))
    seen = list(_seen(classes, findings, [one.finding for one in measured if one.finding is not None]))
    opened = (*measured, *seen)
    best = [one for one in (_at_best(finding, opened) for finding in findings) if one is not None]
    worst = [_at_worst(classes, finding, opened) for finding in findings]
    worst += [_heaviest_of(classes, one) for one in measured if one.finding is None]
    beyond = {*outside, *(one.rule.id for one in measured if one.rule is not None)}
    sure = [one for one in best if not any(one.id == two.finding.id for two in measured if two.finding)]
    return Outlook(
        opened,
        _together(classes, measured, _heaviest(classes, sure)),
        _end(classes, best, outside),
        _end(classes, worst, beyond),
    )


def _counted(cls: str) -> str:
    return NONE if cls in (NONE, OBSERVATION) else cls


# --- what is open ------------------------------------------------------------------------------------


def _measured(
    classes: Classes, findings: Iterable[Finding], rules: Iterable[RuleResult], confidence: float
) -> Iterable[LeftOpen]:
    """Limits whose class the measurement leaves open."""
    by_rule = {(rule.id, rule.side): finding for finding in findings for rule in finding.rules}
    for rule in rules:
        if not rule.ladder or rule.optional or rule.judged_from is not None:
            continue
        finding = by_rule.get((rule.id, rule.side))
        if finding is not None and (finding.too_young or finding.decision):
            continue  # not judged yet, or the evaluator has decided
        chances = class_chances(classes, rule)
        possible = [cls for cls, p in chances.items() if p > 1.0 - confidence + _TINY]
        if len(possible) > 1:
            named = finding.named if finding is not None else rule.named
            yield LeftOpen(named, rule.measures, possible[0], possible[-1], chances, rule, finding)


def _seen(classes: Classes, findings: Iterable[Finding], measured: Sequence[Finding]) -> Iterable[LeftOpen]:
    """Findings left unsure, and faults whose class hangs on a degree that was not said."""
    for finding in findings:
        if finding in measured or not finding.counts or finding.status == "absent":
            continue
        heaviest = _by_degree(classes, finding)
        lightest = NONE if finding.status == "unsure" else finding.cls or NONE
        if heaviest != lightest:
            yield LeftOpen(finding.named, finding.points, lightest, heaviest, {}, None, finding)


def _by_degree(classes: Classes, finding: Finding) -> str:
    """The heaviest class of a finding, where no degree was said that of every degree."""
    own = finding.cls or NONE
    if finding.degree is not None or finding.rules or finding.computed_cls is not None:
        return own
    each = [classes.class_of(finding.id, degree, finding.detail, ()).cls for degree in DEGREES]
    return max([own, *map(_counted, each)], key=classes.weight)


# --- at best and at worst ----------------------------------------------------------------------------


def _at_best(finding: Finding, opened: Iterable[LeftOpen]) -> Finding | None:
    """The finding where all that is open of it turns out lightest; None where it is then no fault."""
    light = [one.lightest for one in opened if one.finding is finding]
    if finding.status == "present":
        return finding
    if finding.status == "absent" or not finding.counts or not light or NONE in light:
        return None
    return replace(finding, status="present", cls=light[0])


def _at_worst(classes: Classes, finding: Finding, opened: Iterable[LeftOpen]) -> Finding:
    heavy = [one for one in opened if one.finding is finding]
    if not heavy:
        return replace(finding, status="present") if finding.status == "unsure" else finding
    worst = max(heavy, key=lambda one: classes.weight(one.heaviest))
    if worst.rule is not None:
        rung = _rung(classes, worst.rule, worst.heaviest)
        return replace(finding, status="present", cls=worst.heaviest, degree=rung.degree or finding.degree)
    degree = finding.degree or (DEGREES[-1] if worst.heaviest != finding.cls else None)
    return replace(finding, status="present", cls=worst.heaviest, degree=degree)


def _heaviest_of(classes: Classes, one: LeftOpen) -> Finding:
    """What would be found, had the measurement come out worst, where so far nothing was."""
    assert one.rule is not None
    rung = _rung(classes, one.rule, one.heaviest)
    return Finding(
        id=rung.fault or one.rule.id,
        named=Label(classes.ruleset.label(rung.fault)) if rung.fault else one.named,
        region="",
        degree=rung.degree,
        side=one.rule.side,
        status="present",
        cls=one.heaviest,
        origin="take",
        origins=("take",),
        points=one.points,
    )


def _rung(classes: Classes, rule: RuleResult, cls: str) -> Rung:
    """The likeliest stretch of a class."""
    return max((rung for rung in rule.ladder if _counted(rung.cls) == cls), key=lambda rung: rung.p)


def _end(classes: Classes, findings: Sequence[Finding], outside: Collection[str]) -> End:
    left = outcome.best_left(classes, findings, outside)
    cls = _heaviest(classes, findings)
    return End(left.outcome, cls, classes.disqualifies(cls))


def _heaviest(classes: Classes, findings: Iterable[Finding]) -> str:
    counted = [one.cls or NONE for one in findings if one.counts and one.status == "present"]
    return max(counted, key=classes.weight, default=NONE)


# --- the dog's heaviest class ------------------------------------------------------------------------


def _together(classes: Classes, measured: Sequence[LeftOpen], floor: str) -> dict[str, float]:
    """Probability of each class as the heaviest of all; nothing lighter than `floor`, which is sure."""
    if not measured:
        return {}
    names = {floor, *(cls for one in measured for cls in one.chances)}
    ladder = sorted(names, key=classes.weight)
    found: dict[str, float] = {}
    before = 0.0
    for cls in ladder:
        weight = classes.weight(cls)
        if weight < classes.weight(floor):
            continue
        upto = math.prod(
            min(
                math.fsum(p for name, p in one.chances.items() if classes.weight(name) <= weight)
                for one in group
            )
            for group in _dependent(measured)
        )
        found[cls] = max(0.0, upto - before)
        before = upto
    return found


def _dependent(measured: Iterable[LeftOpen]) -> list[list[LeftOpen]]:
    """Limits in groups that share a measurement."""
    groups: list[list[LeftOpen]] = []
    for one in measured:
        near = [group for group in groups if any(set(one.points) & set(two.points) for two in group)]
        groups = [group for group in groups if group not in near]
        groups.append([one, *(two for group in near for two in group)])
    return groups
