"""Ratios, differences and sums: propagation against the `uncertainties` package and Monte Carlo."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from uncertainties import UFloat, ufloat

from hands_on.measure.derived import (
    DerivedProblem,
    Difference,
    Expr,
    Ratio,
    Ref,
    Sum,
    evaluate,
    fieller,
    measure_ids,
    sensitivities,
)

LEG = Ratio(Ref("elbow-height"), Difference(Ref("height"), Ref("elbow-height")))


@pytest.mark.kind("ratio_fieller")
def test_ratio_and_its_limits(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    limits = fieller(i["a"], i["u_a"], i["b"], i["u_b"], level=i["level"])
    values = {"a": (i["a"], i["u_a"]), "b": (i["b"], i["u_b"])}
    z = 1.959963984540054
    if limits.bounded:
        ratio, u = evaluate(Ratio(Ref("a"), Ref("b")), values)
    else:
        with pytest.raises(DerivedProblem, match="not clear of nought"):
            evaluate(Ratio(Ref("a"), Ref("b")), values)
        ratio = i["a"] / i["b"]  # what must not be given out; kept to check the case's own numbers
        u = abs(ratio) * math.hypot(i["u_a"] / i["a"], i["u_b"] / i["b"])
    agree(
        case,
        {
            "ratio": ratio,
            "u_first_order": u,
            "first_order_low": ratio - z * u,
            "first_order_high": ratio + z * u,
            "g": limits.g,
            "fieller_bounded": limits.bounded,
            "fieller_low": limits.low,
            "fieller_high": limits.high,
        },
        leave_out=("exact_quantiles",),
    )


@pytest.mark.kind("ratio_correlated")
def test_ratio_of_correlated_readings(case: dict[str, Any], agree: Any) -> None:
    """JCGM 100:2008, H.2: Z = V/I with the correlation of the repeated readings."""
    i, expected = case["inputs"], case["expected"]
    v, current = np.array(i["V"]), np.array(i["I_mA"])
    r = float(np.corrcoef(v, current)[0, 1])
    u = {name: float(np.std(x, ddof=1) / math.sqrt(5)) for name, x in (("V", v), ("I", current))}
    values = {"V": (float(v.mean()) * 1000, u["V"] * 1000), "I": (float(current.mean()), u["I"])}
    z, u_z = evaluate(Ratio(Ref("V"), Ref("I")), values, {("I", "V"): r})
    _, u_free = evaluate(Ratio(Ref("V"), Ref("I")), values)
    assert z == pytest.approx(expected["Z"], abs=1e-6)
    assert u_z == pytest.approx(expected["u_Z"], abs=1e-6)
    assert u_free == pytest.approx(expected["u_Z_if_r_ignored"], abs=1e-6)


@pytest.mark.parametrize(
    ("top", "bottom", "value", "u"),
    [
        # proportions of a 60 cm dog with the default uncertainties, printed to three decimals
        ((66, 0.96), (60, 0.54), 1.100, 0.019),
        ((27, 0.60), (60, 0.54), 0.450, 0.011),
        ((32, 0.56), (60, 0.54), 0.533, 0.010),
        ((11, 0.33), (14, 0.41), 0.786, 0.033),
    ],
)
def test_proportions_of_a_60_cm_dog(
    top: tuple[float, float], bottom: tuple[float, float], value: float, u: float
) -> None:
    found = evaluate(Ratio(Ref("top"), Ref("bottom")), {"top": top, "bottom": bottom})
    assert found == (pytest.approx(value, abs=6e-4), pytest.approx(u, abs=6e-4))


def test_the_same_measurement_twice_is_correlated_with_itself() -> None:
    """elbow height over the rest of the height: `uncertainties` keeps track of the shared take."""
    height, elbow = ufloat(60, 0.54), ufloat(32, 0.56)
    wanted = elbow / (height - elbow)
    value, u = evaluate(LEG, {"height": (60, 0.54), "elbow-height": (32, 0.56)})
    assert value == pytest.approx(wanted.n, rel=1e-12)
    assert u == pytest.approx(wanted.s, rel=1e-9)
    rest = math.hypot(0.54, 0.56)
    assert u > 1.1 * value * math.hypot(0.56 / 32, rest / 28)  # what forgetting it would give


def test_propagation_agrees_with_monte_carlo() -> None:
    rng = np.random.default_rng(11)
    height, elbow = rng.normal(60, 0.54, 400_000), rng.normal(32, 0.56, 400_000)
    value, u = evaluate(LEG, {"height": (60, 0.54), "elbow-height": (32, 0.56)})
    draws = elbow / (height - elbow)
    assert value == pytest.approx(np.median(draws), abs=5e-4)
    assert u == pytest.approx(np.std(draws), rel=0.01)


def test_a_difference_with_itself_is_exactly_nought() -> None:
    assert evaluate(Difference(Ref("a"), Ref("a")), {"a": (60, 0.5)}) == (0.0, 0.0)
    assert evaluate(Ratio(Ref("a"), Ref("a")), {"a": (60, 0.5)}) == (1.0, 0.0)


def test_a_sum_of_the_same_thing_adds_its_error_linearly() -> None:
    assert evaluate(Sum((Ref("a"), Ref("a"))), {"a": (60, 0.5)}) == (120.0, 1.0)


def expressions() -> st.SearchStrategy[Expr]:
    refs: st.SearchStrategy[Expr] = st.sampled_from("abc").map(Ref)
    return st.recursive(
        refs,
        lambda inner: (
            st.builds(Ratio, inner, inner)
            | st.builds(Difference, inner, inner)
            | st.builds(Sum, st.lists(inner, min_size=1, max_size=3).map(tuple))
        ),
        max_leaves=6,
    )


def with_package(expr: Expr, values: dict[str, UFloat]) -> Any:
    match expr:
        case Ref(name):
            return values[name]
        case Ratio(above, below):
            return with_package(above, values) / with_package(below, values)
        case Difference(first, second):
            return with_package(first, values) - with_package(second, values)
        case Sum(terms):
            return sum(with_package(term, values) for term in terms)


@given(expressions(), st.lists(st.floats(5, 80), min_size=3, max_size=3), st.floats(0.05, 0.5))
def test_any_expression_agrees_with_the_uncertainties_package(
    expr: Expr, sizes: list[float], u: float
) -> None:
    values = {name: (size, u) for name, size in zip("abc", sizes, strict=True)}
    try:
        found = evaluate(expr, values)
    except DerivedProblem:
        assume(False)
    wanted = with_package(expr, {name: ufloat(*pair) for name, pair in values.items()})
    assert found[0] == pytest.approx(getattr(wanted, "n", wanted), rel=1e-9, abs=1e-9)
    assert found[1] == pytest.approx(getattr(wanted, "s", 0.0), rel=1e-6, abs=1e-7)


def test_missing_measurements_are_named() -> None:
    with pytest.raises(DerivedProblem) as caught:
        evaluate(LEG, {"height": (60, 0.5)})
    assert caught.value.missing == ("elbow-height",)
    assert measure_ids(LEG) == ("elbow-height", "height")


def test_division_by_nought_is_refused() -> None:
    with pytest.raises(DerivedProblem):
        evaluate(Ratio(Ref("a"), Difference(Ref("b"), Ref("b"))), {"a": (1, 0), "b": (2, 0.1)})
    with pytest.raises(ValueError):
        fieller(1, 0.1, 0, 0)


def test_fieller_without_real_limits_gives_none() -> None:
    limits = fieller(0.1, 1.0, 0.1, 1.0)
    assert (limits.low, limits.high, limits.bounded) == (None, None, False)


def test_sensitivities_are_partial_derivatives() -> None:
    value, slopes = sensitivities(LEG, {"height": (60, 0.5), "elbow-height": (32, 0.5)})
    assert value == pytest.approx(32 / 28)
    assert slopes["height"] == pytest.approx(-32 / 28**2)
    assert slopes["elbow-height"] == pytest.approx(60 / 28**2)


@pytest.mark.parametrize(("u", "given_out"), [(1.0, True), (1.03, False)])
def test_a_denominator_within_1_96_u_of_nought_is_refused(u: float, given_out: bool) -> None:
    """g = (1.96 u / b)^2 reaches 1 at u = b / 1.96: beyond it Fieller's limits are not bounded."""
    values = {"a": (10.0, 0.1), "b": (2.0, u)}
    assert fieller(10.0, 0.1, 2.0, u).bounded is given_out
    if given_out:
        assert evaluate(Ratio(Ref("a"), Ref("b")), values)[0] == 5.0
    else:
        with pytest.raises(DerivedProblem):
            evaluate(Ratio(Ref("a"), Ref("b")), values)
