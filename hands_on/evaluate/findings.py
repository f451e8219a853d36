"""Groups of departures to findings: class, age, the evaluator's decision, whether they count."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from hands_on.evaluate.alarms.judged import (
    DegreeNeeded,
    DegreeNeededTogether,
    ForVeterinarian,
    SwitchChosen,
    SwitchOff,
)
from hands_on.evaluate.circumstances import Asking, Lacking
from hands_on.evaluate.classes import NONE, OBSERVATION, Classes
from hands_on.evaluate.departure import Called, Departure, sides_meet
from hands_on.evaluate.merge import Group
from hands_on.evaluate.reasons import Reason, said
from hands_on.evaluate.result import Alarm, Finding, Origin
from hands_on.exam.session import Decision
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.labels import Label
from hands_on.ruleset.rules import Combination
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["found_faults", "make_findings"]

T = TypeVar("T")

UNCOUNTED = (NONE, OBSERVATION)
"""Classes of what is shown and is no fault here."""


@dataclass(frozen=True)
class Findings:
    """What counts or has no class, what is allowed, and what is to be looked at again."""

    counted: tuple[Finding, ...]
    allowed: tuple[Finding, ...]
    alarms: tuple[Alarm, ...]
    lacking: Lacking


def make_findings(
    classes: Classes,
    decisions: Sequence[Decision],
    present: Collection[str],
    groups: Iterable[Group],
    absent: Iterable[Group],
) -> Findings:
    """All findings of groups, those that count sorted by class, heaviest first, then as first named."""
    return _Maker(classes, decisions, present).make(groups, absent)


class _Maker:
    def __init__(self, classes: Classes, decisions: Sequence[Decision], present: Collection[str]) -> None:
        self.ruleset: Ruleset = classes.ruleset
        self.circumstances = classes.circumstances
        self.classes = classes
        self.decisions = decisions
        self.present = present
        self.asking = Asking(classes.circumstances, present)
        self.alarms: list[Alarm] = []

    def make(self, groups: Iterable[Group], absent: Iterable[Group]) -> Findings:
        made = [self._finding(group) for group in groups]
        made = [self._reclassed(finding) for finding in self._combined(made)]
        counted = sorted(
            (finding for finding in made if finding.cls not in UNCOUNTED),
            key=lambda one: (not one.counts, one.status != "present", -self.classes.weight(one.cls or "")),
        )
        allowed = [finding for finding in made if finding.cls in UNCOUNTED]
        allowed += [self._absent(group) for group in absent]
        return Findings(tuple(counted), tuple(allowed), tuple(self.alarms), self.asking.lacking)

    def _finding(self, group: Group) -> Finding:
        called = self._class_of(group)
        points = _unique(point for one in group.members for point in one.points)
        if called.degree_needed and group.status == "present":
            self.alarms.append(Alarm("degree-needed", points, DegreeNeeded(self._named(group))))
        if called.switch:
            chosen = SwitchChosen(called.switch, self._named(group))
            self.alarms.append(Alarm("conditional", points, chosen))
        if called.off and group.status == "present":
            off = SwitchOff(called.off, self._named(group), called.would_be)
            self.alarms.append(Alarm("conditional", points, off))
        young, always = self._too_young(group)
        reasons = [*called.reasons, *(reason for one in group.members for reason in one.reasons)]
        reasons += group.degrees_differ()
        reasons += _of_age(young)
        reasons += always
        known = self.ruleset.faults.get(group.fault)
        origins: list[Origin] = [one.origin for one in group.members]
        finding = Finding(
            id=group.fault,
            named=self._named(group),
            region=self._region(group, points),
            degree=group.degree,
            side=group.side,
            status=group.status,
            cls=called.cls,
            origin=group.basis[0].origin,
            origins=tuple(dict.fromkeys(origins)),
            points=points,
            too_young=young is not None,
            judged_from=young.from_months if young is not None else None,
            detail=group.detail,
            rules=tuple(dict.fromkeys(one.rule for one in group.members if one.rule is not None)),
            teeth=tuple(sorted({tooth for one in group.members for tooth in one.teeth})),
            function=known.function if known is not None else "",
            veterinary=known.veterinary if known is not None else "",
            source=self.ruleset.source_text(called.source),
            sources=called.source,
            reading=called.reading,
            reasons=tuple(dict.fromkeys(reasons)),
            counts=young is None and called.cls not in UNCOUNTED,
        )
        if known is not None and known.veterinary and (known.always or finding.degree == "extreme"):
            about = ForVeterinarian(finding.named, known.veterinary)
            self.alarms.append(Alarm("veterinary", points, about))
        return self._decided(finding)

    def _class_of(self, group: Group) -> Called:
        """The heaviest class that the group's basis gives; the tooth chart alone decides for teeth.

        Where a measurement of the same thing is undecided, the eye does not disqualify either.
        """
        chart = [one.called for one in group.basis if one.origin == "teeth" and one.called is not None]
        if chart:
            return chart[0]
        given = [one.called for one in group.basis if one.called is not None]
        judged = [one for one in group.basis if one.called is None]
        if judged:
            points = _unique(point for one in judged for point in one.points)
            ruled = self.classes.class_of(group.fault, group.degree, group.detail, self.present)
            self.asking.keep(ruled.lacking, points)
            given.append(ruled)
        heaviest = given[0]
        for called in given[1:]:
            heaviest = self.classes.heaviest(heaviest, called)
        undecided = [one.called for one in group.members if one.origin == "take" and one.status == "unsure"]
        light = next((called for called in undecided if called is not None), None)
        if light is not None and self.classes.disqualifies(heaviest.cls):
            return replace(light, reasons=(*light.reasons, Reason("seen-not-measured")))
        return heaviest

    def _too_young(self, group: Group) -> tuple[TooYoung | None, tuple[Reason, ...]]:
        """Why it cannot be judged yet (None: it can), and what is said of it at any age."""
        known = self.ruleset.faults.get(group.fault)
        young = self.circumstances.too_young(known.too_young) if known is not None else None
        first = group.basis[0].too_young
        if first is not None and all(one.too_young is not None for one in group.basis):
            young = max(young or first, first, key=lambda one: one.from_months)
        always = known.always if known is not None and young is not None else ""
        if always and any(one.lasting for one in group.basis):
            return None, (Reason("counted-young", always),)
        return young, said(always)

    def _decided(self, finding: Finding) -> Finding:
        """With the evaluator's own decision, where there is one; both stay visible."""
        for decision in self.decisions:
            if not self._is_about(decision, finding):
                continue
            if decision.decision == "dismiss":
                told = Reason("dismissed", decision.reason)
                return replace(finding, decision="dismiss", counts=False, reasons=(*finding.reasons, told))
            told = Reason("upheld", decision.reason)
            return replace(finding, decision="uphold", status="present", reasons=(*finding.reasons, told))
        return finding

    def _reclassed(self, finding: Finding) -> Finding:
        """In the class that the evaluator gives it, where one was given; the computed one stays visible.

        What rests on a measurement is disqualified by the figure or not at all: where the figure is sure
        enough, the limit has called it.
        """
        given = next((one for one in self.decisions if one.class_ and self._is_about(one, finding)), None)
        if given is None or given.class_ is None or finding.decision != "uphold":
            return finding
        cls = finding.cls or NONE
        if given.class_ not in self.ruleset.classes:
            told = Reason("class-unknown", cls=given.class_)
            return replace(finding, reasons=(*finding.reasons, told))
        heavier = self.classes.disqualifies(given.class_) and not self.classes.disqualifies(cls)
        if heavier and "take" in finding.origins:
            told = Reason("class-not-applied", cls=given.class_)
            return replace(finding, reasons=(*finding.reasons, told))
        told = Reason("class-given", cls=given.class_, computed=cls)
        return replace(
            finding,
            cls=given.class_,
            computed_cls=cls,
            counts=not finding.too_young,
            reasons=(*finding.reasons, told),
        )

    def _is_about(self, decision: Decision, finding: Finding) -> bool:
        return decision.fault == finding.id and sides_meet(decision.side, finding.side)

    def _combined(self, findings: list[Finding]) -> list[Finding]:
        """Faults that count otherwise together; only sure findings make a combination."""
        for combination in self.ruleset.edition.combinations:
            members = self._members(combination, findings)
            if not members:
                continue
            points = _unique(point for place in members for point in findings[place].points)
            if not self.asking.holds(combination.when, points):
                continue
            names = _unique(findings[place].named for place in members)
            for place in members:
                member = findings[place]
                if self.classes.weight(combination.class_) <= self.classes.weight(member.cls or NONE):
                    continue
                told = Reason("together", combination.label, cls=combination.class_, names=names)
                findings[place] = replace(
                    member,
                    cls=combination.class_,
                    counts=combination.class_ not in UNCOUNTED,
                    origins=(*member.origins, "combination"),
                    source=self.ruleset.source_text(combination.source),
                    sources=combination.source,
                    reading=combination.reading or member.reading,
                    reasons=(*member.reasons, told),
                )
        return findings

    def _members(self, combination: Combination, findings: list[Finding]) -> list[int]:
        """Places of the findings that make a combination; empty where one is lacking."""
        members: list[int] = []
        for wanted in combination.all:
            fitting = []
            for place, finding in enumerate(findings):
                if finding.id != wanted.fault or not _stands(finding):
                    continue
                if wanted.from_degree is not None:
                    if finding.degree is None:
                        about = DegreeNeededTogether(finding.named, combination.class_, wanted.from_degree)
                        self.alarms.append(Alarm("degree-needed", finding.points, about))
                        continue
                    if DEGREES.index(finding.degree) < DEGREES.index(wanted.from_degree):
                        continue
                fitting.append(place)
            if not fitting:
                return []
            members += fitting
        return members

    def _absent(self, group: Group) -> Finding:
        known = self.ruleset.faults.get(group.fault)
        young = self.circumstances.too_young(known.too_young) if known is not None else None
        points = _unique(point for one in group.members for point in one.points)
        return Finding(
            id=group.fault,
            named=self._named(group),
            region=self._region(group, points),
            degree=None,
            side=group.side,
            status="absent",
            cls=NONE,
            origin=group.members[0].origin,
            origins=tuple(dict.fromkeys(one.origin for one in group.members)),
            points=points,
            detail=group.detail,
            function=known.function if known is not None else "",
            too_young=young is not None,
            judged_from=young.from_months if young is not None else None,
            reasons=(Reason("ruled-out"), *_of_age(young)),
            counts=False,
        )

    def _named(self, group: Group) -> Label:
        own = next((one.named for one in group.members if one.named is not None), None)
        known = group.fault in self.ruleset.faults
        return own if own is not None and not known else Label(self.ruleset.label(group.fault))

    def _region(self, group: Group, points: tuple[str, ...]) -> str:
        known = self.ruleset.faults.get(group.fault)
        if known is not None and known.region:
            return known.region
        place = next((self.ruleset.points[name].region for name in points if name in self.ruleset.points), "")
        return place or group.fault.split(".")[0]


def found_faults(departures: Iterable[Departure], decisions: Sequence[Decision]) -> frozenset[str]:
    """Faults that are present and were not dismissed, as conditions `with` and `without` ask for them."""
    dismissed = {one.fault for one in decisions if one.decision == "dismiss" and one.side is None}
    return frozenset(
        one.fault for one in departures if one.status == "present" and one.fault not in dismissed
    )


def _stands(finding: Finding) -> bool:
    """Sure, old enough and not dismissed."""
    return finding.status == "present" and not finding.too_young and finding.decision != "dismiss"


def _of_age(young: TooYoung | None) -> tuple[Reason, ...]:
    return (Reason("too-young", young=young),) if young is not None else ()


def _unique(each: Iterable[T]) -> tuple[T, ...]:
    return tuple(dict.fromkeys(each))
