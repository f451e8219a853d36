"""Age in months by the calendar, and what is too young to judge."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.measure.age import TooYoung, age_months, too_young
from hands_on.wording.ages import age_text

HEIGHT_FROM = {"small": 10, "medium": 12, "large": 15, "giant": 18}
DAYS = st.dates(date(1990, 1, 1), date(2060, 12, 31))


@pytest.mark.parametrize(
    ("born", "on", "months"),
    [
        (date(2024, 3, 10), date(2025, 3, 10), 12.0),
        (date(2024, 3, 10), date(2024, 3, 10), 0.0),
        (date(2025, 1, 31), date(2025, 2, 28), 1.0),
        (date(2024, 1, 31), date(2024, 2, 28), 28 / 29),
        (date(2024, 2, 29), date(2025, 2, 28), 12.0),
        (date(2024, 12, 31), date(2025, 6, 30), 6.0),
        (date(2025, 1, 10), date(2025, 1, 25), 15 / 31),
        (date(2025, 4, 16), date(2025, 6, 1), 1 + 16 / 31),
    ],
)
def test_age_by_the_calendar(born: date, on: date, months: float) -> None:
    assert age_months(born, on) == pytest.approx(months)


@given(DAYS, st.integers(0, 7000))
def test_age_grows_day_by_day_and_stays_near_the_mean_month(born: date, days: int) -> None:
    on = born + timedelta(days=days)
    age, next_day = age_months(born, on), age_months(born, on + timedelta(days=1))
    assert age < next_day
    assert age == pytest.approx(days / 30.4375, abs=0.12)


def test_a_date_before_birth_is_refused() -> None:
    with pytest.raises(ValueError, match="not born"):
        age_months(date(2025, 1, 2), date(2025, 1, 1))


@pytest.mark.parametrize(
    ("months", "text"),
    [
        (0.24, "1 week"),
        (2.1, "9 weeks"),
        (14.99, "14 months"),
        (23.99, "23 months"),
        (24.0, "2 years"),
        (25.5, "2 years 1 month"),
        (74.0, "6 years 2 months"),
    ],
)
def test_an_age_in_words_is_never_rounded_up(months: float, text: str) -> None:
    assert age_text(months) == text


@pytest.mark.parametrize(
    ("months", "size", "least"),
    [
        (14.9, "large", 15),
        (15.0, "large", None),
        (10.0, "small", None),
        (16.0, None, 18),
        (18.0, None, None),
        (None, "large", None),
    ],
)
def test_too_young_or_not(months: float | None, size: str | None, least: float | None) -> None:
    """Without a size class the latest age counts; without an age nothing is too young."""
    wanted = TooYoung(months, least, size) if months is not None and least is not None else None
    assert too_young(months, HEIGHT_FROM, size) == wanted


def test_nought_means_any_age() -> None:
    anytime = dict.fromkeys(HEIGHT_FROM, 0)
    assert too_young(0.0, anytime, "small") is None
    assert too_young(None, anytime, None) is None


def test_a_missing_class_is_refused() -> None:
    with pytest.raises(ValueError):
        too_young(12, {"small": 10}, "large")
    with pytest.raises(ValueError):
        too_young(12, {}, None)
