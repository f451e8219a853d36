"""A young dog measured several times: its own timing shows, and all earlier measurements say what to expect.

A dog runs before or behind the curve of its class by s months, always the same; s is normal with the class's
spread. With sizes m_i at ages t_i, log m_i lies about log A + log f(t_i + s) with the uncertainty of the
measurement and half (by squares) of the curve's own error, the adult size A being free. Over a grid of s
each way is weighed by how well it fits (Bayes' rule, flat prior of log A), and the later size is the mixture
of what each foretells. With one earlier measurement this is `measure.growth.project`. The weighing is ours;
curves and spreads are those of `measure.growth_curves`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from hands_on.frozen import dataclass
from hands_on.measure.distributions import lower_tail, normal_quantile
from hands_on.measure.growth import LEVEL, Projection, project
from hands_on.measure.growth_curves import AGES, TIMING, YOUNGEST, curve_error, curve_of

__all__ = ["Seen", "project_seen"]

_PARTS = 60


@dataclass(frozen=True)
class Seen:
    """One earlier measurement: value and standard uncertainty in cm or kg, age in months."""

    value: float
    sem: float
    age: float
    dof: float = math.inf


def project_seen(
    seen: Sequence[Seen],
    age: float,
    quantity: str,
    size_class: str,
    *,
    sem: float = 0.0,
    dof: float = math.inf,
    judged_from: float | None = None,
) -> Projection:
    """What earlier measurements, from the first to the last, let expect at ``age``; ``sem`` is the later's.

    The projection starts from the last of them. Those older or younger than the curves cover are left out.
    Raises GrowthProblem as `project`, asked of the last.
    """
    last = seen[-1]
    from_last = project(
        last.value,
        last.sem,
        last.age,
        age,
        quantity,
        size_class,
        sem2=sem,
        dof1=last.dof,
        dof2=dof,
        judged_from=judged_from,
    )
    used = [one for one in seen if AGES[0] <= one.age <= AGES[1] and one.value > 0]
    if len(used) < 2:
        return from_last
    ways = _ways(used, min(age, AGES[1]), quantity, size_class)
    half = curve_error(quantity, size_class) ** 2 / 2.0
    total = math.fsum(weight for weight, _, _ in ways)
    middle = math.fsum(weight * mean for weight, mean, _ in ways) / total
    later = half + (sem / math.exp(middle)) ** 2
    spread = math.fsum(weight * ((mean - middle) ** 2 + variance + later) for weight, mean, variance in ways)
    expected, sd = math.exp(middle), math.sqrt(spread / total)
    low, high = (
        math.exp(_quantile([(w / total, m, math.sqrt(v + half)) for w, m, v in ways], p))
        for p in (0.5 - LEVEL / 2.0, 0.5 + LEVEL / 2.0)
    )
    return replace(from_last, expected=expected, u=sd * expected, low=low, high=high, sessions=len(used))


def _ways(
    seen: Sequence[Seen], age: float, quantity: str, size_class: str
) -> list[tuple[float, float, float]]:
    """For each timing its weight, and mean and variance of the logarithm of the size it foretells."""
    curve = curve_of(quantity, size_class)
    half = curve_error(quantity, size_class) ** 2 / 2.0
    certain = [1.0 / ((one.sem / one.value) ** 2 + half) for one in seen]
    found = []
    for n in range(_PARTS):
        shift = TIMING[size_class] * normal_quantile((n + 0.5) / _PARTS)
        adult = [math.log(one.value / curve(max(one.age + shift, YOUNGEST))) for one in seen]
        mean = math.fsum(w * x for w, x in zip(certain, adult, strict=True)) / math.fsum(certain)
        misfit = math.fsum(w * (x - mean) ** 2 for w, x in zip(certain, adult, strict=True))
        foretold = mean + math.log(curve(max(age + shift, YOUNGEST)))
        found.append((misfit, foretold, 1.0 / math.fsum(certain)))
    least = min(misfit for misfit, _, _ in found)
    return [(math.exp(-(misfit - least) / 2.0), mean, variance) for misfit, mean, variance in found]


def _quantile(parts: Sequence[tuple[float, float, float]], p: float) -> float:
    low = min(mean for _, mean, _ in parts) - 8.0 * max(sd for _, _, sd in parts)
    high = max(mean for _, mean, _ in parts) + 8.0 * max(sd for _, _, sd in parts)
    for _ in range(60):
        middle = (low + high) / 2.0
        below = math.fsum(weight * lower_tail((middle - mean) / sd) for weight, mean, sd in parts)
        low, high = (middle, high) if below < p else (low, middle)
    return (low + high) / 2.0
