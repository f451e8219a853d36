"""The evaluator's own technical error of measurement (worked data of Bland and Altman 1986)."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from hands_on.measure.change import sdc
from hands_on.measure.hand import NotYet, OwnHand, own_hand, reliability, tem


@pytest.mark.kind("tem")
def test_tem_of_repeat_readings(case: dict[str, Any], agree: Any) -> None:
    first, second = case["inputs"]["first"], case["inputs"]["second"]
    pairs = list(zip(first, second, strict=True))
    differences = np.array(second) - np.array(first)
    error = tem(pairs)
    agree(
        case,
        {
            "sum_d2": float(sum(differences**2)),
            "tem": error,
            "relative_tem_percent": 100 * error / np.mean(pairs),
            "mean": np.mean(pairs),
            "R": reliability(pairs),
            "sdc_from_tem": sdc(error),
            "sd_all": error / math.sqrt(1 - reliability(pairs)),
            "sd_of_differences": np.std(differences, ddof=1),
            "rms_difference": math.sqrt(2) * error,
        },
    )


@pytest.mark.kind("sem_sdc")
def test_standard_error_without_the_shift_between_trials(case: dict[str, Any]) -> None:
    """Weir 2005, data sets A and B: SEM 7.6, minimal difference about 21; the ICCs are not ours here."""
    first, second = case["inputs"]["first"], case["inputs"]["second"]
    expected = case["expected"]
    sem = np.std(np.array(second) - np.array(first), ddof=1) / math.sqrt(2)
    assert sem == pytest.approx(expected["sem"], abs=1e-6)
    assert sem**2 == pytest.approx(expected["ms_error"], abs=1e-6)
    assert tem(list(zip(first, second, strict=True))) ** 2 == pytest.approx(expected["ms_within"], abs=1e-6)
    # the paper rounds the factor to 1.96
    assert sdc(sem) * 1.96 / 1.959963984540054 == pytest.approx(expected["minimal_difference"], abs=1e-6)


def test_more_than_two_takes_and_unequal_numbers() -> None:
    """The mean square within dogs, recomputed with numpy; a dog taken once adds nothing."""
    takes = [[60.0, 60.5, 61.0], [55.0, 55.0], [70.2, 70.0, 70.4, 70.1], [64.0]]
    squares = sum(np.var(dog) * len(dog) for dog in takes)
    assert tem(takes) == pytest.approx(math.sqrt(squares / (2 + 1 + 3)))


def test_own_hand_needs_ten_dogs_taken_twice() -> None:
    nine = [[60.0 + dog, 60.4 + dog] for dog in range(9)]
    early = own_hand([*nine, [50.0]])
    assert isinstance(early, NotYet)
    assert early.dogs_wanted == 1
    enough = own_hand([*nine, [50.0, 50.4], [70.0]])
    assert isinstance(enough, OwnHand)
    assert enough.tem == pytest.approx(0.4 / math.sqrt(2))
    assert (enough.n_dogs, enough.n_repeats, enough.dof) == (10, 20, 10)


def test_a_coarse_scale_does_not_make_a_perfect_hand() -> None:
    hand = own_hand([[60.0, 60.0]] * 10, resolution=0.5)
    assert isinstance(hand, OwnHand)
    assert hand.tem == pytest.approx(0.5 / math.sqrt(12))


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError):
        tem([[60.0], [61.0]])
    with pytest.raises(ValueError):
        own_hand([[60.0, math.inf]] * 10)
    with pytest.raises(ValueError):
        OwnHand(0.2, 10, 10)
    with pytest.raises(ValueError):
        OwnHand(-0.2, 10, 20)
    with pytest.raises(ValueError):
        reliability([[1.0, 1.0]])
