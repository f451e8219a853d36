"""What going on until a value is inside costs: against normal integrals of scipy, and drawn dogs."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from hands_on.measure.further import Resting
from hands_on.measure.stopping import KEPT_HOWEVER_OFTEN, Stopping, stopping

R, S = 0.36, 0.64
"""What changes from take to take and what stays, of the variance of one take."""


def _resting(n: int = 1) -> Resting:
    return Resting(math.sqrt(S + R / n), math.sqrt(S), n, 8.0 + n - 1, 8.0)


def _bound(k: int, confidence: float) -> float:
    """Where the mean of k takes must lie (JCGM 100:2008, G.4.1, for its degrees of freedom)."""
    square = S + R / k
    dof = square**2 / ((R / k) ** 2 / (8 + k - 1) + S**2 / 8)
    return stats.t.ppf(confidence, dof) * math.sqrt(square)


def _never(takes: int, confidence: float) -> float:
    """The means of 1, 2, ... takes are jointly normal; none beyond its bound."""
    cov = [[S + R / max(j, k) for k in range(1, takes + 1)] for j in range(1, takes + 1)]
    bounds = [_bound(k, confidence) for k in range(1, takes + 1)]
    return float(stats.multivariate_normal(np.zeros(takes), cov).cdf(bounds))


@pytest.mark.parametrize("takes", [2, 3, 5])
@pytest.mark.parametrize("confidence", [0.9, 0.95])
def test_looking_after_each_take_is_a_joint_normal_probability(takes: int, confidence: float) -> None:
    found = stopping(_resting(), takes - 1, confidence)
    assert found.until_inside == pytest.approx(1.0 - _never(takes, confidence), abs=0.001)
    alone = stats.norm.sf(_bound(takes, confidence) / math.sqrt(S + R / takes))
    assert found.at_once == pytest.approx(alone)
    assert found.takes == takes


def test_it_counts_the_takes_that_there_are() -> None:
    """One take and four more, or three and two more: five in all."""
    assert stopping(_resting(3), 2, 0.95) == stopping(_resting(1), 4, 0.95)


def test_one_take_is_looked_at_once() -> None:
    one = stopping(_resting(), 0, 0.95)
    assert one.until_inside == pytest.approx(one.at_once, abs=0.0005)
    assert one.at_once == pytest.approx(stats.norm.sf(_bound(1, 0.95)), abs=1e-12)


def test_of_drawn_dogs_at_a_limit_as_many_are_called_inside() -> None:
    chance = np.random.default_rng(5)
    lasting = chance.normal(0, math.sqrt(S), 100_000)
    takes = chance.normal(0, math.sqrt(R), (10, 100_000))
    means = lasting + np.cumsum(takes, axis=0) / np.arange(1, 11)[:, None]
    called = (means < -np.array([_bound(k, 0.95) for k in range(1, 11)])[:, None]).any(axis=0).mean()
    # The standard error of that share is 0.0008.
    assert stopping(_resting(), 9, 0.95).until_inside == pytest.approx(called, abs=0.003)


def test_where_all_takes_read_the_same_looking_again_costs_nothing() -> None:
    same = Resting(0.5, 0.5, 1, 8.0, 8.0)
    found = stopping(same, 4, 0.95)
    assert found == Stopping(5, found.at_once, found.at_once)


def test_no_take_and_no_confidence_are_refused() -> None:
    with pytest.raises(ValueError, match="a take"):
        stopping(_resting(), -1, 0.95)
    with pytest.raises(ValueError, match="confidence"):
        stopping(_resting(), 1, 0.5)


@pytest.mark.parametrize("takes", [2, 4, 10])
def test_a_surer_verdict_keeps_the_rate_however_often_one_looks(takes: int) -> None:
    """95 % at the first take and 97 % from the second on: about the 5 % that are meant, by joint normals."""
    cov = [[S + R / max(j, k) for k in range(1, takes + 1)] for j in range(1, takes + 1)]
    surer = 1.0 - KEPT_HOWEVER_OFTEN * 0.05
    bounds = [_bound(1, 0.95), *(_bound(k, surer) for k in range(2, takes + 1))]
    never = float(stats.multivariate_normal(np.zeros(takes), cov).cdf(bounds))
    assert 1.0 - never == pytest.approx(0.0485, abs=0.0055)
    assert 1.0 - never < 0.0515
