"""All differences of a comparison judged together, so that what is called real holds for the whole table.

* Between several dogs: the chance that error alone makes the widest of so many readings lie as far apart,
  Tukey's studentised range (Tukey 1953, The problem of multiple comparisons; with unequal uncertainties
  Kramer 1956, Biometrics 12: 307-310, which is conservative: Hayter 1984, Ann. Stat. 12: 61-75). Of grades
  the same for whole steps, with a judged error: right 8 times in 10, each further step off forty times rarer
  (a choice: two steps between two dogs then come of error alone 28 times in 1000).
* Over the rows: Benjamini and Hochberg (`compare.several`) at 5 %. Of the rows called real one in twenty is
  not, on average; of dogs alike in everything, one comparison of twenty calls any row real
  (tests/bench/real_rows.py).
* Answers without an order (choices, the tooth chart) are different or not: no figure says how often a hand
  errs.
* Evaluators on one dog, within a week of each other, disagree: the dog is one and the same.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from statistics import NormalDist

from hands_on.compare.dogs.differ import Difference
from hands_on.compare.examined import Examined, same_dog, same_evaluator
from hands_on.compare.several import benjamini_hochberg
from hands_on.frozen import dataclass
from hands_on.measure.change import LEVEL as SINGLE
from hands_on.measure.distributions import normal_quantile, scaled_chi, student_quantile, upper_tail

__all__ = ["LEVEL", "Table", "judged_together", "range_upper_tail", "steps_upper_tail"]

LEVEL = 0.05
"""Of the rows called real, the share that may be none, on average."""

RIGHT = 0.8
FURTHER = 1 / 40

_REACH = 12
"""Steps off that are looked at."""

NEAR_DAYS = 7


@dataclass(frozen=True)
class Table:
    """How the rows were judged together."""

    rows: int = 0
    """Rows with an error figure that at least two sessions answer."""
    real: int = 0

    @property
    def expected_false(self) -> float:
        """Rows called real that are none, on average; of dogs alike in everything, comparisons with any."""
        return LEVEL * max(self.real, 1)


def judged_together(
    rows: Sequence[tuple[Difference, ...]], sessions: Sequence[Examined]
) -> tuple[list[tuple[Difference, ...]], Table]:
    """The same differences, real only where the whole table bears it."""
    own = [[_p(one, _answered(row)) for one in row] for row in rows]
    least = [min((p for p in ps if p is not None), default=None) for ps in own]
    told = [place for place, p in enumerate(least) if p is not None]
    adjusted = benjamini_hochberg([least[place] or 0.0 for place in told])
    by_row = dict(zip(told, adjusted, strict=True))
    cut = max(((least[place] or 0.0) for place, p in by_row.items() if p <= LEVEL), default=-1.0)
    found = [
        tuple(_called(one, p, p is not None and p <= cut, sessions) for one, p in zip(row, ps, strict=True))
        for row, ps in zip(rows, own, strict=True)
    ]
    real = sum(any(one.verdict in ("real", "disagree") for one in row) for row in found)
    return found, Table(len(told), real)


def _answered(row: Sequence[Difference]) -> int:
    """Sessions that a row's compared pairs hold."""
    return len({place for one in row if one.verdict is not None for place in (one.first, one.second)})


def _p(one: Difference, sessions: int) -> float | None:
    """How often error alone sets the widest two of so many as far apart; None where no figure says."""
    if one.verdict is None or one.difference is None:
        return None
    if one.ground in ("steps", "same"):
        return steps_upper_tail(abs(round(one.difference or 0.0)), sessions)
    if one.grown is not None:
        return 2.0 * upper_tail(abs(one.grown.z))
    if not one.sdc:
        return float(not one.difference)
    u = one.sdc / student_quantile(0.5 + SINGLE / 2, one.dof)
    return range_upper_tail(abs(one.difference or 0.0) / u * math.sqrt(2.0), sessions, one.dof)


def _called(one: Difference, p: float | None, borne: bool, sessions: Sequence[Examined]) -> Difference:
    if one.verdict not in ("real", "did-not-grow"):
        return replace(one, p_error=p)
    if one.ground == "different":
        return replace(one, verdict="different")
    if not borne:
        return replace(one, verdict="within-hand-error", p_error=p, alone_only=True)
    if one.verdict == "did-not-grow":
        return replace(one, p_error=p)
    first, second = sessions[one.first], sessions[one.second]
    disagree = same_dog(first, second) and not same_evaluator(first, second) and _near(first, second)
    return replace(one, verdict="disagree" if disagree else "real", p_error=p)


def _near(a: Examined, b: Examined) -> bool:
    return (
        a.held is not None and b.held is not None and abs((a.held.date() - b.held.date()).days) <= NEAR_DAYS
    )


# --- how far apart error alone sets the widest two -----------------------------------------------------


@lru_cache(maxsize=4096)
def range_upper_tail(q: float, k: int, dof: float = math.inf) -> float:
    """P(the range of k standard normal values exceeds q), the studentised range.

    Of two values 2 P(Z > q / sqrt 2). With finite ``dof`` the mean over the error's own distribution, a
    scaled chi, over `_SHARES` of it. Raises ValueError for fewer than two.
    """
    if k < 2:
        raise ValueError("two values at least")
    if q <= 0.0:
        return 1.0
    if k == 2:
        return 2.0 * upper_tail(q / math.sqrt(2.0), dof)
    if math.isfinite(dof):
        return math.fsum(
            (high - low) * _between(q * scaled_chi(normal_quantile((low + high) / 2), dof), k)
            for low, high in pairwise(_SHARES)
        )
    # The smallest of them at z, the others within q above it: what is left of all z is the tail.
    normal, steps, ends = NormalDist(), 400, 8.5
    width = 2 * ends / steps
    total = 0.0
    for n in range(steps + 1):
        z = -ends + n * width
        above = upper_tail(z)
        within = max(0.0, above - upper_tail(z + q))
        part = normal.pdf(z) * (above ** (k - 1) - within ** (k - 1))
        total += part * (1 if n in (0, steps) else 4 if n % 2 else 2)
    return min(1.0, k * total * width / 3.0)


_SHARES = (
    0.0, 1e-6, 1e-5, 3e-5, 1e-4, 3e-4, 1e-3, 2e-3, 4e-3, 8e-3, 0.015, 0.03, 0.05, 0.08, 0.12, 0.17, 0.23, 0.3,
    0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0,
)  # fmt: skip
"""Ends of the parts into which the error's distribution is cut: fine where small tails come from."""


_STEP, _FAR_OUT = 0.1, 16.0


@lru_cache(maxsize=8)
def _log_tails(k: int) -> tuple[float, ...]:
    """Logarithms of the tails with infinite freedom, on a grid: each is an integral, and many are needed."""
    steps = round(_FAR_OUT / _STEP)
    return tuple(math.log(max(range_upper_tail(n * _STEP, k), 1e-300)) for n in range(steps + 1))


def _between(q: float, k: int) -> float:
    """The tail with infinite freedom, read between the points of the grid (good to 0.2 % of itself)."""
    if q >= _FAR_OUT:
        return 0.0
    tails, place = _log_tails(k), int(q / _STEP)
    part = q / _STEP - place
    return math.exp((1.0 - part) * tails[place] + part * tails[place + 1])


@lru_cache(maxsize=256)
def steps_upper_tail(steps: int, k: int) -> float:
    """P(grades of k dogs that are alike lie `steps` or more apart) by the error of a grade."""
    if steps <= 0:
        return 1.0
    beside = (1.0 - RIGHT) / 2 * (1.0 - FURTHER)
    shares = [RIGHT if n == 0 else beside * FURTHER ** (abs(n) - 1) for n in range(-_REACH, _REACH + 1)]
    sums = [math.fsum(shares[:n]) for n in range(len(shares) + 1)]
    last = len(shares)
    within = math.fsum(
        (sums[min(low + steps, last)] - sums[low]) ** k - (sums[min(low + steps, last)] - sums[low + 1]) ** k
        for low in range(last)
    )
    return max(0.0, 1.0 - within)
