"""Tails and quantiles against scipy.stats and scipy.special."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special, stats

from hands_on.measure.distributions import (
    beta_quantile,
    density,
    incomplete_beta,
    lower_tail,
    normal_quantile,
    student_quantile,
    upper_tail,
)

DOFS = [1.0, 2.0, 3.7, 8.0, 30.0, 225.0, 1e4, 1e6]


@pytest.mark.parametrize("z", [-37.0, -16.0, -3.0, -0.2, 0.0, 1e-9, 0.7, 1.96, 9.0, 37.0])
def test_normal_tails_agree_with_scipy(z: float) -> None:
    assert upper_tail(z) == pytest.approx(stats.norm.sf(z), rel=1e-11, abs=0)
    assert lower_tail(z) == pytest.approx(stats.norm.cdf(z), rel=1e-11, abs=0)
    assert density(z) == pytest.approx(stats.norm.pdf(z), rel=1e-11, abs=0)


@pytest.mark.parametrize("dof", DOFS)
@pytest.mark.parametrize("z", [-40.0, -2.0, -0.01, 0.0, 0.3, 1.0, 1.7, 2.5, 6.0, 25.0])
def test_student_tails_agree_with_scipy(z: float, dof: float) -> None:
    assert upper_tail(z, dof) == pytest.approx(stats.t.sf(z, dof), rel=1e-8, abs=1e-300)
    assert density(z, dof) == pytest.approx(stats.t.pdf(z, dof), rel=1e-8, abs=1e-300)


@pytest.mark.parametrize("z", [-9.0, -1.0, 0.0, 0.4, 3.0])
def test_densities_agree_with_scipy(z: float) -> None:
    assert density(z) == pytest.approx(stats.norm.pdf(z), rel=1e-12)
    for dof in DOFS:
        assert density(z, dof) == pytest.approx(stats.t.pdf(z, dof), rel=1e-8)


@pytest.mark.parametrize("p", [1e-6, 0.025, 0.3, 0.5, 0.9, 0.975, 0.9999])
def test_quantiles_agree_with_scipy(p: float) -> None:
    assert normal_quantile(p) == pytest.approx(stats.norm.ppf(p), abs=1e-12)
    for dof in (1.0, 2.5, 7.0, 40.0):
        assert student_quantile(p, dof) == pytest.approx(stats.t.ppf(p, dof), rel=1e-8, abs=1e-9)
    assert beta_quantile(p, 2.0, 19.0) == pytest.approx(stats.beta.ppf(p, 2, 19), rel=1e-9)


@given(st.floats(0.05, 500), st.floats(0.05, 500), st.floats(0, 1))
def test_incomplete_beta_agrees_with_scipy(a: float, b: float, x: float) -> None:
    assert incomplete_beta(a, b, x) == pytest.approx(special.betainc(a, b, x), rel=1e-7, abs=1e-11)


def test_many_degrees_of_freedom_are_the_normal() -> None:
    assert upper_tail(1.3, 1e9) == upper_tail(1.3)
    assert density(1.3, 1e9) == density(1.3)
    assert student_quantile(0.975, math.inf) == normal_quantile(0.975)
    assert upper_tail(math.inf, 3) == 0.0
    assert upper_tail(-math.inf, 3) == 1.0


@pytest.mark.parametrize("p", [0.0, 1.0, -0.1, math.nan])
def test_what_is_no_probability_is_refused(p: float) -> None:
    with pytest.raises(ValueError):
        normal_quantile(p)
    with pytest.raises(ValueError):
        student_quantile(p, 3)
    with pytest.raises(ValueError):
        beta_quantile(p, 1, 1)


@pytest.mark.parametrize("dof", [0.0, -1.0, math.nan])
def test_what_are_no_degrees_of_freedom_are_refused(dof: float) -> None:
    for asked in (density, upper_tail):
        with pytest.raises(ValueError):
            asked(1.0, dof)
    with pytest.raises(ValueError):
        student_quantile(0.9, dof)


def test_no_degrees_of_freedom_are_refused() -> None:
    with pytest.raises(ValueError):
        upper_tail(1.0, 0)
    with pytest.raises(ValueError):
        student_quantile(0.9, -1)
