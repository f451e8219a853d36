"""What a person types at the table: read as meant, or asked about; never guessed, never an accident."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from hands_on.measure.asked_reading import Entry
from hands_on.measure.entry import EntryProblem, parse_entry
from hands_on.measure.units import UNITS, canonical_unit, convert, quantity_of

HEIGHT = (10.0, 115.0)


def height(text: str, unit: str = "cm", plausible: tuple[float, float] = HEIGHT) -> Entry:
    return parse_entry(text, quantity="length", default_unit=unit, plausible=plausible)


def problem(text: str, **asked: object) -> EntryProblem:
    given_by_default = {"quantity": "length", "default_unit": "cm", "plausible": HEIGHT}
    with pytest.raises(EntryProblem) as caught:
        parse_entry(text, **(given_by_default | asked))  # type: ignore[arg-type]
    assert caught.value.message == str(caught.value)
    return caught.value


@pytest.mark.parametrize(
    ("text", "value", "unit", "cm"),
    [
        ("64.5", 64.5, "cm", 64.5),
        ("64,5", 64.5, "cm", 64.5),
        (" 64.5 cm ", 64.5, "cm", 64.5),
        ("64.5CM.", 64.5, "cm", 64.5),
        ("645 mm", 645, "mm", 64.5),
        ("0.645 m", 64.5, "cm", 64.5),
        ("64½", 64.5, "cm", 64.5),
        ("64 ½", 64.5, "cm", 64.5),
        ("６４．５", 64.5, "cm", 64.5),
        ("٦٤٫٥", 64.5, "cm", 64.5),
        ("+64", 64, "cm", 64.0),
        ("64.", 64, "cm", 64.0),
        ('25"', 25, "in", 63.5),
        ("25″", 25, "in", 63.5),
        ("25”", 25, "in", 63.5),
        ("25''", 25, "in", 63.5),
        ("25 in", 25, "in", 63.5),
        ("25 inches", 25, "in", 63.5),
        ("25 3/8 in", 25.375, "in", 64.4525),
        ('25+3/8"', 25.375, "in", 64.4525),
        ("25-3/8 in", 25.375, "in", 64.4525),
        ("25−3⁄8 in", 25.375, "in", 64.4525),
        ("25⅜ in", 25.375, "in", 64.4525),
        ("2 ft", 2, "ft", 60.96),
        ("2'", 2, "ft", 60.96),
        ("2 ft 1 in", 25, "in", 63.5),
        ("2' 1\"", 25, "in", 63.5),
        ("2’ 1”", 25, "in", 63.5),
        ("2'1", 25, "in", 63.5),
        ("2 ft 1 1/2 in", 25.5, "in", 64.77),
        ("2 feet 1½ inches", 25.5, "in", 64.77),
    ],
)
def test_ways_of_writing_a_length(text: str, value: float, unit: str, cm: float) -> None:
    assert height(text) == Entry(value, unit, cm, "cm", text)


@pytest.mark.parametrize(("text", "inches"), [("25+3/8", 25.375), ("25-3/8", 25.375), ("25 3/8", 25.375)])
def test_the_number_pad_writes_inches_where_inches_are_asked(text: str, inches: float) -> None:
    assert height(text, unit="in") == Entry(inches, "in", 64.4525, "cm", text)


@pytest.mark.parametrize(
    ("text", "quantity", "default", "plausible", "value", "unit", "canonical"),
    [
        ("31.2", "mass", "kg", (0.5, 120), 31.2, "kg", 31.2),
        ("31.200 kg", "mass", "kg", (0.5, 120), 31.2, "kg", 31.2),
        ("68 lbs", "mass", "kg", (0.5, 120), 68, "lb", 30.84428116),
        ("1 lb 4 oz", "mass", "kg", (0.1, 120), 1.25, "lb", 0.5669904625),
        ("900 g", "mass", "kg", (0.1, 120), 900, "g", 0.9),
        ("45", "angle", "deg", (0, 180), 45, "deg", 45),
        ("45°", "angle", "deg", (0, 180), 45, "deg", 45),
        ("45º", "angle", "deg", (0, 180), 45, "deg", 45),
        ("45 deg", "angle", "deg", (0, 180), 45, "deg", 45),
        ("-5", "angle", "deg", (-30, 60), -5, "deg", -5),
        ("−5°", "angle", "deg", (-30, 60), -5, "deg", -5),
        ("42", "count", "teeth", (0, 60), 42, "teeth", 42),
        ("42 teeth", "count", "count", (0, 60), 42, "teeth", 42),
        ("0.45", "share", "share", (0, 1), 0.45, "share", 0.45),
        ("45 %", "share", "share", (0, 1), 45, "%", 0.45),
    ],
)
def test_other_quantities(
    text: str,
    quantity: str,
    default: str,
    plausible: tuple[float, float],
    value: float,
    unit: str,
    canonical: float,
) -> None:
    entry = parse_entry(text, quantity=quantity, default_unit=default, plausible=plausible)
    assert entry == Entry(value, unit, canonical, canonical_unit(quantity), text)


@pytest.mark.parametrize(
    ("text", "plausible", "likely"),
    [
        ("645", HEIGHT, (64.5, "cm", 64.5)),
        ("6,45", HEIGHT, (64.5, "cm", 64.5)),
        ("6.45", HEIGHT, (64.5, "cm", 64.5)),
        ("6450", HEIGHT, (64.5, "cm", 64.5)),
        ("25", (50, 75), (25, "in", 63.5)),
        ("645 cm", HEIGHT, (64.5, "cm", 64.5)),
        ("25 cm", (50, 75), (25, "in", 63.5)),
        ("64.5 in", HEIGHT, (6.45, "in", 16.383)),
    ],
)
def test_a_number_that_cannot_be_is_asked_about(
    text: str, plausible: tuple[float, float], likely: tuple[float, str, float]
) -> None:
    found = problem(text, plausible=plausible)
    assert found.kind == "implausible"
    first = found.suggestions[0]
    assert (first.value, first.unit, first.canonical) == likely


def test_where_inches_were_only_assumed_the_metric_reading_comes_first() -> None:
    found = problem("64.5", default_unit="in")
    assert (found.suggestions[0].value, found.suggestions[0].unit) == (64.5, "cm")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "empty"),
        ("   ", "empty"),
        ("about 64", "unreadable"),
        ("~64", "unreadable"),
        ("64?", "unreadable"),
        ("64 ells", "unreadable"),
        ("64²", "unreadable"),
        ("6④", "unreadable"),
        ("1e2", "unreadable"),
        ("nan", "unreadable"),
        ("inf", "unreadable"),
        ("=64", "unreadable"),
        ("64 cm\x1b[0m", "unreadable"),
        ("9" * 61, "unreadable"),
        ("-", "unreadable"),
        ("cm", "unreadable"),
        ("1,000", "thousands"),
        ("64,500", "thousands"),
        ("1 000", "thousands"),
        ("1.000,5", "thousands"),
        ("1,000.5", "thousands"),
        ("1'000", "thousands"),
        ("64..5", "thousands"),
        ("64 65", "two-numbers"),
        ("25 3/8 5/8", "two-numbers"),
        ("1+1", "two-numbers"),
        ("64 cm in", "two-units"),
        ("64 cm 25 in", "two-units"),
        ("25 in 2 ft", "two-units"),
        ("64 kg", "wrong-unit"),
        ("64°", "wrong-unit"),
        ("64 teeth", "wrong-unit"),
        ("3/0", "fraction"),
        ("64/5", "fraction"),
        ("25 9/8 in", "fraction"),
        ("25.5 3/8", "fraction"),
        ("2.5 ft 1 in", "fraction"),
        ("2 ft 14 in", "unreadable"),
        ("-64", "negative"),
        ("-64.5 cm", "negative"),
        ("300", "implausible"),
    ],
)
def test_what_is_not_plainly_one_reading_is_refused(text: str, kind: str) -> None:
    assert problem(text).kind == kind


@pytest.mark.parametrize(
    ("text", "suggested"),
    [
        ("64,500", 64.5),  # thousands mark or three decimals: only one of them is possible
        ("64 5", 64.5),
        ("64/5", 64.5),
        ("64 kg", 64.0),
        ("-64", 64.0),
        ("2 ft 14 in", 96.52),
    ],
)
def test_refusals_offer_what_was_probably_meant(text: str, suggested: float) -> None:
    assert [entry.canonical for entry in problem(text).suggestions] == [suggested]


def test_a_wrong_unit_is_told_what_would_be_right() -> None:
    message = problem("64.5 kg").message
    assert "kg" in message
    assert "cm" in message
    assert "in" in message


def test_three_decimals_are_refused_only_where_thousands_fit_too() -> None:
    mass = {"quantity": "mass", "default_unit": "g", "plausible": (0.0005, 120)}
    assert [entry.canonical for entry in problem("1.250", **mass).suggestions] == [0.00125, 1.25]
    assert height("64.500").canonical == 64.5


def test_a_count_is_whole() -> None:
    assert problem("41.5", quantity="count", default_unit="teeth", plausible=(0, 60)).kind == "not-whole"


def test_without_a_plausible_range_only_the_sign_is_checked() -> None:
    assert parse_entry("6450", quantity="length", default_unit="cm").canonical == 6450
    assert problem("-1", plausible=None).kind == "negative"
    assert problem("1", plausible=(2, None)).kind == "implausible"


def test_limits_belong_to_the_plausible_range() -> None:
    assert height("10").canonical == 10
    assert height("115").canonical == 115
    assert problem("115.1").kind == "implausible"
    assert problem("9.99").kind == "implausible"


def test_arguments_that_make_no_sense_are_the_callers_error() -> None:
    with pytest.raises(ValueError, match="no unit of"):
        parse_entry("1", quantity="mass", default_unit="cm")
    with pytest.raises(ValueError, match="empty"):
        parse_entry("1", quantity="length", default_unit="cm", plausible=(5, 1))


PIECES = st.sampled_from(
    [
        *"0123456789 .,/+-'\"°%½⅜²④٣５′″’”−⁄\t\x00\x1b[=",
        "cm",
        "in",
        "ft",
        "kg",
        "lb",
        "oz",
        "deg",
        "teeth",
        "1/2",
    ]
)


@given(
    st.text(max_size=80) | st.lists(PIECES, max_size=12).map("".join),
    st.sampled_from(sorted(UNITS)),
    st.sampled_from([(10.0, 115.0), (0.0, 1.0), (-30.0, 60.0), (None, None), (0.5, None)]),
)
@example("9" * 60, "cm", (None, None))
@example("0/0", "cm", (10.0, 115.0))
@example("⅟", "in", (10.0, 115.0))
@example("ß'٣\"", "ft", (None, None))
def test_any_text_is_either_a_possible_reading_or_a_problem(
    text: str, unit: str, plausible: tuple[float | None, float | None]
) -> None:
    quantity = quantity_of(unit)
    low, high = plausible

    def sound(entry: Entry) -> None:
        assert math.isfinite(entry.canonical)
        assert entry.canonical >= (0.0 if low is None else low)
        assert high is None or entry.canonical <= high
        assert quantity_of(entry.unit) == quantity
        assert entry.text == text

    refused: EntryProblem | None = None
    try:
        sound(parse_entry(text, quantity=quantity, default_unit=unit, plausible=plausible))
    except EntryProblem as found:
        refused = found
    if refused is not None:
        assert refused.message
        assert refused.message.isprintable()
        for suggestion in refused.suggestions:
            sound(suggestion)


@given(
    st.decimals(0, 999, places=2),
    st.sampled_from(["cm", "mm", "in", "ft"]),
    st.sampled_from([".", ","]),
    st.sampled_from(["", " "]),
)
def test_what_is_written_is_what_is_read(number: object, unit: str, point: str, space: str) -> None:
    text = f"{number}".replace(".", point)
    entry = parse_entry(f"{text}{space}{unit}", quantity="length", default_unit="cm")
    assert entry.value == float(str(number))
    assert entry.canonical == convert(entry.value, unit, "cm")


@given(st.integers(0, 40), st.integers(1, 31), st.sampled_from([2, 4, 8, 16, 32]), st.sampled_from(" +-"))
def test_mixed_fractions_are_exact(whole: int, above: int, below: int, mark: str) -> None:
    if above >= below:
        above = below - 1
    entry = parse_entry(f"{whole}{mark}{above}/{below} in", quantity="length", default_unit="cm")
    assert entry.value == whole + above / below
