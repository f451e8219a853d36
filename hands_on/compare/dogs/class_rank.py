"""Where a dog stands by the edition's classes, as one number that can be added to and compared.

Disqualifying findings first, then how many there are of the heaviest class, of the next, and so on; classes
beside the ladder and findings without a class come last. Where all counts are equal the degrees decide, the
heaviest class first. The number only ever orders dogs of one edition; it is never shown.
"""

from __future__ import annotations

from hands_on.evaluate.classes import UNCLASSED
from hands_on.evaluate.result import Evaluation, Finding
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Standing"]

_FIELD = 16
"""Bits a count has; no dog has 65,536 findings."""

_NO_DEGREE = 2
"""A finding without a degree weighs as a moderate one where degrees decide."""


class Standing:
    """Weighs findings by one edition's classes; the smaller the sum, the better the dog stands."""

    def __init__(self, ruleset: Ruleset) -> None:
        classes = ruleset.edition.classes
        out = [entry.id for entry in classes if entry.disqualifies]
        ladder = [entry.id for entry in reversed(classes) if entry.ladder and not entry.disqualifies]
        beside = [entry.id for entry in classes if not entry.ladder and not entry.disqualifies]
        rows = [out, *([name] for name in (*ladder, *beside, UNCLASSED))]
        self._place = {name: len(rows) - 1 - index for index, row in enumerate(rows) for name in row}
        self._rows = len(rows)
        self.order = tuple(map(tuple, rows))
        """Classes from the heaviest; those that disqualify together."""

    def weight(self, cls: str | None, degree: Degree | None) -> int:
        """What one finding adds; 0 for a class that does not count."""
        place = self._place.get(cls or UNCLASSED)
        if place is None:
            return 0
        steps = _NO_DEGREE if degree is None else 1 + DEGREES.index(degree)
        return (1 << _FIELD * (self._rows + place)) + (steps << _FIELD * place)

    def of(self, evaluation: Evaluation) -> int:
        """The dog as recorded: findings that are sure and count."""
        return sum(self.weight(one.cls, one.degree) for one in evaluation.findings if counted(one))

    def counts(self, evaluation: Evaluation) -> tuple[int, ...]:
        """How many findings count in each row of `order`."""
        tallies = [0] * self._rows
        for one in evaluation.findings:
            place = self._place.get(one.cls or UNCLASSED)
            if counted(one) and place is not None:
                tallies[self._rows - 1 - place] += 1
        return tuple(tallies)


def counted(finding: Finding) -> bool:
    """Is the finding sure, and does it count?"""
    return finding.counts and finding.status == "present"
