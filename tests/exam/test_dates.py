"""Dates as people type them: understood, asked about where two readings are possible, never guessed."""

from __future__ import annotations

import contextlib
import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.exam.dates import DateProblem, in_words, read_birth, read_date

TODAY = datetime.date(2026, 5, 2)
MARCH = datetime.date(2024, 3, 11)

days = st.dates(datetime.date(1990, 1, 1), datetime.date(2099, 12, 31))


@pytest.mark.parametrize(
    "text",
    [
        "2024-03-11", "2024/3/11", "11.03.2024", "11.3.2024", " 11. 3. 2024 ", "11.03.24", "11 March 2024",
        "11 mar 2024", "11th March 2024", "March 11, 2024", "Mar 11 24",
    ],
)  # fmt: skip
def test_ways_to_write_a_day(text):
    assert read_date(text, TODAY) == MARCH


@pytest.mark.parametrize(
    ("text", "day"), [("25/3/2024", (2024, 3, 25)), ("3/25/2024", (2024, 3, 25)), ("4/4/24", (2024, 4, 4))]
)
def test_slashes_are_taken_where_only_one_reading_is_possible(text, day):
    assert read_date(text, TODAY) == datetime.date(*day)


@pytest.mark.parametrize("text", ["11/3/2024", "11-3-2024", "1/2/24"])
def test_slashes_with_two_readings_are_asked_about(text):
    with pytest.raises(DateProblem, match=r"or .*Write 20"):
        read_date(text, TODAY)


@pytest.mark.parametrize(
    "text",
    ["", "yesterday", "31.02.2024", "2024-13-01", "11 Marsh 2024", "32/1/2024", "0/0/2024", "2024", "11.3."],
)
def test_what_is_no_date_says_what_would_be(text):
    with pytest.raises(DateProblem, match="2024-03-11"):
        read_date(text, TODAY)


@given(days)
def test_every_day_comes_back_from_each_unambiguous_form(day):
    for text in (day.isoformat(), f"{day.day}.{day.month}.{day.year}", in_words(day), in_words(day).upper()):
        assert read_date(text, TODAY) == day


@given(days)
def test_slashes_never_guess(day):
    text = f"{day.day}/{day.month}/{day.year}"
    if day.day > 12 or day.day == day.month:
        assert read_date(text, TODAY) == day
    else:
        with pytest.raises(DateProblem, match=day.isoformat()):
            read_date(text, TODAY)


@given(st.text(max_size=20))
def test_any_text_is_a_date_or_a_problem(text):
    with contextlib.suppress(DateProblem):
        assert isinstance(read_date(text, TODAY), datetime.date)


@pytest.mark.parametrize(("text", "words"), [("03.05.2026", "not come yet"), ("1980-01-01", "46 years old")])
def test_a_birth_that_cannot_be_is_told(text, words):
    with pytest.raises(DateProblem, match=words):
        read_birth(text, TODAY)


def test_two_figures_are_the_latest_such_year_that_has_begun():
    assert read_date("01.01.26", TODAY).year == 2026
    assert read_date("01.01.27", TODAY).year == 1927
