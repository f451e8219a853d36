"""Where a dog ranks by its edition's rule.

The rule stands in the edition (`ruleset.rules.Placing`): dogs with a disqualifying finding come after all
others, then the sum over findings of what the class weighs times the degree counts, the least first. An
edition without a rule gets the default: the lightest class 2, each heavier one three times as much, a class
beside the ladder and a finding without a class 1; no standard says such figures. A rank only ever orders
dogs of one edition.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from operator import add
from typing import Literal

from hands_on.evaluate.classes import UNCLASSED
from hands_on.evaluate.result import Evaluation, Finding
from hands_on.frozen import dataclass
from hands_on.ruleset.base import Degree
from hands_on.ruleset.rules import Placing
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "OTHER_RULES",
    "UNCLASSED",
    "ClassRanking",
    "InCommon",
    "OtherRule",
    "Place",
    "Rank",
    "counted",
    "placing_of",
]

OtherRule = Literal["number", "worst-first", "doubled"]
"""Other sensible rules: the fewest findings; by the heaviest class first; heavier classes twice as heavy."""

OTHER_RULES: tuple[OtherRule, ...] = ("number", "worst-first", "doubled")

_LIGHTEST, _HEAVIER, _BESIDE = 2.0, 3.0, 1.0


class Rank(tuple[float, ...]):
    """What findings weigh, before any rule; ranks of one edition add up.

    First how many findings there are of each class, the heaviest first; then, in the same order, the sum of
    what their degrees count.
    """

    __slots__ = ()

    def __add__(self, other: tuple[float, ...]) -> Rank:  # type: ignore[override]
        return Rank(map(add, self, other))


Place = tuple[float, ...]
"""A rank under a rule: smaller is better."""


@dataclass(frozen=True)
class InCommon:
    """What dogs may be compared on."""

    points: frozenset[str]
    """Answered for all of them."""
    too_young: frozenset[str] = frozenset()
    """Faults and limits that one of them is too young for: they count in none."""


def placing_of(ruleset: Ruleset) -> Placing:
    """The edition's rule of order, or the default."""
    edition = ruleset.edition
    if edition.placing is not None:
        return edition.placing
    ladder = [entry.id for entry in edition.classes if entry.ladder and not entry.disqualifies]
    weights = {name: _LIGHTEST * _HEAVIER**step for step, name in enumerate(ladder)}
    beside = [entry.id for entry in edition.classes if not entry.ladder and not entry.disqualifies]
    return Placing(weights={**weights, **dict.fromkeys((*beside, UNCLASSED), _BESIDE)}, source=("reading",))


class ClassRanking:
    """Ranks findings by one edition's classes and rule."""

    def __init__(self, ruleset: Ruleset) -> None:
        classes = ruleset.edition.classes
        out = [entry.id for entry in classes if entry.disqualifies]
        ladder = [entry.id for entry in reversed(classes) if entry.ladder and not entry.disqualifies]
        beside = [entry.id for entry in classes if not entry.ladder and not entry.disqualifies]
        rows = [out, *([name] for name in (*ladder, *beside, UNCLASSED))]
        self.ruleset = ruleset
        self.placing = placing_of(ruleset)
        self._place = {name: place for place, row in enumerate(rows) for name in row}
        self.order = tuple(map(tuple, rows))
        """Classes from the heaviest; those that disqualify together."""
        self.nothing = Rank([0.0] * (2 * len(rows)))
        """The rank of a dog without findings."""
        self._weights = [self.placing.weights.get(row[0], _BESIDE) if row else 0.0 for row in self.order]
        steps = {name: step for step, name in enumerate(reversed(ladder))}
        self._doubled = [
            weight * 2.0 ** steps.get(row[0], 0) if row else 0.0
            for weight, row in zip(self._weights, self.order, strict=True)
        ]
        self._degrees: Mapping[Degree, float] = self.placing.degrees

    def rank(self, cls: str | None, degree: Degree | None) -> Rank:
        """What one finding adds; `nothing` for a class that does not count."""
        place = self._place.get(cls or UNCLASSED)
        if place is None:
            return self.nothing
        numbers = list(self.nothing)
        numbers[place] = 1.0
        numbers[len(self.order) + place] = self._degrees.get(degree or self.placing.unsaid, 1.0)
        return Rank(numbers)

    def place(self, rank: Rank) -> Place:
        """A rank under the edition's rule."""
        return self._weighed(rank, self._weights)

    def other_place(self, rank: Rank, rule: OtherRule) -> Place:
        """A rank under another sensible rule; disqualified dogs come last under each."""
        rows = len(self.order)
        if rule == "number":
            return (rank[0], sum(rank[1:rows]))
        if rule == "worst-first":
            return tuple(rank)
        return self._weighed(rank, self._doubled)

    def disqualifies(self, rank: Rank) -> bool:
        """Does it hold a disqualifying finding?"""
        return rank[0] > 0

    def of(self, evaluation: Evaluation, common: InCommon | None = None) -> Rank:
        """The dog as recorded: findings that are sure and count, of those in common where given."""
        findings = (one for one in evaluation.findings if counted(one))
        kept = (one for one in findings if common is None or self.lies_in(one, common))
        return self._sum(self.rank(one.cls, one.degree) for one in kept)

    def lies_in(self, finding: Finding, common: InCommon) -> bool:
        """Was the finding made where dogs are compared, and can it be judged of all of them?

        One that follows from the dog alone lies in all points.

        One that surely disqualifies always does: no dog that is out may stand before others for a point that
        they were not examined at.
        """
        if counted(finding) and self._place.get(finding.cls or "") == 0:
            return True
        if finding.id in common.too_young:
            return False
        where = finding.points or self.ruleset.points_of_fault.get(finding.id, ())
        some = all if finding.origin == "take" else any  # a proportion needs all that it is made of
        return not where or some(point in common.points for point in where)

    def out_for(self, evaluation: Evaluation, common: InCommon) -> bool:
        """Is a dog surely out for what another is too young for? Nobody can say whether the other is, too."""
        return any(
            finding.id in common.too_young and self._place.get(finding.cls or "") == 0
            for finding in evaluation.findings
            if counted(finding)
        )

    def counts(self, rank: Rank) -> tuple[int, ...]:
        """How many findings count in each row of `order`."""
        return tuple(map(int, rank[: len(self.order)]))

    def _weighed(self, rank: Rank, weights: Iterable[float]) -> Place:
        degrees = rank[len(self.order) :]
        return (rank[0], sum(weight * degree for weight, degree in zip(weights, degrees, strict=True)))

    def _sum(self, ranks: Iterable[Rank]) -> Rank:
        total = self.nothing
        for rank in ranks:
            total += rank
        return total


def counted(finding: Finding) -> bool:
    """Is the finding sure, and does it count?"""
    return finding.counts and finding.status == "present"
