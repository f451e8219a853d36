"""The sentence about a value and its limits, and those about measurements that do not go together."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.measure.closure import check_agreement, check_head, check_left_right, check_sum
from hands_on.measure.conformity import Band, verdict
from hands_on.measure.further import Resting
from hands_on.measure.takes import take_alarms
from hands_on.wording.alarms import misfit_words, odd_takes_words
from hands_on.wording.rules import band_words, chance_words, verdict_words


def told_of(
    value: float,
    u: float,
    limits: Band,
    *,
    u_lasting: float | None = None,
    n: int = 1,
    unit: str = "cm",
    asked: str = "asked",
) -> str:
    """What is said of a value held against limits."""
    found = verdict(value, u, limits, resting=None if u_lasting is None else Resting(u, u_lasting, n))
    return verdict_words(value, u, limits, found, unit, asked=asked)


def test_the_sentence_tells_value_limit_and_chance() -> None:
    assert told_of(71.5, 0.4, Band(None, 70)) == (
        "71.5 ± 0.4 cm, asked at most 70: outside, under 0.1 % that it is within"
    )
    assert told_of(42, 0, Band(42, 42), unit="teeth") == "42 teeth, asked 42: inside"
    assert told_of(66.5, 0.5, Band(63, 70), asked="ideal") == (
        "66.5 ± 0.5 cm, ideal 63 to 70: inside, over 99.9 % sure"
    )


def test_the_sentence_says_what_more_takes_would_do() -> None:
    told = told_of(70.9, 0.58, Band(None, 70), u_lasting=0.46)
    # scipy: norm.cdf(-0.9 / 0.58) = 0.0604
    assert told == (
        "70.9 ± 0.6 cm, asked at most 70: undecided, 6.0 % that it is within; "
        "1 more take would settle it (56 %)"
    )
    told = told_of(70.0, 0.58, Band(63, 70), u_lasting=0.46)
    assert told == (
        "70.0 ± 0.6 cm, asked 63 to 70: undecided, 50 % that it is within; more takes would not settle it"
    )
    assert told_of(70.0, 0.58, Band(63, 70)).endswith("undecided, 50 % that it is within")


@given(st.floats(0.85, 1.4), st.floats(0.002, 0.05), st.integers(1, 9))
def test_a_sentence_is_short_and_says_each_thing_once(value: float, u: float, n: int) -> None:
    told = told_of(value, u, Band(1.10, 1.15), u_lasting=0.8 * u, n=n, unit="share")
    assert len(told) <= 110
    assert "asked 1.10 to 1.15: " in told  # both ends with the decimals of the longer one
    assert told.count("%") == 1 + ("would settle it (" in told)
    assert told.count("within") <= 1


@pytest.mark.parametrize(
    ("p", "text"),
    [
        (0.6626, "66 %"),
        (0.0478, "4.8 %"),
        (0.9548, "95.5 %"),
        (1e-7, "under 0.1 %"),
        (1 - 1e-7, "over 99.9 %"),
        (0.0, "under 0.1 %"),  # nothing that rests on a reading is certain
        (1.0, "over 99.9 %"),
    ],
)
def test_probabilities_in_words(p: float, text: str) -> None:
    assert chance_words(p) == text


def test_a_band_too_narrow_names_the_likelier_side() -> None:
    told = told_of(1.125, 0.0156, Band(1.10, 1.15), u_lasting=0.0131, unit="share")
    # scipy: norm.cdf(0.025 / 0.0156) - norm.cdf(-0.025 / 0.0156) = 0.891
    assert told.startswith("1.125 ± 0.016, asked 1.10 to 1.15: ")
    assert told.endswith(": no hand can tell a band this narrow; likelier within (89 %)")
    above = told_of(57.2, 0.54, Band(56, 57), u_lasting=0.43)
    assert above.endswith("likelier above (64 %)")
    # every side is unlikely in the middle of a band of two degrees
    assert told_of(21.0, 3.0, Band(20, 22), u_lasting=2.4, unit="deg") == (
        "21 ± 3°, asked 20 to 22: no hand can tell a band this narrow; by the figure within (26 %)"
    )


def test_a_wrong_head_is_told_as_what_cannot_be() -> None:
    short = check_head(
        {"muzzle-length": (11.0, 0.4), "skull-length": (14.0, 0.4), "head-length": (28.0, 0.4)}
    )
    assert short is not None
    assert misfit_words(short) == (
        "Muzzle and skull make the head: they are 3.0 cm short of it, which cannot be. A wrong stop point, "
        "or a tape over the curve of the head. Measure again."
    )


def test_a_sum_tells_by_how_much_it_misses() -> None:
    values = {"elbow-height": (44.0, 0.5), "withers-elbow": (32.0, 0.5), "height": (66.0, 0.5)}
    off = check_sum(("elbow-height", "withers-elbow"), "height", values)
    assert off is not None
    assert misfit_words(off, "both make the height.") == (
        "Both make the height: they miss by 10.0 cm. Measure again."
    )


def test_left_against_right_is_no_fault() -> None:
    assert misfit_words(check_left_right("x", 40, 20, 0.3, 0.3), "Hock angle").endswith("not a fault.")


def test_a_slope_read_from_the_other_side_is_told() -> None:
    given = {"direct": (35.5, 5.0), "landmarks": (54.5, 3.0)}
    turned = check_agreement("direct", "landmarks", given, complement=True)
    plain = check_agreement("direct", "landmarks", given)
    assert turned is not None
    assert plain is not None
    assert "from the vertical" in misfit_words(turned)
    assert "from the vertical" not in misfit_words(plain)


def test_odd_takes_are_told_with_what_to_do() -> None:
    (discordant,) = take_alarms([60.0, 62.0], unit="cm", sigma_r=0.3)
    assert odd_takes_words(discordant) == (
        "The takes lie 2 cm apart, more than 0.84 cm that one hand allows: look at takes 1 and 2. "
        "One more take."
    )
    (_, drift) = take_alarms([60.0, 59.0, 58.0], unit="cm", sigma_r=0.3, is_height=True)
    assert odd_takes_words(drift).startswith("The height falls from take to take, 2 cm in all: ")
    (_, odd) = reversed(take_alarms([60.0, 645.0], unit="cm", sigma_r=0.3, plausible=(10.0, 115.0)))
    assert odd_takes_words(odd) == "Cannot be right: take 2: 645 cm. Read it again."


@pytest.mark.parametrize(
    ("band", "text"),
    [
        (Band(60, 65), "60 to 65 cm"),
        (Band(60, None), "at least 60 cm"),
        (Band(60, None, low_open=True), "above 60 cm"),
        (Band(None, 65.5), "at most 65.5 cm"),
        (Band(None, 65, high_open=True), "below 65 cm"),
        (Band(), "any value"),
    ],
)
def test_limits_in_words(band: Band, text: str) -> None:
    assert band_words(band, "cm") == text
