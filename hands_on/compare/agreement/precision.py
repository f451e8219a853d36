"""How far readings of one dog scatter: by the same hand, and between hands. In the point's own unit.

ISO 5725-2:2019 (from memory): s_r, repeatability, by the same evaluator on the same dog; s_R,
reproducibility, by another evaluator, s_R^2 = s_r^2 + the variance between evaluators + that of evaluator by
dog. Readings of two hands lie within 2.8 s_R of each other in 95 of 100 cases, of one hand within 2.8 s_r.

Dogs, evaluators and their interplay are crossed random effects. With readings of n dogs by k evaluators, r
times each, the mean squares of evaluators (k - 1 degrees of freedom), evaluator by dog ((n - 1)(k - 1)) and
repeats (n k (r - 1)) give them; without repeats the hand cannot be told from evaluator by dog. Intervals are
exact for s_r (chi-squared), and by modified large samples for what mean squares add up to (Graybill and Wang
1980, J. Am. Stat. Assoc. 75: 869-873) or leave over (Ting, Burdick, Graybill, Jeyaratnam and Lu 1990, J.
Stat. Comput. Simul. 35: 135-143), as Burdick, Borror and Montgomery 2005 use them for gauges; formulas from
memory, coverage simulated in tests/bench/coverage.py.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean

from hands_on.compare.agreement.estimate import LEVEL, not_rounding
from hands_on.compare.agreement.f_and_chi_squared import chi2_quantile, f_quantile
from hands_on.frozen import dataclass

__all__ = ["Cells", "Precision", "Spread", "precision"]

Cells = Sequence[Sequence[Sequence[float]]]
"""Readings: a row a dog, a column an evaluator, in each cell every reading taken anew."""


@dataclass(frozen=True)
class Spread:
    """A standard deviation with its interval (95 %)."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class Precision:
    """What readings of one point scatter by; None where it cannot be told."""

    n: int
    """Dogs that every evaluator read."""
    k: int
    r: int
    """Readings of each dog by each evaluator that were taken anew."""
    repeatability: Spread | None
    """s_r: the hand alone."""
    reproducibility: Spread | None
    """s_R: another hand."""
    evaluator: Spread | None = None
    """Between evaluators, whatever the dog."""
    evaluator_by_dog: Spread | None = None
    """What an evaluator makes of this dog and not of others."""
    lasting_dof: float = 0.0
    """Effective degrees of freedom of `lasting` (Welch and Satterthwaite); 0 where repeats are lacking."""

    @property
    def lasting(self) -> float | None:
        """What more readings by the same hand do not reduce: sqrt(s_R^2 - s_r^2)."""
        if self.repeatability is None or self.reproducibility is None:
            return None
        return math.sqrt(max(0.0, _left(self.reproducibility.value**2, self.repeatability.value**2)))

    @property
    def common_share(self) -> float:
        """Share of the lasting variance that one hand has in common on all dogs: that between evaluators.

        The rest is its way with a single dog. One half where neither was found to differ from nought.
        """
        between, by_dog = (
            0.0 if one is None else one.value**2 for one in (self.evaluator, self.evaluator_by_dog)
        )
        return between / (between + by_dog) if between + by_dog else 0.5

    @property
    def lasting_share(self) -> float | None:
        """The lasting part's share of the variance of one reading; 0 to 1."""
        if self.lasting is None or self.reproducibility is None or not self.reproducibility.value:
            return None
        return (self.lasting / self.reproducibility.value) ** 2


def precision(cells: Cells, level: float = LEVEL) -> Precision | None:
    """Repeatability and reproducibility of a table of readings; None where it tells neither.

    Dogs that an evaluator did not read are left out; of more readings than every cell has, the first count.
    """
    k = max(map(len, cells), default=0)
    repeated = [row for row in cells if all(len(cell) > 1 for cell in row)]
    once = [row for row in cells if all(cell for cell in row)]
    if k >= 2 and len(repeated) >= 2:
        r = min(len(cell) for row in repeated for cell in row)
        return _crossed([[list(cell[:r]) for cell in row] for row in repeated], level)
    hand = _hand([cell for row in cells for cell in row if len(cell) > 1], level)
    if k >= 2 and len(once) >= 2:
        full = _crossed([[list(cell[:1]) for cell in row] for row in once], level)
        return Precision(full.n, k, 1, hand, full.reproducibility)
    return Precision(len(once), k, 1, hand, None) if hand is not None else None


def _hand(cells: Sequence[Sequence[float]], level: float) -> Spread | None:
    """s_r pooled over all cells with repeats, of three degrees of freedom at least (a choice)."""
    dof = sum(len(cell) - 1 for cell in cells)
    if dof < FEWEST_REPEATS:
        return None
    squares = math.fsum((x - fmean(cell)) ** 2 for cell in cells for x in cell)
    return _plain(not_rounding(squares / dof, _size(cells)), dof, level)


def _size(cells: Sequence[Sequence[float]]) -> float:
    """The largest reading, by which rounding is judged."""
    return max(abs(x) for cell in cells for x in cell)


FEWEST_REPEATS = 3
"""Degrees of freedom; with fewer an interval reaches to ten times the value and more."""


def _crossed(cells: list[list[list[float]]], level: float) -> Precision:
    n, k, r = len(cells), len(cells[0]), len(cells[0][0])
    means = [[fmean(cell) for cell in row] for row in cells]
    grand = fmean(x for row in means for x in row)
    size = max(map(_size, cells))
    by_dog = [fmean(row) for row in means]
    by_one = [fmean(column) for column in zip(*means, strict=True)]
    one = not_rounding(n * r * math.fsum((x - grand) ** 2 for x in by_one) / (k - 1), size)
    gaps = [(means[d][e] - by_dog[d] - by_one[e] + grand) ** 2 for d in range(n) for e in range(k)]
    both_dof = (n - 1) * (k - 1)
    both = not_rounding(r * math.fsum(gaps) / both_dof, size)
    if r == 1:
        total = _sum([(1 - 1 / n, both, both_dof), (1 / n, one, k - 1)], level)
        return Precision(n, k, 1, None, total)
    hand_dof = n * k * (r - 1)
    squares = (
        (x - mean) ** 2
        for row, middle in zip(cells, means, strict=True)
        for cell, mean in zip(row, middle, strict=True)
        for x in cell
    )
    hand = not_rounding(math.fsum(squares) / hand_dof, size)
    left = [(-1 / r, hand, hand_dof), (1 / r - 1 / (n * r), both, both_dof), (1 / (n * r), one, k - 1)]
    parts = [(1 - 1 / r, hand, hand_dof), (1 / r - 1 / (n * r), both, both_dof), (1 / (n * r), one, k - 1)]
    return Precision(
        n,
        k,
        r,
        _plain(hand, hand_dof, level),
        _sum(parts, level),
        _difference((1 / (n * r), one, k - 1), (1 / (n * r), both, both_dof), level),
        _difference((1 / r, both, both_dof), (1 / r, hand, hand_dof), level),
        _dof(left),
    )


_Part = tuple[float, float, int]
"""A mean square with what it counts and its degrees of freedom."""


def _dof(parts: Sequence[_Part]) -> float:
    """Of a sum of mean squares, some of them subtracted (Satterthwaite 1946, Biometrics Bull. 2: 110-114)."""
    total = math.fsum(count * square for count, square, _ in parts)
    below = math.fsum((count * square) ** 2 / dof for count, square, dof in parts)
    return total * total / below if total > 0.0 and below > 0.0 else 0.0


def _left(more: float, less: float) -> float:
    """What one variance leaves of another; 0 where the two are the same but for rounding."""
    return 0.0 if math.isclose(more, less, rel_tol=_SAME) else more - less


_SAME = 1e-12


def _plain(square: float, dof: int, level: float) -> Spread:
    """The root of one mean square, with the exact interval of normal readings."""
    tail = (1.0 - level) / 2
    ends = (dof * square / chi2_quantile(p, dof) for p in (1.0 - tail, tail))
    low, high = map(math.sqrt, ends)
    return Spread(math.sqrt(square), low, high)


def _reach(dof: int, level: float) -> tuple[float, float]:
    """How far below and above a mean square its expectation lies, as shares of it."""
    tail = (1.0 - level) / 2
    return 1.0 - dof / chi2_quantile(1.0 - tail, dof), dof / chi2_quantile(tail, dof) - 1.0


def _sum(parts: Sequence[_Part], level: float) -> Spread:
    total = math.fsum(count * square for count, square, _ in parts)
    reaches = [(count * square, *_reach(dof, level)) for count, square, dof in parts]
    low = total - math.sqrt(math.fsum((size * below) ** 2 for size, below, _ in reaches))
    high = total + math.sqrt(math.fsum((size * above) ** 2 for size, _, above in reaches))
    return Spread(math.sqrt(total), math.sqrt(max(0.0, low)), math.sqrt(high))


def _difference(more: _Part, less: _Part, level: float) -> Spread:
    tail = (1.0 - level) / 2
    a, b = more[0] * more[1], less[0] * less[1]
    (g1, h1), (g2, h2) = _reach(more[2], level), _reach(less[2], level)
    upper = f_quantile(1.0 - tail, more[2], less[2])
    lower = f_quantile(tail, more[2], less[2])
    g12 = ((upper - 1.0) ** 2 - (g1 * upper) ** 2 - h2**2) / upper
    h12 = ((1.0 - lower) ** 2 - (h1 * lower) ** 2 - g2**2) / lower
    below = (g1 * a) ** 2 + (h2 * b) ** 2 + g12 * a * b
    above = (h1 * a) ** 2 + (g2 * b) ** 2 + h12 * a * b
    left = _left(a, b)
    ends = (left, left - math.sqrt(max(0.0, below)), left + math.sqrt(max(0.0, above)))
    value, low, high = (math.sqrt(max(0.0, end)) for end in ends)
    return Spread(value, low, high)
