"""Totals by class, and the best outcome that is left."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import field
from typing import Literal

from hands_on.evaluate.circumstances import Asking, Lacking
from hands_on.evaluate.classes import UNCLASSED, Classes
from hands_on.evaluate.result import Finding
from hands_on.exam.session import Status
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.labels import Label
from hands_on.ruleset.rules import Cap
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["OutcomeReason", "best_left", "disqualifying", "totals"]


def totals(ruleset: Ruleset, findings: Iterable[Finding], status: Status) -> dict[str, int]:
    """How many findings of this status count in each class, every class named, and `unclassed`."""
    counts = dict.fromkeys((*ruleset.classes, UNCLASSED), 0)
    for finding in findings:
        if finding.counts and finding.status == status:
            name = finding.cls if finding.cls in counts else UNCLASSED
            counts[name or UNCLASSED] += 1
    return counts


def disqualifying(classes: Classes, findings: Iterable[Finding]) -> tuple[str, ...]:
    """Ids of findings, sure and counted, in a class that disqualifies."""
    return tuple(dict.fromkeys(one.id for one in _counted(findings) if classes.disqualifies(one.cls)))


@dataclass(frozen=True)
class OutcomeReason:
    """One thing that bears on the best outcome left; `wording.outcome` says it."""

    kind: Literal[
        "age-not-known",  # so that the outcomes of every age are left open
        "degree-not-said",  # of `names`, which the cap would hold of from a degree up
        "capped",  # by what is in `names`
        "practice",  # the same beside the standard, and not applied
    ]
    cap: Cap | None = None
    names: tuple[Label, ...] = ()
    """Labels of findings, and the id of a limit that is not kept."""


@dataclass(frozen=True)
class BestLeft:
    """The best outcome that is left open, and why; None where the edition has no outcomes."""

    outcome: str | None = None
    reasons: tuple[OutcomeReason, ...] = ()
    lacking: Lacking = field(default_factory=dict)


def best_left(classes: Classes, findings: Iterable[Finding], outside: Collection[str]) -> BestLeft:
    """The best outcome for this age that no cap rules out.

    `outside` are the ids of limits surely not kept. What is practice beside the standard, the cap or its
    limit, is told and not applied.
    """
    ruleset, circumstances = classes.ruleset, classes.circumstances
    offered = circumstances.outcomes()
    outcomes = [outcome.id for outcome in offered]
    if not outcomes:
        return BestLeft()
    counted = list(_counted(findings))
    asking = Asking(circumstances, {one.id for one in counted})
    practice = {limit.id for limit in ruleset.edition.limits if limit.optional}
    best = 0
    reasons: list[OutcomeReason] = []
    if any(circumstances.state(row.when) == "unknown" for row in offered):
        reasons.append(OutcomeReason("age-not-known"))
    for cap in ruleset.edition.caps:
        if cap.at_most not in outcomes:
            continue
        why = _why(cap, classes, counted, outside)
        unsaid = () if cap.optional else _without_degree(cap, counted)
        if not (why or unsaid) or not asking.holds(cap.when, ()):
            continue
        if unsaid:
            reasons.append(OutcomeReason("degree-not-said", cap, unsaid))
        if not why:
            continue
        if cap.optional or cap.limit in practice:
            reasons.append(OutcomeReason("practice", cap, why))
            continue
        best = max(best, outcomes.index(cap.at_most))
        reasons.append(OutcomeReason("capped", cap, why))
    return BestLeft(outcomes[best], tuple(reasons), asking.lacking)


def _why(
    cap: Cap, classes: Classes, counted: Iterable[Finding], outside: Collection[str]
) -> tuple[Label, ...]:
    """What makes the cap hold; empty where nothing does. A class caps what is heavier as well.

    A degree asked for is asked of the class itself: what is heavier is no light matter at any degree.
    """
    why: list[Label] = []
    for finding in counted:
        heavier = classes.ruleset.rank(finding.cls) > classes.ruleset.rank(cap.class_) > 0
        if heavier or (_named(cap, finding) and _reaches(finding, cap.from_degree)):
            why.append(finding.named)
    if cap.limit is not None and cap.limit in outside:
        why.append(Label(cap.limit))
    return tuple(dict.fromkeys(why))


def _without_degree(cap: Cap, counted: Iterable[Finding]) -> tuple[Label, ...]:
    """What the cap names and would hold of, had a degree been said."""
    if cap.from_degree is None:
        return ()
    return tuple(dict.fromkeys(one.named for one in counted if _named(cap, one) and one.degree is None))


def _named(cap: Cap, finding: Finding) -> bool:
    return (cap.class_ is not None and finding.cls == cap.class_) or finding.id in cap.faults


def _reaches(finding: Finding, wanted: Degree | None) -> bool:
    """Is the finding of this degree or more? Without a degree it is not: nothing is held against a guess."""
    if wanted is None:
        return True
    return finding.degree is not None and DEGREES.index(finding.degree) >= DEGREES.index(wanted)


def _counted(findings: Iterable[Finding]) -> Iterable[Finding]:
    return (one for one in findings if one.counts and one.status == "present")
