"""What measurements share by running from the same landmark: covariance and correlation.

A length between landmarks A and B in the direction d (a unit vector from A to B) changes by d.e_B - d.e_A
when the landmarks are found wrong by e_A and e_B. Two lengths that share a landmark therefore err
together: with the same sign where it is the far (or the near) end of both, with opposite signs where one
ends and the other begins there, as muzzle and skull do at the stop. Then a ratio of the two is less
certain than if their errors had nothing to do with each other, and their sum more certain. The covariance
is J S J' (JCGM 102:2011, 6.2.1.3, with J the matrix of directions and S that of the landmarks' errors,
which are independent between landmarks).

A landmark is found anew for every take. What changes from take to take is each measurement's own; what
stays, the evaluator's idea of where the landmark is, is common to all measurements from there: that share
of the landmark's variance which `measure.takes` gives to the lasting part.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations

from hands_on.frozen import dataclass
from hands_on.measure.takes import LASTING_SHARE

__all__ = ["Span", "Spread", "correlations", "direction", "lasting_errors", "shared_covariance", "variance"]

Vector = tuple[float, float, float]
"""Along the dog, up, across."""


@dataclass(frozen=True)
class Spread:
    """Standard deviations of finding a landmark, in the unit of the lengths: along the dog, up, across."""

    along: float
    up: float
    across: float = 0.0


@dataclass(frozen=True)
class Span:
    """A length from one landmark to another, and the unit vector from the first to the second."""

    first: str
    second: str
    towards: Vector

    @property
    def slopes(self) -> dict[str, Vector]:
        """How the length changes with the error of each landmark: the partial derivatives."""
        x, z, y = self.towards
        return {self.first: (-x, -z, -y), self.second: (x, z, y)}


def direction(runs: str, first: tuple[float, float], second: tuple[float, float]) -> Vector:
    """The unit vector of a length that runs ``straight``, ``upright``, ``level`` or ``across``.

    ``first`` and ``second`` are where the landmarks lie in a dog of ordinary build (along, up). Raises
    ValueError where the two lie so that they give no such direction.
    """
    along, up = second[0] - first[0], second[1] - first[1]
    if runs == "across":
        return (0.0, 0.0, 1.0)
    if runs == "upright":
        along = 0.0
    elif runs == "level":
        up = 0.0
    length = math.hypot(along, up)
    if length == 0.0:
        raise ValueError(f"two landmarks in one place give no direction that is {runs}")
    return (along / length, up / length, 0.0)


def variance(span: Span, spreads: Mapping[str, Spread]) -> float:
    """The variance of a length that comes from finding its two landmarks."""
    return math.fsum(
        _common(slope, slope, spreads[name]) for name, slope in span.slopes.items() if name in spreads
    )


def shared_covariance(one: Span, other: Span, spreads: Mapping[str, Spread]) -> float:
    """The covariance of two lengths through the landmarks they share, were all of it common."""
    slopes = other.slopes
    return math.fsum(
        _common(slope, slopes[name], spreads[name])
        for name, slope in one.slopes.items()
        if name in slopes and name in spreads
    )


def lasting_errors(span: Span, spreads: Mapping[str, Spread], factor: float = 1.0) -> dict[str, float]:
    """By landmark and axis how far a length errs, with its sign, for one standard deviation of what lasts.

    The squares add up to the lasting share of `variance`, ``factor`` times as far off; axes that a length
    does not feel are left out.
    """
    found: dict[str, float] = {}
    for name, slope in span.slopes.items():
        spread = spreads[name]
        sizes = (spread.along, spread.up, spread.across)
        for axis, part, size in zip(("along", "up", "across"), slope, sizes, strict=True):
            if part * size:
                found[f"{name} {axis}"] = factor * LASTING_SHARE * part * size
    return found


def _common(one: Vector, other: Vector, spread: Spread) -> float:
    sizes = (spread.along, spread.up, spread.across)
    return math.fsum(a * b * size * size for a, b, size in zip(one, other, sizes, strict=True))


def correlations(
    spans: Mapping[str, Span],
    u: Mapping[str, float],
    spreads: Mapping[str, Spread],
    factors: Mapping[str, float] | None = None,
) -> dict[tuple[str, str], float]:
    """Correlation coefficients of measurements that share a landmark; pairs without one are left out.

    ``u`` are standard uncertainties by measurement, ``factors`` what makes its landmarks harder to find
    (a coat, a restless dog). Only the lasting share of a landmark's variance is common. Coefficients of
    exact measurements (u = 0) are left out; none is beyond 1.
    """
    harder = factors or {}
    found: dict[tuple[str, str], float] = {}
    for (name, one), (other_name, other) in combinations(spans.items(), 2):
        scale = u.get(name, 0.0) * u.get(other_name, 0.0)
        common = LASTING_SHARE**2 * harder.get(name, 1.0) * harder.get(other_name, 1.0)
        covariance = shared_covariance(one, other, spreads) * common
        if scale > 0.0 and covariance:
            found[name, other_name] = max(-1.0, min(1.0, covariance / scale))
    return found
