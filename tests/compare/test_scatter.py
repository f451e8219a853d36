"""A hand's scatter at many points: fitted to drawn variances, and Student's t by it against drawn leans."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from hands_on.compare.agreement.scatter import Scatter, scatter


def _variances(dof: int, points: int, s0: float, d0: float, seed: int) -> np.ndarray:
    """True variances from a scaled inverse chi-squared distribution (Smyth 2004), and those observed."""
    chance = np.random.default_rng(seed)
    true = d0 * s0**2 / chance.chisquare(d0, points)
    return np.array([true, true * chance.chisquare(dof, points) / dof])


@pytest.mark.parametrize("d0", [7.0, 12.0, 30.0])
def test_it_finds_what_the_variances_were_drawn_from(d0: float) -> None:
    _, seen = _variances(5, 200_000, 0.6, d0, 3)
    found = scatter([(square, 5) for square in seen])
    assert found.dof == pytest.approx(d0, rel=0.15)
    assert found.square == pytest.approx(0.36, rel=0.05)


def test_points_with_more_and_fewer_dogs_count_by_their_freedom() -> None:
    few, many = _variances(2, 100_000, 1.0, 10.0, 4)[1], _variances(11, 100_000, 1.0, 10.0, 5)[1]
    found = scatter([*((one, 2) for one in few), *((one, 11) for one in many)])
    assert found.dof == pytest.approx(10.0, rel=0.15)
    assert found.square == pytest.approx(1.0, rel=0.05)


def test_points_alike_in_scatter_count_all_together() -> None:
    """No difference between points beyond chance: the pooled variance, with the freedom of all."""
    seen = 0.25 * np.random.default_rng(6).chisquare(4, 400) / 4
    found = scatter([(square, 4) for square in np.minimum(seen, 0.5)])
    assert found.dof == 1600
    assert found.square == pytest.approx(np.minimum(seen, 0.5).mean(), rel=0.01)


@pytest.mark.parametrize("level", [0.05, 0.001])
def test_a_lean_of_nought_is_called_as_often_as_the_level_says(level: float) -> None:
    """Means of six gaps with no lean in them, against t with d0 + d degrees of freedom."""
    true, seen = _variances(5, 200_000, 0.6, 8.0, 7)
    usual = Scatter(0.36, 8.0)
    square, dof = usual.with_own(seen, 5)
    means = np.random.default_rng(8).normal(0.0, np.sqrt(true / 6))
    called = 2 * stats.t.sf(np.abs(means) / np.sqrt(square / 6), dof) <= level
    assert dof == 13.0
    assert called.mean() == pytest.approx(level, rel=0.15)


def test_of_few_points_or_none_each_stands_by_itself() -> None:
    assert scatter([(0.3, 5)] * 19) == Scatter()
    assert scatter([(0.0, 5)] * 40) == Scatter()
    assert scatter([(0.3, 5)] * 20).dof == 100
    assert Scatter().with_own(0.7, 5) == (0.7, 5)


def test_a_scatter_is_told_in_another_size() -> None:
    """Twice the unit, four times the variance; the freedom stays."""
    assert Scatter(0.3, 9.0).times(2.0) == Scatter(1.2, 9.0)
