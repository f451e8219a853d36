"""How many more takes would probably settle a value, and with what probability.

After m further takes by the same hand the mean of all n + m lies about the present one with the scale
sigma_r sqrt(m / (n (n + m))) and Student's t of the repeatability's degrees of freedom: the predictive
distribution of a mean, flat prior (Hahn and Meeker 1991, Statistical Intervals, 4.7, from memory). What all
takes share does not move it. Settled is a value whose probability of lying in one stretch reaches the
confidence, with the uncertainty that n + m takes have. So many takes are told as settle it with one half at
least; tests/bench/more_takes.py shows that it comes out as often as it says.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.distributions import (
    density,
    increasing_root,
    lower_tail,
    student_quantile,
    upper_tail,
)
from hands_on.measure.gum import welch_satterthwaite

__all__ = ["MOST_MORE", "PROBABLY", "Further", "Part", "Resting", "TakesReason", "further_takes"]

TakesReason = Literal[
    "not-known",  # how much further takes would help
    "lasting",  # what stays from take to take is too large; another measurer or a better instrument may help
    "too-many",  # more would be needed than a dog stands for
]
"""Why further takes by the same hand would not settle a value."""

MOST_MORE = 10
"""Further takes worth speaking of; a dog does not stand for more."""

PROBABLY = 0.5
"""So likely at least must it be that the takes told of settle a value."""

Part = tuple[float | None, float | None]
"""A stretch of values: its ends, None for one that is not there."""


@dataclass(frozen=True)
class Resting:
    """What an uncertainty u over n takes rests on: its lasting part, and the freedom of both parts."""

    u: float
    lasting: float
    n: int
    dof_repeat: float = math.inf
    dof_lasting: float = math.inf

    @property
    def sigma_r(self) -> float:
        """Standard deviation of one take by this hand."""
        return math.sqrt(max(0.0, self.u * self.u - self.lasting * self.lasting) * self.n)

    def after(self, more: int) -> tuple[float, float]:
        """u and its degrees of freedom expected after so many further takes."""
        repeat = self.sigma_r / math.sqrt(self.n + more)
        dof = welch_satterthwaite([(repeat, self.dof_repeat + more), (self.lasting, self.dof_lasting)])
        return math.hypot(repeat, self.lasting), dof


@dataclass(frozen=True)
class Further:
    """So many further ``takes`` settle it with probability ``p``; None and the reason if they would not."""

    takes: int | None = None
    p: float | None = None
    reason: TakesReason | None = None


def further_takes(value: float, resting: Resting, parts: Sequence[Part], confidence: float) -> Further:
    """The fewest further takes that settle ``value`` in one of ``parts`` with `PROBABLY` or more."""
    if _settles(value, resting, parts, confidence, MOST_MORE) >= PROBABLY:
        for more in range(1, MOST_MORE + 1):
            p = _settles(value, resting, parts, confidence, more)
            if p >= PROBABLY:
                return Further(more, p)
    u, dof = resting.lasting, resting.dof_lasting
    if u > 0 and not any(_holds(value, u, dof, part, confidence) for part in parts):
        return Further(reason="lasting")
    return Further(reason="too-many")


def _settles(value: float, resting: Resting, parts: Sequence[Part], confidence: float, more: int) -> float:
    """Probability that the mean after so many more takes is settled."""
    n = resting.n
    scale = resting.sigma_r * math.sqrt(more / (n * (n + more)))
    u, dof = resting.after(more)
    total = 0.0
    for part in parts:
        stretch = _settled(part, u, dof, confidence)
        if stretch is None:
            continue
        low, high = stretch
        if scale == 0.0:
            total += float(low <= value <= high)
            continue
        total += max(
            0.0,
            1.0
            - lower_tail((low - value) / scale, resting.dof_repeat)
            - upper_tail((high - value) / scale, resting.dof_repeat),
        )
    return min(1.0, total)


def _settled(part: Part, u: float, dof: float, confidence: float) -> tuple[float, float] | None:
    """Which means are settled within a stretch; None where the stretch is too narrow for any."""
    low, high = part
    reach = student_quantile(confidence, dof) * u
    if low is None or high is None:
        return (-math.inf if low is None else low + reach), (math.inf if high is None else high - reach)
    middle, half = (low + high) / 2.0, (high - low) / 2.0
    if not _holds(middle, u, dof, part, confidence):
        return None
    if u == 0.0:
        return low, high

    def doubt(far: float) -> tuple[float, float]:
        below, above = (-half - far) / u, (half - far) / u
        over = lower_tail(below, dof) + upper_tail(above, dof) - (1.0 - confidence + 1e-9)
        return over, (density(above, dof) - density(below, dof)) / u

    # From where the nearer end alone would count.
    far = increasing_root(doubt, 0.0, max(0.0, half - 0.5 * reach), max(0.0, half - reach), 1e-12 * half)
    return middle - far, middle + far


def _holds(value: float, u: float, dof: float, part: Part, confidence: float) -> bool:
    low, high = part
    if u == 0.0:
        return (low is None or value >= low) and (high is None or value <= high)
    below = 0.0 if low is None else lower_tail((low - value) / u, dof)
    above = 0.0 if high is None else upper_tail((high - value) / u, dof)
    return 1.0 - below - above >= confidence - 1e-9
