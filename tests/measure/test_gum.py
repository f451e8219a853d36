"""The rules of the GUM against its own examples (JCGM 100:2008; sources stand beside each case)."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from uncertainties import correlated_values, ufloat

from hands_on.measure import gum


@pytest.mark.kind("type_b")
def test_limits_only(case: dict[str, Any], agree: Any) -> None:
    low, high = case["inputs"]["lower"], case["inputs"]["upper"]
    half = (high - low) / 2
    agree(
        case,
        {
            "mean": (low + high) / 2,
            "u_rectangular": gum.rectangular(half),
        },
    )


@pytest.mark.kind("resolution")
def test_resolution_of_a_scale(case: dict[str, Any], agree: Any) -> None:
    agree(case, {"u": gum.resolution_u(case["inputs"]["step"])})


@pytest.mark.kind("combine_sum")
def test_type_a_and_b_combined(case: dict[str, Any], agree: Any) -> None:
    inputs = case["inputs"]
    u_b = gum.rectangular(inputs["half_width_uV"])
    u = math.hypot(inputs["u_type_a_uV"], u_b)
    agree(case, {"u_type_b_uV": u_b, "u_combined_uV": u, "relative": u * 1e-6 / inputs["value_V"]})


@pytest.mark.kind("sum_correlated")
def test_a_shared_error_adds_linearly(case: dict[str, Any], agree: Any) -> None:
    inputs = case["inputs"]
    names = [f"r{i}" for i in range(inputs["n"])]
    slopes, u = dict.fromkeys(names, 1.0), dict.fromkeys(names, inputs["u_each"])
    pairs = {(a, b): inputs["correlation"] for i, a in enumerate(names) for b in names[i + 1 :]}
    agree(
        case,
        {
            "u_correlated": gum.correlated(slopes, u, pairs),
            "u_if_independent": gum.correlated(slopes, u),
        },
    )


@pytest.mark.kind("welch_satterthwaite")
def test_effective_degrees_of_freedom(case: dict[str, Any], agree: Any) -> None:
    inputs = case["inputs"]
    u_c = math.hypot(*inputs["u"])
    nu = gum.welch_satterthwaite(list(zip(inputs["u"], inputs["dof"], strict=True)))
    k = gum.coverage_factor(nu, inputs["level"])
    agree(case, {"u_c": u_c, "nu_eff": nu, "k": k, "U": k * u_c})


@pytest.mark.kind("student_t")
def test_coverage_factors(case: dict[str, Any], agree: Any) -> None:
    inputs = case["inputs"]
    agree(case, {"k": [gum.coverage_factor(dof, inputs["level"]) for dof in inputs["dof"]]})


@pytest.mark.kind("small_n_budget")
def test_height_from_three_readings_and_a_coarse_scale(case: dict[str, Any], agree: Any) -> None:
    inputs = case["inputs"]
    readings = inputs["readings"]
    mean, u_a, dof = np.mean(readings), np.std(readings, ddof=1) / math.sqrt(len(readings)), len(readings) - 1
    u_b = gum.resolution_u(inputs["step"])
    u_c, nu = math.hypot(u_a, u_b), gum.welch_satterthwaite([(u_a, dof), (u_b, math.inf)])
    k = gum.coverage_factor(nu, inputs["level"])
    agree(case, {"mean": mean, "u_a": u_a, "u_b": u_b, "u_c": u_c, "nu_eff": nu, "k": k, "U": k * u_c})


def test_correlated_agrees_with_the_uncertainties_package() -> None:
    """Three correlated inputs through 2a - b + 0.5c, covariances in the package `uncertainties`."""
    u, r = [0.5, 0.3, 0.9], {("a", "b"): 0.6, ("c", "a"): -0.4, ("b", "c"): 0.1}
    full = [[1, 0.6, -0.4], [0.6, 1, 0.1], [-0.4, 0.1, 1]]
    covariance = [[full[i][j] * u[i] * u[j] for j in range(3)] for i in range(3)]
    a, b, c = correlated_values([1.0, 2.0, 3.0], covariance)
    ours = gum.correlated({"a": 2.0, "b": -1.0, "c": 0.5}, dict(zip("abc", u, strict=True)), r)
    assert ours == pytest.approx((2 * a - b + 0.5 * c).s, rel=1e-9)
    alone = gum.correlated(dict.fromkeys("abc", 1.0), dict(zip("abc", u, strict=True)))
    assert alone == pytest.approx(sum(ufloat(0, each) for each in u).s, rel=1e-12)


def test_impossible_correlations_are_refused() -> None:
    slopes, u = dict.fromkeys("abc", 1.0), dict.fromkeys("abc", 1.0)
    with pytest.raises(ValueError, match="cannot all hold"):
        gum.correlated(slopes, u, {("a", "b"): -1.0, ("b", "c"): -1.0, ("a", "c"): -1.0})
    with pytest.raises(ValueError, match="between -1 and 1"):
        gum.correlated(slopes, u, {("a", "b"): 1.5})
