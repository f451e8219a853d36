"""The class of a departure by the edition's rulings, and how classes compare."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from functools import cached_property

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.departure import Called
from hands_on.evaluate.reasons import Reason, said
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.rules import Ruling
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["NONE", "OBSERVATION", "UNCLASSED", "Classes"]

NONE, OBSERVATION, UNCLASSED = "none", "observation", "unclassed"


@dataclass(frozen=True, eq=False)
class Classes:
    """Classes under one edition, in one dog's circumstances."""

    ruleset: Ruleset
    circumstances: Circumstances

    @cached_property
    def _ladder(self) -> Mapping[str, int]:
        return {entry.id: n for n, entry in enumerate(self.ruleset.edition.classes)}

    @cached_property
    def _rulings(self) -> Mapping[str, tuple[Ruling, ...]]:
        found: dict[str, tuple[Ruling, ...]] = {}
        for ruling in self.ruleset.edition.rulings:
            for fault in ruling.faults:
                found[fault] = (*found.get(fault, ()), ruling)
        return found

    @cached_property
    def _silent(self) -> frozenset[str]:
        return frozenset(point for silence in self.ruleset.edition.silent for point in silence.points)

    def weight(self, cls: str) -> int:
        """How heavy: 0 is no fault, then an observation, unclassed, words outside the ladder, the ladder."""
        if cls == NONE:
            return 0
        if cls == OBSERVATION:
            return 1
        rank = self.ruleset.rank(cls)
        if rank:
            return 3 + rank
        return 3 if cls in self._ladder else 2

    def disqualifies(self, cls: str | None) -> bool:
        """Does this class rule the dog out?"""
        known = self.ruleset.classes.get(cls or "")
        return known is not None and known.disqualifies

    def heaviest(self, first: Called, second: Called) -> Called:
        """The heavier of two; the first when they weigh the same."""
        return second if self.weight(second.cls) > self.weight(first.cls) else first

    @property
    def lightest_sure(self) -> Called:
        """What may be said of a departure while nothing heavier is sure: the general clause, or no class."""
        clause = self.ruleset.edition.general_clause
        if clause is None or self.disqualifies(clause.class_):
            return Called(UNCLASSED, reasons=(Reason("not-sure"),))
        return Called(clause.class_, clause.source, reasons=(Reason("not-sure", cls=clause.class_),))

    def class_of(
        self,
        fault: str,
        degree: Degree | None,
        detail: str | None,
        present: Collection[str],
    ) -> Called:
        """The class by the first ruling that fits, by the general clause, or `unclassed`."""
        if degree is not None or not self.ruleset.class_hangs_on_degree(fault):
            return self._by_rulings(fault, degree, detail, present)
        each = [self._by_rulings(fault, one, detail, present) for one in DEGREES]
        lightest = min(each, key=lambda called: self.weight(called.cls))
        lacking = tuple(dict.fromkeys(name for called in each for name in called.lacking))
        lightest = replace(lightest, lacking=lacking)
        if all(called.cls == lightest.cls for called in each):
            return lightest
        return replace(lightest, degree_needed=True, reasons=(*lightest.reasons, Reason("degree-not-said")))

    def _by_rulings(
        self,
        fault: str,
        degree: Degree | None,
        detail: str | None,
        present: Collection[str],
    ) -> Called:
        lacking: dict[str, None] = {}
        practice: tuple[Reason, ...] = ()
        off: Ruling | None = None
        for ruling in self._rulings.get(fault, ()):
            cls = _class_in(ruling, degree)
            if cls is None:
                continue
            state = self.circumstances.state(ruling.when, detail=detail, present=present)
            if state == "off":
                off = off or ruling
                continue
            lacking |= dict.fromkeys(self.circumstances.lacks(ruling.when, detail=detail, present=present))
            if state != "holds":
                continue
            if ruling.optional:
                practice = (*practice, Reason("practice", cls=cls))
                continue
            reasons = list(said(ruling.text))
            if ruling.by_degree and degree is not None:
                reasons.append(Reason("by-degree", degree=degree, cls=cls))
            reasons += said(ruling.note)
            switch = next(iter(ruling.when.switch), "") if ruling.when and ruling.when.switch else ""
            found = Called(cls, ruling.source, ruling.reading, (*reasons, *practice), switch)
            return replace(self._told_off(found, off, degree), lacking=tuple(lacking))
        if off is not None:
            reasons = [Reason("off", self._caution(off)), *practice]
            found = self._told_off(Called(NONE, off.source, off.reading, tuple(reasons)), off, degree)
        else:
            found = self._unruled(fault, practice)
        return replace(found, lacking=tuple(lacking))

    def _told_off(self, found: Called, off: Ruling | None, degree: Degree | None) -> Called:
        """With what would hold by a ruling that was not chosen, where that is heavier."""
        would_be = None if off is None else _class_in(off, degree)
        if off is None or would_be is None or self.weight(would_be) <= self.weight(found.cls):
            return found
        switch = next(iter(off.when.switch), "") if off.when and off.when.switch else ""
        return replace(found, off=switch, would_be=would_be)

    def _unruled(self, fault: str, practice: tuple[Reason, ...]) -> Called:
        """The class of what no ruling names."""
        if fault not in self.ruleset.faults:
            return Called(UNCLASSED, reasons=(Reason("unknown-fault"), *practice))
        points = self.ruleset.points_of_fault.get(fault, ())
        if points and self._silent.issuperset(points):
            return Called(OBSERVATION, reasons=(Reason("silent"), *practice))
        return self.unnamed(practice)

    def unnamed(self, practice: tuple[Reason, ...] = ()) -> Called:
        """The class of a departure that nothing names: by the general clause, or none."""
        clause = self.ruleset.edition.general_clause
        if clause is None:
            return Called(UNCLASSED, reasons=(Reason("unruled"), *practice))
        return Called(
            clause.class_, clause.source, reasons=(Reason("general-clause", clause.text), *practice)
        )

    def _caution(self, ruling: Ruling) -> str:
        """What is said of the switches that a ruling needs."""
        names = ruling.when.switch if ruling.when is not None and ruling.when.switch else ()
        switches = self.ruleset.edition.switches
        return " ".join(switches[name].caution for name in names if name in switches)


def _class_in(ruling: Ruling, degree: Degree | None) -> str | None:
    """The class a ruling gives at a degree; None when it says nothing of that degree."""
    if ruling.class_ is not None:
        return ruling.class_
    reached = -1 if degree is None else DEGREES.index(degree)
    fitting = [name for name in DEGREES[: reached + 1] if name in ruling.by_degree]
    return ruling.by_degree[fitting[-1]] if fitting else None
