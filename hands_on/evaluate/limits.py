"""All limits of an edition held against one dog's numbers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property

from hands_on.evaluate.alarms.judged import SwitchOff
from hands_on.evaluate.circumstances import Asking, Circumstances, Lacking
from hands_on.evaluate.departure import Departure
from hands_on.evaluate.held import Held, rule_result
from hands_on.evaluate.holding import hold
from hands_on.evaluate.ladder import Case
from hands_on.evaluate.result import Alarm, RuleResult
from hands_on.evaluate.sorting import sort
from hands_on.evaluate.values import Incomputable, readings
from hands_on.frozen import dataclass
from hands_on.ruleset.rules import Limit

__all__ = ["Limits", "hold_limits"]


@dataclass(frozen=True)
class Kept:
    """A fault that a counted limit names and that is surely not there."""

    fault: str
    detail: str | None
    rule: RuleResult


@dataclass(frozen=True)
class Limits:
    """What all limits of an edition give."""

    rules: tuple[RuleResult, ...]
    """The result of each limit that applies, one for each side that was measured, in the edition's order."""
    turns: tuple[tuple[Limit, Held], ...]
    """How each was held, in the order they were: those that sort came first."""
    circumstances: Circumstances
    """With what the limits that sort have settled."""
    lacking: Lacking
    unchosen: tuple[Alarm, ...] = ()
    """Of limits that were not kept and would judge this dog, had their switch been chosen."""

    @cached_property
    def departures(self) -> tuple[Departure, ...]:
        """What departs, or may."""
        return tuple(held.departure for _, held in self.turns if held.departure is not None)

    @cached_property
    def alarms(self) -> tuple[Alarm, ...]:
        """What is to be looked at again."""
        return (*(alarm for _, held in self.turns for alarm in held.alarms), *self.unchosen)

    @cached_property
    def kept(self) -> tuple[Kept, ...]:
        """The faults that counted limits name and that are surely not there."""
        return tuple(
            Kept(fault, detail, held.rule)
            for limit, held in self.turns
            if held.judges and not limit.optional and held.rule.verdict == "inside"
            for fault, detail in dict.fromkeys((one.fault, one.place) for one in limit.bands if one.fault)
        )

    @cached_property
    def judging(self) -> tuple[RuleResult, ...]:
        """The results of limits that judge this dog."""
        return tuple(held.rule for _, held in self.turns if held.judges)

    @cached_property
    def outside(self) -> frozenset[str]:
        """Ids of limits surely not kept, old enough to count; those of practice beside the standard too."""
        return frozenset(
            limit.id
            for limit, held in self.turns
            if held.judges and held.rule.verdict == "outside" and held.rule.judged_from is None
        )


def hold_limits(case: Case) -> Limits:
    """All limits that apply: those that sort first, since others may depend on what they find."""
    limits = case.ruleset.edition.limits
    asking = Asking(case.circumstances, case.present)
    turns: list[tuple[Limit, Held]] = []
    unchosen: list[Alarm] = []
    for limit in sorted(limits, key=lambda limit: limit.classifies is None):
        asking.circumstances = case.circumstances
        if not _applies(case, asking, limit):
            unchosen += _unchosen(case, limit)
            continue
        for held in _held(case, limit):
            turns.append((limit, held))
            asking.keep(held.lacking, limit.measures)
            if held.settled is not None:
                case = case.with_attribute(*held.settled)
    order = {limit.id: place for place, limit in enumerate(limits)}
    rules = sorted((held.rule for _, held in turns), key=lambda rule: order[rule.id])
    return Limits(tuple(rules), tuple(turns), case.circumstances, asking.lacking, tuple(unchosen))


def _applies(case: Case, asking: Asking, limit: Limit) -> bool:
    """Does its condition hold? What that lacks matters only where the value was measured."""
    if all(name in case.measures.by_point for name in limit.measures):
        return asking.holds(limit.when, limit.measures)
    return case.circumstances.state(limit.when, present=case.present) == "holds"


def _unchosen(case: Case, limit: Limit) -> Iterator[Alarm]:
    """What would be found by a limit that is off until chosen; what is practice only counts nowhere."""
    if limit.optional or case.circumstances.state(limit.when, present=case.present) != "off":
        return
    switch = next(iter(limit.when.switch or ()), "") if limit.when is not None else ""
    for held in _held(case, limit):
        if held.departure is not None:
            would_be = SwitchOff(switch, held.rule.named, held.rule.cls or "")
            yield Alarm("conditional", limit.measures, would_be)


def _held(case: Case, limit: Limit) -> Iterator[Held]:
    """A limit held against each reading of its value."""
    try:
        found = readings(case.ruleset, case.measures, limit, limit.unit)
    except Incomputable as problem:
        rule = rule_result(case, limit, None, "not-measured")
        yield Held(replace(rule, missing=problem.missing, value_unit=problem.unit, problem=problem.problem))
        return
    age = case.circumstances.age
    for reading in found:
        if limit.from_age is not None and (age is None or age < limit.from_age):
            rule = replace(rule_result(case, limit, reading, "not-yet"), from_age=limit.from_age)
            yield Held(rule, lacking=("age",) if age is None else ())
        elif reading.contradictory:
            rule = rule_result(case, limit, reading, "undecided")
            yield Held(replace(rule, contradictory=reading.contradictory))
        elif limit.classifies is not None:
            yield sort(case, limit, limit.classifies, reading)
        elif limit.asked is not None:
            yield hold(case, limit, limit.asked, reading)
