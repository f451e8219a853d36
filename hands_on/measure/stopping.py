"""What it costs to go on measuring until a value is inside, and to stop there.

A value is called inside where its mean lies within a limit by t u. Looked at after every take, a dog just at
the limit gets as many chances as there are looks. The means X_k after k takes by one hand share what stays;
seen backwards they are a walk with independent steps (the variance of X_k is s^2 + r^2 / k, the covariance of
X_j and X_k that of the later one). So the probability that one of them is called inside is had look by look,
as for group sequential tests (Armitage, McPherson and Rowe 1969, J. R. Stat. Soc. A 132: 235-244, from
memory). Errors are normal and as large as expected after each take; tests/bench/more_takes.py draws it.
"""

from __future__ import annotations

import math
from functools import lru_cache

from hands_on.frozen import dataclass
from hands_on.measure.distributions import student_quantile, upper_tail
from hands_on.measure.further import Resting
from hands_on.measure.gum import welch_satterthwaite

__all__ = ["KEPT_HOWEVER_OFTEN", "Stopping", "stopping"]

KEPT_HOWEVER_OFTEN = 0.6
"""A verdict that leaves so much of the usual doubt (3 % in place of 5 %) keeps the usual rate at the limit
however often one looks, up to ten takes."""

_NODES = 120
"""Values of a mean that its distribution is kept at: good to 0.0005 up to twelve takes."""

_FAR = 5.0
"""Standard deviations beyond which nothing lies."""


@dataclass(frozen=True)
class Stopping:
    """How often a dog just at a limit is called inside by ``takes`` takes at most."""

    takes: int
    at_once: float
    """Where all are taken before anything is judged."""
    until_inside: float
    """Where one looks after every take, and stops as soon as it is inside."""


def stopping(resting: Resting, more: int, confidence: float) -> Stopping:
    """What stopping costs after ``more`` further takes on top of those an uncertainty rests on.

    Raises ValueError for a confidence outside 0.5 to 1, and for no take at all.
    """
    takes = resting.n + more
    if takes < 1 or not 0.5 < confidence < 1.0:
        raise ValueError("a take at least, and a confidence between 0.5 and 1 are needed")
    one_take = resting.lasting**2 + resting.sigma_r**2
    share = round(resting.lasting**2 / one_take, 2) if one_take > 0 else 1.0
    first, lasting = resting.dof_repeat - (resting.n - 1), resting.dof_lasting
    return _stopping(share, _whole(first), _whole(lasting), takes, confidence)


_KNOWN = 1_000_000
"""Degrees of freedom of what is known for certain."""


def _whole(dof: float) -> int:
    return round(min(max(dof, 1.0), _KNOWN))


@lru_cache(maxsize=512)
def _stopping(share: float, dof_repeat: int, dof_lasting: int, takes: int, confidence: float) -> Stopping:
    """Of a hand with this share of what stays in the variance of one take, which is 1."""
    variance, reach = [math.inf], [math.inf]
    for k in range(1, takes + 1):
        repeat, lasting = math.sqrt((1.0 - share) / k), math.sqrt(share)
        dof = welch_satterthwaite([(repeat, float(dof_repeat + k - 1)), (lasting, float(dof_lasting))])
        variance.append(share + (1.0 - share) / k)
        reach.append(student_quantile(confidence, dof) * math.sqrt(variance[k]))
    at_once = upper_tail(reach[takes] / math.sqrt(variance[takes]))
    if share == 1.0:  # all takes read the same
        return Stopping(takes, at_once, at_once)
    means = _grid(-reach[takes], variance[takes])
    # what is left of the distribution of the mean where no later look is inside
    left = [_density(mean, variance[takes]) for mean in means]
    for k in range(takes - 1, 0, -1):
        between, before = variance[k] - variance[k + 1], _grid(-reach[k], variance[k])
        there = list(zip(_weights(means, left), means, strict=True))
        left = [math.fsum(weight * _density(x - mean, between) for weight, mean in there) for x in before]
        means = before
    return Stopping(takes, at_once, 1.0 - math.fsum(_weights(means, left)))


def _grid(low: float, variance: float) -> list[float]:
    step = (_FAR * math.sqrt(variance) - low) / _NODES
    return [low + n * step for n in range(_NODES + 1)]


def _density(x: float, variance: float) -> float:
    return math.exp(-x * x / (2.0 * variance)) / math.sqrt(2.0 * math.pi * variance)


def _weights(nodes: list[float], density: list[float]) -> list[float]:
    """What each node counts in the integral, by the trapezoidal rule."""
    step = nodes[1] - nodes[0]
    ends = (0, len(nodes) - 1)
    return [step * (0.5 if n in ends else 1.0) * value for n, value in enumerate(density)]
