"""Where a dog ranks by the edition's classes.

Disqualifying findings first, then how many there are of the heaviest class, of the next, and so on; classes
beside the ladder and findings without a class come last. Where all counts are equal the degrees decide, the
heaviest class first. A rank only ever orders dogs of one edition; it is never shown.
"""

from __future__ import annotations

from collections.abc import Iterable
from operator import add

from hands_on.evaluate.classes import UNCLASSED
from hands_on.evaluate.result import Evaluation, Finding
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["ClassRanking", "Rank", "counted"]

_NO_DEGREE = 2
"""A finding without a degree weighs as a moderate one where degrees decide."""


class Rank(tuple[int, ...]):
    """How heavily findings weigh: smaller is better, and ranks of one edition add up.

    First how many findings there are of each class, the heaviest first; then, in the same order, the sum of
    their degrees (slight 1 to extreme 4). Compares as a tuple does.
    """

    __slots__ = ()

    def __add__(self, other: tuple[int, ...]) -> Rank:  # type: ignore[override]
        return Rank(map(add, self, other))


class ClassRanking:
    """Ranks findings by one edition's classes."""

    def __init__(self, ruleset: Ruleset) -> None:
        classes = ruleset.edition.classes
        out = [entry.id for entry in classes if entry.disqualifies]
        ladder = [entry.id for entry in reversed(classes) if entry.ladder and not entry.disqualifies]
        beside = [entry.id for entry in classes if not entry.ladder and not entry.disqualifies]
        rows = [out, *([name] for name in (*ladder, *beside, UNCLASSED))]
        self._place = {name: place for place, row in enumerate(rows) for name in row}
        self.order = tuple(map(tuple, rows))
        """Classes from the heaviest; those that disqualify together."""
        self.nothing = Rank([0] * (2 * len(rows)))
        """The rank of a dog without findings."""

    def rank(self, cls: str | None, degree: Degree | None) -> Rank:
        """What one finding adds; `nothing` for a class that does not count."""
        place = self._place.get(cls or UNCLASSED)
        if place is None:
            return self.nothing
        numbers = list(self.nothing)
        numbers[place] = 1
        numbers[len(self.order) + place] = _NO_DEGREE if degree is None else 1 + DEGREES.index(degree)
        return Rank(numbers)

    def of(self, evaluation: Evaluation) -> Rank:
        """The dog as recorded: findings that are sure and count."""
        return self._sum(self.rank(one.cls, one.degree) for one in evaluation.findings if counted(one))

    def counts(self, evaluation: Evaluation) -> tuple[int, ...]:
        """How many findings count in each row of `order`."""
        return tuple(self.of(evaluation)[: len(self.order)])

    def _sum(self, ranks: Iterable[Rank]) -> Rank:
        total = self.nothing
        for rank in ranks:
            total += rank
        return total


def counted(finding: Finding) -> bool:
    """Is the finding sure, and does it count?"""
    return finding.counts and finding.status == "present"
