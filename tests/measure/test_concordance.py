"""Takes that contradict each other: the studentised range of scipy, and what is set aside."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import studentized_range

from hands_on.measure.concordance import concordance, contradictory_range_factor

SIGMA = 0.324
"""0.6 of the 0.54 cm of one careful height at 60 cm."""


@pytest.mark.parametrize("n", [2, 3, 4, 5, 8, 12, 20])
def test_the_bound_is_the_studentised_range(n: int) -> None:
    assert contradictory_range_factor(n) == pytest.approx(studentized_range.ppf(0.99, n, 8), abs=0.002)


def test_beyond_the_table_its_last_figure_is_used() -> None:
    assert contradictory_range_factor(30) == contradictory_range_factor(20)
    with pytest.raises(ValueError):
        contradictory_range_factor(1)


def test_two_takes_ten_centimetres_apart_cannot_both_be_right() -> None:
    found = concordance([62.0, 71.5], SIGMA)
    assert (found.kind, found.aside, found.apart) == ("contradict", None, 9.5)
    assert found.allowed == pytest.approx(4.745 * SIGMA)


def test_a_third_take_tells_which_was_wrong() -> None:
    assert (concordance([62.0, 71.5, 62.3], SIGMA).kind, concordance([62.0, 71.5, 62.3], SIGMA).aside) == (
        "aside",
        1,
    )


@pytest.mark.parametrize("takes", [[62.0, 71.5, 66.8], [62.0, 62.2, 71.5, 71.3], [60.0, 62.0, 64.0]])
def test_what_does_not_single_out_one_take_still_contradicts(takes: list[float]) -> None:
    assert concordance(takes, SIGMA).kind == "contradict"


def test_takes_within_two_steps_of_the_scale_never_contradict() -> None:
    assert concordance([62.0, 63.0], 0.01, 0.5).kind == "agree"
    assert concordance([62.0, 63.1], 0.01, 0.5).kind == "contradict"


@given(st.lists(st.floats(50, 70), min_size=1, max_size=6))
def test_the_order_of_takes_does_not_matter(takes: list[float]) -> None:
    found, turned = concordance(takes, SIGMA), concordance(takes[::-1], SIGMA)
    assert found.kind == turned.kind
    if found.aside is not None and turned.aside is not None:
        assert takes[found.aside] == takes[::-1][turned.aside]
