"""The rules of the *Guide to the expression of uncertainty in measurement* that are used here.

Source: JCGM 100:2008 (GUM 1995 with minor corrections); section numbers from memory. Standard
uncertainties have the unit of the value they belong to.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from hands_on.measure.distributions import student_quantile

__all__ = [
    "correlated",
    "coverage_factor",
    "rectangular",
    "resolution_u",
    "welch_satterthwaite",
]


def rectangular(half_width: float) -> float:
    """Standard uncertainty when only limits +-a are known: a/sqrt(3) (4.3.7)."""
    return abs(half_width) / math.sqrt(3.0)


def resolution_u(step: float) -> float:
    """Standard uncertainty from reading a scale of this step: step/sqrt(12) (F.2.2.1)."""
    return rectangular(step / 2.0)


def correlated(
    sensitivity: Mapping[str, float],
    u: Mapping[str, float],
    correlation: Mapping[tuple[str, str], float] | None = None,
) -> float:
    """Combined standard uncertainty of a function of correlated inputs (5.2.2).

    ``sensitivity`` holds the partial derivative for each input, ``correlation`` coefficients for
    pairs in either order (missing: 0). Raises ValueError for a coefficient outside -1 to 1 or a
    set of coefficients that cannot all hold (negative variance).
    """
    names = [name for name in sensitivity if sensitivity[name] != 0.0 and u[name] != 0.0]
    variance = math.fsum((sensitivity[name] * u[name]) ** 2 for name in names)
    if correlation:
        for (first, second), r in correlation.items():
            if not -1.0 <= r <= 1.0:
                raise ValueError(f"correlation of {first} and {second} must lie between -1 and 1")
            if first != second and first in names and second in names:
                variance += 2.0 * sensitivity[first] * sensitivity[second] * u[first] * u[second] * r
    if variance < 0.0:
        scale = math.fsum((sensitivity[name] * u[name]) ** 2 for name in names)
        if variance < -1e-12 * scale:
            raise ValueError("these correlations cannot all hold at once")
        variance = 0.0
    return math.sqrt(variance)


def welch_satterthwaite(parts: Sequence[tuple[float, float]]) -> float:
    """Effective degrees of freedom of a combined uncertainty from (u, degrees of freedom) (G.4.1).

    u^4 / sum(u_i^4 / nu_i); infinite when every part has infinite degrees of freedom.
    """
    total = math.fsum(u * u for u, _ in parts)
    below = math.fsum(u**4 / dof for u, dof in parts if not math.isinf(dof))
    return total * total / below if below > 0.0 else math.inf


def coverage_factor(dof: float, level: float = 0.95) -> float:
    """k with which k u covers ``level``: Student's t for the next lower whole dof (G.4.1, table G.2)."""
    whole = dof if math.isinf(dof) else float(max(1, math.floor(dof)))
    return student_quantile(0.5 + level / 2.0, whole)
