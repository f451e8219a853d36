"""A date as people type it. What could be read two ways is asked about, never guessed."""

from __future__ import annotations

import calendar
import re
from datetime import date, datetime, timedelta, timezone

__all__ = ["DateProblem", "as_written", "in_words", "read_birth", "read_date"]

_MONTHS = {name.lower(): n for n, name in enumerate(calendar.month_name) if name}
_SHORT = {name[:3]: n for name, n in _MONTHS.items()}

_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_DOTS = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4}|\d{2})")
_SLASHES = re.compile(r"(\d{1,2})\s*[/-]\s*(\d{1,2})\s*[/-]\s*(\d{4}|\d{2})")
_WORDS = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?\.?\s+([a-z]+)\.?,?\s+(\d{4}|\d{2})")
_WORDS_US = re.compile(r"([a-z]+)\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4}|\d{2})")

RIGHT = "Write 2024-03-11, 11.03.2024 or 11 March 2024."


class DateProblem(ValueError):
    """A text that is no date, or two; `str()` says what is odd and what would be right."""


def as_written(moment: datetime) -> datetime:
    """The same moment with an offset of whole minutes: TOML, as RFC 3339, knows no other.

    The clock's own zone may have one of seconds too: a place before standard time, or one set by hand.
    """
    offset = moment.utcoffset()
    if offset is None or not offset % timedelta(minutes=1):
        return moment
    return moment.astimezone(timezone(timedelta(minutes=offset // timedelta(minutes=1))))


def read_date(text: str, today: date) -> date:
    """The date meant: `2024-03-11`, `11.03.2024`, `11 March 2024`, `25/3/2024`.

    Day and month between slashes are told apart only where one of them is above twelve or both are equal.
    A year of two digits is the latest such year not after `today`. Raises DateProblem.
    """
    words = " ".join(text.strip().lower().split())
    if found := _ISO.fullmatch(words):
        return _made(int(found[1]), int(found[2]), int(found[3]), text)
    if found := _DOTS.fullmatch(words):
        return _made(_year(found[3], today), int(found[2]), int(found[1]), text)
    if found := _SLASHES.fullmatch(words):
        return _slashes(int(found[1]), int(found[2]), _year(found[3], today), text)
    if found := _WORDS.fullmatch(words):
        return _made(_year(found[3], today), _month(found[2], text), int(found[1]), text)
    if found := _WORDS_US.fullmatch(words):
        return _made(_year(found[3], today), _month(found[1], text), int(found[2]), text)
    raise DateProblem(f"This is no date. {RIGHT}")


def read_birth(text: str, today: date) -> date:
    """A date of birth: as `read_date`, and not after `today`. Raises DateProblem."""
    born = read_date(text, today)
    if born > today:
        raise DateProblem(f"{in_words(born)} has not come yet. {RIGHT}")
    if today.year - born.year > 30:
        raise DateProblem(f"{in_words(born)} would make the dog {today.year - born.year} years old. {RIGHT}")
    return born


def in_words(day: date) -> str:
    """`11 March 2024`."""
    return f"{day.day} {calendar.month_name[day.month]} {day.year}"


def _slashes(first: int, second: int, year: int, text: str) -> date:
    if first > 12 or first == second:
        return _made(year, second, first, text)
    if second > 12:
        return _made(year, first, second, text)
    if not (first and second):
        raise DateProblem(f"There is no such day. {RIGHT}")
    one, other = in_words(_made(year, second, first, text)), in_words(_made(year, first, second, text))
    raise DateProblem(
        f"{one}, or {other}? Write {_made(year, second, first, text)} or {_made(year, first, second, text)}."
    )


def _year(text: str, today: date) -> int:
    year = int(text)
    if len(text) == 4:
        return year
    year += today.year // 100 * 100
    return year if year <= today.year else year - 100


def _month(word: str, text: str) -> int:
    month = _MONTHS.get(word) or (_SHORT.get(word[:3]) if word in (word[:3], "sept") else None)
    if month is None:
        raise DateProblem(f"{word} is no month. {RIGHT}")
    return month


def _made(year: int, month: int, day: int, text: str) -> date:
    try:
        return date(year, month, day)
    except ValueError as error:
        raise DateProblem(f"There is no such day as {text.strip()}. {RIGHT}") from error
