"""What a critique is drafted from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from hands_on.evaluate.result import Evaluation, Finding
from hands_on.exam.session import Session
from hands_on.exam.walk import Stop, stops
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.critique.language import Language, Plan, Sexed

__all__ = ["Source"]


@dataclass(frozen=True, eq=False)
class Source:
    """A session as it stands now (amendments put in), its evaluation, and the language to say it in."""

    session: Session
    evaluation: Evaluation
    language: Language
    plan: Plan

    @property
    def ruleset(self) -> Ruleset:
        """The edition."""
        return self.evaluation.classes.ruleset

    @property
    def sex(self) -> Sexed:
        """For words that depend on it."""
        return self.session.dog.sex or "unknown"

    @cached_property
    def walk(self) -> tuple[Stop, ...]:
        """The points asked of this dog."""
        return stops(self.ruleset, self.session)

    @cached_property
    def right(self) -> frozenset[str]:
        """Points that are as asked for."""
        return frozenset(self.evaluation.as_asked)

    @cached_property
    def fine(self) -> frozenset[str]:
        """Points that are as asked for, and those whose answer the edition allows or says nothing of."""
        young = {point for one in self.evaluation.allowed if one.too_young for point in one.points}
        allowed = {point for one in self.evaluation.allowed for point in one.points} - young
        # an answer to a choice that stands for no fault, as a scar for white
        known = {point for one in self.evaluation.findings for point in one.points} | young
        neutral = {row.point for row in self.session.choices if row.status == "present"} - known
        return self.right | allowed | neutral

    @cached_property
    def seen(self) -> frozenset[str]:
        """The points asked of this dog that are no measurements."""
        return frozenset(stop.point.id for stop in self.walk if stop.point.kind != "measure")

    @cached_property
    def open(self) -> frozenset[str]:
        """Points without an answer."""
        return frozenset(gap.point for gap in self.evaluation.gaps)

    @cached_property
    def faults(self) -> tuple[Finding, ...]:
        """What a critique names: not what the evaluator dismissed, nor what is too young to judge."""
        return tuple(
            one for one in self.evaluation.findings if one.decision != "dismiss" and not one.too_young
        )

    @cached_property
    def too_young(self) -> tuple[Finding, ...]:
        """What was recorded and cannot be judged yet."""
        return tuple(one for one in self.evaluation.findings if one.too_young and one.decision != "dismiss")

    def regions(self) -> Iterator[tuple[str, ...]]:
        """The regions of each block, in the order they are spoken of; regions the plan does not know come
        before movement."""
        known = {region for block in self.plan.blocks for region in block}
        mine = [region.id for region in self.ruleset.regions]
        others = tuple(region for region in mine if region not in known)
        for block in self.plan.blocks:
            if others and "movement" in block:
                yield others
                others = ()
            yield block
        if others:
            yield others

    def noun(self, region: str) -> str:
        """A region as a noun."""
        words = self.language.regions.get(region)
        if words is not None:
            return words.noun
        return next((one.label for one in self.ruleset.regions if one.id == region), region)
