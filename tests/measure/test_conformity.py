"""Conformity with limits: probabilities against scipy and the examples of JCGM 106:2012."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from hands_on.measure.conformity import (
    Band,
    best_probability,
    classify,
    p_between,
    verdict,
)
from hands_on.measure.distributions import normal_quantile, upper_tail
from hands_on.measure.further import Resting

# an edition's ladder for a male's height: asked 63 to 70, a fault to 73, beyond and below it disqualifies
LADDER = [
    Band(None, 63, high_open=True, weight=2, label="under"),
    Band(63, 70, label="asked"),
    Band(70, 73, low_open=True, weight=1, label="over"),
    Band(73, None, low_open=True, weight=2, label="far over"),
]


@pytest.mark.kind("conformance")
def test_probability_of_conforming(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    agree(case, {"probability": p_between(i["value"], i["u"], i.get("lower"), i.get("upper"))})


@pytest.mark.kind("conformance_t")
def test_student_t_instead_of_the_normal(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    args = (i["value"], i["u"], i["lower"], i["upper"])
    agree(case, {"probability": p_between(*args, dof=i["dof"]), "probability_normal": p_between(*args)})


@pytest.mark.kind("z_one_sided")
def test_distance_from_a_limit(case: dict[str, Any], agree: Any) -> None:
    agree(case, {"z": [normal_quantile(p) for p in case["inputs"]["probability"]]})


@pytest.mark.kind("guard_band")
def test_guard_band_risk(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    agree(case, {"max_risk": [upper_tail(i["k"] * r) for r in i["r"]]})


@pytest.mark.kind("guarded_rejection_relative")
def test_guarded_rejection_with_a_relative_uncertainty(case: dict[str, Any]) -> None:
    """At the published threshold the probability of exceeding the limit is the one asked for."""
    i, expected = case["inputs"], case["expected"]

    def p_beyond(value: float) -> float:
        return p_between(value, i["relative_u"] * value, i["limit"], None)

    assert p_beyond(expected["threshold"]) == pytest.approx(i["probability"], abs=1e-9)
    assert p_beyond(107) == pytest.approx(expected["probability_at_107"], abs=1e-9)


@pytest.mark.kind("best_probability")
def test_the_best_probability_a_width_allows(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    oil, other = Band(i["lower"], i["upper"]), Band(i["other_lower"], i["other_upper"])
    agree(
        case,
        {
            "best_probability": best_probability(oil, i["u"]),
            "other_best_probability": best_probability(other, i["other_u"]),
        },
    )


VALUES = st.floats(-200, 200)
US = st.floats(1e-3, 50)


@pytest.mark.parametrize("dof", [None, 1, 2.5, 4, 9, 30, 199])
@pytest.mark.parametrize("u", [0.25, 3.0])
def test_probabilities_agree_with_scipy(u: float, dof: float | None) -> None:
    """From the middle out to eight uncertainties, where every probability is still far above rounding.

    Values and limits have exact quotients by u, so that both sides are asked for the very same tail.
    """
    law = stats.norm(0, u) if dof is None else stats.t(dof, 0, u)
    steps = [u * step / 4 for step in range(-32, 33)]
    for low in steps:
        assert p_between(0.0, u, low, None, dof=dof) == pytest.approx(law.sf(low), rel=1e-9)
        assert p_between(0.0, u, None, low, dof=dof) == pytest.approx(law.cdf(low), rel=1e-9)
        for high in (low, low + u / 4, low + 3 * u):
            wanted = law.cdf(high) - law.cdf(low) if high <= 0 else law.sf(low) - law.sf(high)
            assert p_between(0.0, u, low, high, dof=dof) == pytest.approx(wanted, rel=1e-6, abs=1e-14)


@given(VALUES, US, VALUES)
def test_probabilities_of_one_and_two_degrees_of_freedom_have_closed_forms(
    value: float, u: float, low: float
) -> None:
    """Student's t with one degree of freedom is Cauchy's law, with two its tail is algebraic (by hand)."""
    z = (low - value) / u
    cauchy = math.atan2(1.0, z) / math.pi
    root = math.hypot(z, math.sqrt(2.0))
    two = 1.0 / (root * (root + z)) if z > 0 else 1.0 - 1.0 / (root * (root - z))
    assert p_between(value, u, low, None, dof=1) == pytest.approx(cauchy, rel=1e-9)
    assert p_between(value, u, low, None, dof=2) == pytest.approx(two, rel=1e-9)
    assert p_between(value, u, None, low, dof=1) == pytest.approx(1.0 - cauchy, rel=1e-9, abs=1e-15)


@given(VALUES, st.just(0.0) | US, VALUES, st.floats(0, 100))
def test_inside_below_and_above_make_one(value: float, u: float, low: float, width: float) -> None:
    found = verdict(value, u, Band(low, low + width, low_open=True))
    assert found.p_inside + found.p_below + found.p_above == pytest.approx(1.0, abs=1e-12)
    assert min(found.p_inside, found.p_below, found.p_above) >= 0.0


@pytest.mark.parametrize(
    ("value", "low_open", "high_open", "p"),
    [
        (60, False, False, 1),
        (60, True, False, 0),
        (65, False, True, 0),
        (65, True, False, 1),
        (59.999, False, False, 0),
    ],
)
def test_exact_values_are_compared_with_open_and_closed_limits(
    value: float, low_open: bool, high_open: bool, p: float
) -> None:
    assert p_between(value, 0, 60, 65, low_open=low_open, high_open=high_open) == p


def test_a_limit_belongs_to_what_is_asked_unless_it_is_said_to_be_open() -> None:
    assert [p_between(end, 0, 60, 65) for end in (60, 65)] == [1, 1]


@pytest.mark.parametrize("far", [9.0, 20.0, 35.0])
def test_far_from_both_limits_no_digit_is_lost(far: float) -> None:
    """Against scipy's tails, where one less the other side would leave nothing, or noise."""
    law = stats.norm()
    wanted = law.sf(far) - law.sf(far + 0.5)
    assert p_between(0.0, 1.0, far, far + 0.5) == pytest.approx(wanted, rel=1e-8, abs=0)
    assert p_between(0.0, 1.0, -far - 0.5, -far) == pytest.approx(wanted, rel=1e-8, abs=0)


@pytest.mark.parametrize(
    "args", [(60, -1, 0, 1), (60, math.nan, 0, 1), (math.nan, 1, 0, 1), (60, 1, 2, 1), (60, 1, math.nan, 1)]
)
def test_nonsense_is_refused(args: tuple[float, float, float, float]) -> None:
    with pytest.raises(ValueError):
        p_between(*args)
    with pytest.raises(ValueError):
        verdict(60, 1, Band(0, 100), confidence=0.5)
    with pytest.raises(ValueError):
        verdict(60, 1, Band(0, 100), resting=Resting(1, 1.5, 1))
    with pytest.raises(ValueError):
        classify(60, 1, [])


@pytest.mark.parametrize(
    ("value", "outcome", "side"),
    [
        (71.5, "outside", "above"),
        (70.4, "undecided", "above"),
        (69.9, "undecided", "inside"),
        (69.2, "inside", "inside"),
        (62.3, "outside", "below"),
    ],
)
def test_three_outcomes(value: float, outcome: str, side: str) -> None:
    found = verdict(value, 0.4, Band(63, 70))
    assert (found.outcome, found.likelier_side) == (outcome, side)


def test_the_confidence_is_the_bound_itself() -> None:
    z = 1.6448536269514722
    assert verdict(60 + z * 0.5, 0.5, Band(60, None)).outcome == "inside"
    assert verdict(60 + 0.999 * z * 0.5, 0.5, Band(60, None)).outcome == "undecided"
    assert verdict(60 - z * 0.5, 0.5, Band(60, None)).outcome == "outside"
    assert verdict(60 + z * 0.5, 0.5, Band(60, None), confidence=0.99).outcome == "undecided"


@pytest.mark.parametrize(
    ("value", "u", "limits"),
    [
        (57.2, 0.54, Band(56, 57)),  # a height asked for within one centimetre
        (21.0, 3.0, Band(20, 22)),  # a pastern asked for within two degrees
    ],
)
def test_a_band_narrower_than_a_careful_hand_is_said_to_be_so(value: float, u: float, limits: Band) -> None:
    found = verdict(value, u, limits, resting=Resting(u, 0.8 * u, 1))
    assert found.too_narrow
    assert found.outcome == "undecided"
    assert found.takes_more is None


def test_an_ordinary_band_is_not_too_narrow() -> None:
    assert not verdict(66, 0.54, Band(63, 70), resting=Resting(0.54, 0.43, 1)).too_narrow
    assert not verdict(66, 5.0, Band(None, 70)).too_narrow


@pytest.mark.parametrize(
    ("value", "outcome", "label"),
    [
        (61.0, "outside", "under"),
        (62.8, "undecided", None),  # below the limit, but not surely: never a disqualification
        (63.0, "undecided", None),
        (66.0, "inside", "asked"),
        (70.5, "undecided", None),
        (71.5, "outside", "over"),
        (73.5, "outside", "over"),  # probably disqualified, surely a fault: only the fault is called
        (75.0, "outside", "far over"),
    ],
)
def test_no_band_is_called_heavier_than_is_sure(value: float, outcome: str, label: str | None) -> None:
    found = classify(value, 0.54, LADDER)
    called = None if found.called is None else LADDER[found.called].label
    assert (found.outcome, called) == (outcome, label)


@given(st.floats(50, 90), st.just(0.0) | st.floats(1e-6, 6), st.sampled_from([0.9, 0.95, 0.99]))
def test_what_is_called_has_the_probability_it_claims(value: float, u: float, confidence: float) -> None:
    """Recomputed with scipy: the called band and all as heavy on its side reach the confidence."""
    found = classify(value, u, LADDER, confidence)
    assert sum(found.probabilities) == pytest.approx(1.0, abs=1e-9)
    if u > 0:
        law = stats.norm(value, u)
        p_of = {
            "under": law.cdf(63),
            "over": law.sf(70),
            "far over": law.sf(73),
            "asked": law.cdf(70) - law.cdf(63),
        }
    else:
        p_of = {
            "under": float(value < 63),
            "over": float(value > 70),
            "far over": float(value > 73),
            "asked": float(63 <= value <= 70),
        }
    if found.called is not None:
        label = LADDER[found.called].label
        assert p_of[label] >= confidence - 1e-6
        assert found.p_called == pytest.approx(p_of[label], abs=1e-9)
    else:
        assert all(p < confidence + 1e-6 for p in p_of.values())


def test_outside_is_not_called_while_the_side_is_open() -> None:
    """A band far narrower than u: surely outside, but whether too small or too large is not known."""
    bands = [
        Band(None, 20, high_open=True, weight=1),
        Band(20, 20.1),
        Band(20.1, None, low_open=True, weight=1),
    ]
    found = classify(20.05, 3.0, bands)
    assert found.called is None
    assert found.outcome == "outside"
    assert not found.settled


def test_exact_counts_are_classified_exactly() -> None:
    teeth = [Band(None, 40, high_open=True, weight=2), Band(40, 42, high_open=True, weight=1), Band(42, None)]
    assert classify(41, 0, teeth).called == 1
    assert classify(42, 0, teeth).outcome == "inside"
    assert classify(39, 0, teeth).called == 0


def test_bands_of_a_ladder_may_not_overlap() -> None:
    with pytest.raises(ValueError, match="overlap"):
        classify(60, 1, [Band(None, 65), Band(60, None)])
    with pytest.raises(ValueError, match="belongs to two"):
        classify(60, 1, [Band(None, 60), Band(60, None)])
    with pytest.raises(ValueError, match="above the upper"):
        Band(65, 60)


def test_a_ladder_without_an_asked_band_still_classifies() -> None:
    sizes = [Band(None, 35, high_open=True, weight=1), Band(35, None, weight=2)]
    assert classify(30, 0.5, sizes).called == 0
    assert classify(40, 0.5, sizes).called == 1


# --- the edges of the rules --------------------------------------------------------------------------------

Z95 = 1.6448536269514722
"""95 % point of the standard normal distribution, as `scipy.stats.norm.ppf(0.95)`."""


def test_too_narrow_is_judged_by_what_further_takes_cannot_reduce() -> None:
    """Half a centimetre to either side: 0.93 u of one take, but 2.5 u of what stays (norm: 0.65, 0.99)."""
    limits = Band(60, 61)
    assert stats.norm.cdf(0.5 / 0.54) - stats.norm.cdf(-0.5 / 0.54) < 0.95
    assert stats.norm.cdf(0.5 / 0.20) - stats.norm.cdf(-0.5 / 0.20) > 0.95
    assert not verdict(60.5, 0.54, limits, resting=Resting(0.54, 0.20, 1)).too_narrow
    assert verdict(60.5, 0.54, limits).too_narrow
    assert not verdict(60.5, 0.0, limits).too_narrow


@pytest.mark.parametrize("confidence", [0.0, 0.5, 1.0, 1.5])
def test_a_confidence_is_above_one_half_and_below_one(confidence: float) -> None:
    with pytest.raises(ValueError, match="confidence"):
        verdict(60, 1, Band(0, 100), confidence)
    with pytest.raises(ValueError, match="confidence"):
        classify(60, 1, [Band(0, 100)], confidence)


def test_what_is_named_inside_is_a_band_that_is_asked_for() -> None:
    """Three asked bands share 0.66; the one beside them is the likeliest of all four, and is not named."""
    bands = [
        Band(None, 0, high_open=True),
        Band(0, 1, high_open=True),
        Band(1, 2, high_open=True),
        Band(2, None, weight=1),
    ]
    found = classify(1.4, 1.5, bands, 0.6)
    assert (found.outcome, found.likeliest, found.called) == ("inside", 3, 2)
    assert found.p_called == pytest.approx(stats.norm.cdf(0.4), abs=1e-12)
    assert not found.settled


def test_one_band_at_the_confidence_is_settled() -> None:
    beyond = [Band(None, 60, high_open=True, weight=1), Band(60, None)]
    for sign, called in ((1, 1), (-1, 0)):
        found = classify(60 + sign * Z95 * 0.5, 0.5, beyond, resting=Resting(0.5, 0.4, 1))
        assert (found.called, found.settled, found.takes_more) == (called, True, None)
    short = classify(60 + 0.999 * Z95 * 0.5, 0.5, beyond, resting=Resting(0.5, 0.4, 1))
    assert (short.called, short.settled, short.p_called) == (None, False, 0.0)
    assert short.takes_more == 1


def test_two_bands_from_the_same_limit_up_overlap() -> None:
    with pytest.raises(ValueError, match="overlap"):
        classify(66, 1, [Band(60, None), Band(60, 65)])
    with pytest.raises(ValueError, match="overlap"):
        classify(66, 1, [Band(60, 65), Band(64.9, 70)])
    with pytest.raises(ValueError, match="overlap"):
        classify(66, 1, [Band(None, 65), Band(None, 70)])


def test_an_open_and_a_closed_end_meet_without_overlapping() -> None:
    for first, second in (
        (Band(None, 65, high_open=True), Band(65, None, weight=1)),
        (Band(None, 65), Band(65, None, low_open=True, weight=1)),
    ):
        assert sum(classify(65, 0.5, [first, second]).probabilities) == pytest.approx(1.0)
        assert classify(65, 0.0, [first, second]).settled


def test_a_band_without_an_end_is_as_wide_as_it_can_be() -> None:
    assert best_probability(Band(None, 70), 5.0) == best_probability(Band(70, None), 5.0) == 1.0
    assert p_between(60, 1, None, None) == 1.0
    assert Band(None, 70).holds(-1e9)
    assert Band(70, None).holds(1e9)
    assert Band().holds(0)


def test_the_two_sides_of_a_limit_are_told_apart() -> None:
    found = verdict(62.8, 0.5, Band(63, 70))
    assert found.p_below == pytest.approx(stats.norm.cdf(0.4), abs=1e-12)
    assert found.p_above == pytest.approx(0.0, abs=1e-12)
    above = verdict(70.2, 0.5, Band(None, 70))
    assert (above.p_below, above.likelier_side) == (0.0, "above")
    assert above.p_above == pytest.approx(stats.norm.cdf(0.4), abs=1e-12)
    below = verdict(62.8, 0.5, Band(63, None))
    assert (below.p_above, below.likelier_side) == (0.0, "below")


def _at(limit: float) -> tuple[float, float | None]:
    """An uncertainty that grows with the limit, as a ratio's does."""
    return (0.5, 10.0) if limit < 1.0 else (0.8, None)


@pytest.mark.parametrize(("value", "low", "high"), [(0.9, 0.5, 1.2), (0.2, 0.5, 1.2), (1.9, 0.5, 1.2)])
def test_u_and_its_freedom_may_depend_on_the_limit(value: float, low: float, high: float) -> None:
    # scipy: Student's t with 10 degrees of freedom at the lower limit, the normal at the upper one
    below = stats.t.cdf((low - value) / 0.5, 10)
    above = stats.norm.sf((high - value) / 0.8)
    assert p_between(value, 9.0, low, high, dof=3.0, against=_at) == pytest.approx(1 - below - above)
    assert p_between(value, 9.0, None, high, against=_at) == pytest.approx(1 - above)
    assert p_between(value, 9.0, low, None, against=_at) == pytest.approx(1 - below)
    found = verdict(value, 9.0, Band(low, high), against=_at)
    assert (found.p_below, found.p_inside, found.p_above) == pytest.approx((below, 1 - below - above, above))
    bands = [Band(low, high), Band(None, low, high_open=True, weight=1), Band(high, None, True, weight=1)]
    told = classify(value, 9.0, bands, against=_at).probabilities
    assert told == pytest.approx((1 - below - above, below, above))
