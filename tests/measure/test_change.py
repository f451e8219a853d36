"""Change of measurements and grades: worked cases, scipy for the bound of Clopper and Pearson."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from hands_on.measure.change import (
    RetestAgreement,
    agreement_upper,
    change,
    false_alarm,
    grade_change,
    p_greater,
    pairs_needed,
    sdc,
)


@pytest.mark.kind("p_greater")
def test_which_of_two_is_greater(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    computed = {"probability": p_greater(i["a"], i["u_a"], i["b"], i["u_b"], i["correlation"])}
    if "probability_if_independent" in case["expected"]:
        computed["probability_if_independent"] = p_greater(i["a"], i["u_a"], i["b"], i["u_b"])
    agree(case, computed)


@pytest.mark.kind("grade_sdc")
def test_grades_taken_as_equally_spaced(case: dict[str, Any], agree: Any) -> None:
    sems = case["inputs"]["sem"]
    agree(
        case,
        {
            "sem_limit_for_one_grade": 1 / sdc(1.0),
            "sdc": [sdc(sem) for sem in sems],
        },
    )


@pytest.mark.kind("grade_pairs")
def test_pairs_that_make_one_grade_real(case: dict[str, Any], agree: Any) -> None:
    shares, alpha = case["inputs"]["exact_retest_agreement"], case["inputs"]["alpha"]
    needed = [pairs_needed(share, alpha) for share in shares]
    agree(
        case,
        {
            "pairs_needed": needed,
            "false_alarm": [false_alarm(share, k) for share, k in zip(shares, needed, strict=True)],
        },
        leave_out=("agreement_limit_one_pair", "agreement_limit_two_pairs"),
    )
    for limit, pairs in (("agreement_limit_one_pair", 1), ("agreement_limit_two_pairs", 2)):
        share = case["expected"][limit]
        assert pairs_needed(share + 1e-9, alpha) == pairs
        assert pairs_needed(share - 1e-6, alpha) == pairs + 1


@pytest.mark.kind("clopper_pearson")
def test_upper_bound_of_disagreement(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    counts = zip(i["disagreements"], i["retests"], strict=True)
    agree(case, {"upper": [agreement_upper(x, n, i["confidence_one_sided"]) for x, n in counts]})


@given(st.integers(1, 200), st.data())
def test_upper_bound_agrees_with_scipy(retests: int, data: st.DataObject) -> None:
    disagreements = data.draw(st.integers(0, retests))
    wanted = (
        1.0 if disagreements == retests else stats.beta.ppf(0.95, disagreements + 1, retests - disagreements)
    )
    assert agreement_upper(disagreements, retests) == pytest.approx(wanted, rel=1e-7)


def test_a_change_is_real_beyond_what_two_takes_differ_by() -> None:
    """1.94 cm for two heights of 0.7 cm each (1.96 sqrt(0.7^2 + 0.7^2))."""
    assert sdc(0.7) == pytest.approx(1.94, abs=0.005)
    assert sdc(0.7) == sdc(0.7, 0.7)
    assert sdc(3.0) == pytest.approx(8.3, abs=0.05)  # goniometer readings of 3 degrees
    small, large = change(60, 0.7, 61.9, 0.7), change(60, 0.7, 62.0, 0.7)
    assert (small.real, large.real) == (False, True)
    assert small.p_greater == pytest.approx(stats.norm.cdf(1.9 / (0.7 * 2**0.5)))
    assert change(62, 0.7, 60, 0.7).difference == -2


def test_a_shared_error_cancels() -> None:
    assert sdc(0.5, 0.5, correlation=0.8) < sdc(0.5, 0.5)
    assert p_greater(60, 0, 60, 0) == 0.5
    assert p_greater(61, 0, 60, 0) == 1.0
    assert p_greater(59, 0.5, 60, 0.5, 1.0) == 0.0


@pytest.mark.parametrize(
    ("steps", "retest", "pairs", "verdict"),
    [
        (0, None, 1, "none"),
        (1, None, 1, "within-hand-error"),
        (-2, None, 1, "probably-real"),
        (1, RetestAgreement(100, 4), 1, "real"),
        (1, RetestAgreement(100, 10), 1, "not-decided"),
        (1, RetestAgreement(100, 10), 2, "real"),
        (1, RetestAgreement(100, 50), 2, "not-decided"),
        (1, RetestAgreement(100, 50), 3, "real"),
        (2, RetestAgreement(100, 40, 5), 1, "real"),
        (2, RetestAgreement(100, 40, 6), 1, "not-decided"),
    ],
)
def test_when_a_change_of_grade_is_real(
    steps: int, retest: RetestAgreement | None, pairs: int, verdict: str
) -> None:
    """The rule of counting: 0.95 for one pair, 0.684 for two, 0.415 for three; two grades at 5 %."""
    found = grade_change(1, 1 + steps, retest, pairs=pairs)
    assert (found.steps, found.verdict) == (steps, verdict)


def test_another_scale_voids_the_comparison() -> None:
    assert grade_change(1, 3, RetestAgreement(100, 0), same_scale=False).verdict == "not-decided"


def test_nonsense_is_refused() -> None:
    for refused in (
        lambda: sdc(-1),
        lambda: p_greater(1, 1, 1, 1, 2),
        lambda: false_alarm(1.5, 1),
        lambda: pairs_needed(0.9, 0),
        lambda: agreement_upper(5, 4),
        lambda: RetestAgreement(10, 2, 3),
    ):
        with pytest.raises(ValueError):
            refused()
