"""How an evaluator scatters at all points, to judge the few dogs of one by.

The spread of five or six dogs is badly known, and who is held against it must lean enormously to be surely
off. But one hand has been over a hundred points. Its variances at them are taken as drawn from a scaled
inverse chi-squared distribution: s0^2 and d0 come from all, and at each point

    s^2 = (d0 s0^2 + d s_p^2) / (d0 + d)

with d0 + d degrees of freedom then gives Student's t exactly (Smyth 2004, Stat. Appl. Genet. Mol. Biol. 3,
article 3, from memory). Where points differ much in how surely they are graded d0 is small, and each stands
nearly by itself. s0^2 and d0 are fitted to the mean and the mean square of the variances; their logarithms,
which Smyth fits to, weigh points at which hardly anything varied too much. Points at which nothing did are
left out (`compare.agreement.lean`): there are many, and by them the hard ones would look sure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean

from hands_on.frozen import dataclass

__all__ = ["Scatter", "scatter"]

FEWEST_POINTS = 20
"""With fewer points it is too rough how much they differ; then each stands by itself."""


@dataclass(frozen=True)
class Scatter:
    """A variance that is known before a point is looked at, and the degrees of freedom it is worth."""

    square: float = 0.0
    dof: float = 0.0

    def times(self, size: float) -> Scatter:
        """The same where sizes are so many times as large."""
        return Scatter(self.square * size * size, self.dof)

    def with_own(self, square: float, dof: int) -> tuple[float, float]:
        """The variance at a point that shows ``square`` with ``dof``, and its degrees of freedom."""
        both = self.dof + dof
        return (self.dof * self.square + dof * square) / both, both


def scatter(found: Sequence[tuple[float, int]]) -> Scatter:
    """From variances at many points, each with its degrees of freedom (one at least).

    With R the mean square of the variances, over that of equal ones (1 + 2/d) and their mean squared, d0 is
    (4 R - 2) / (R - 1): that of an F distribution. It is worth no more than all points have.
    """
    if len(found) < FEWEST_POINTS:
        return Scatter()
    mean = fmean(square for square, _ in found)
    if mean <= 0.0:
        return Scatter()
    most = float(sum(dof for _, dof in found))
    ratio = fmean(square**2 / (1.0 + 2.0 / dof) for square, dof in found) / mean**2
    dof = min(most, (4.0 * ratio - 2.0) / (ratio - 1.0)) if ratio > 1.0 else most
    return Scatter(mean * (dof - 2.0) / dof if math.isfinite(dof) else mean, dof)
