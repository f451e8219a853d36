"""Units: exact definitions (international yard and pound, 1959; NIST SP 811, B.8) and printing."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.measure import units


@pytest.mark.parametrize(
    ("value", "unit", "to", "wanted"),
    [
        (1, "in", "cm", 2.54),
        (1, "ft", "cm", 30.48),
        (1, "lb", "kg", 0.45359237),
        (0.1, "in", "cm", 0.254),
        (25.4, "mm", "in", 1.0),
        (1250, "g", "kg", 1.25),
        (Fraction(203, 8), "in", "cm", 64.4525),  # 25 3/8 in
        (45, "%", "share", 0.45),
        (42, "teeth", "count", 42.0),
    ],
)
def test_conversion_is_exact(value: float, unit: str, to: str, wanted: float) -> None:
    assert units.convert(value, unit, to) == wanted


@pytest.mark.parametrize("unit", list(units.UNITS))
@given(value=st.decimals(-10_000, 10_000, places=3))
def test_a_value_survives_the_way_through_the_canonical_unit(unit: str, value: object) -> None:
    number = float(str(value))
    canonical = units.canonical_unit(units.quantity_of(unit))
    back = units.convert(units.convert(number, unit, canonical), canonical, unit)
    assert back == pytest.approx(number, rel=1e-14, abs=1e-14)


def test_kinds_do_not_mix_and_unknown_units_are_refused() -> None:
    with pytest.raises(ValueError, match="length"):
        units.convert(1, "cm", "kg")
    with pytest.raises(ValueError, match="unknown unit"):
        units.convert(1, "ell", "cm")
    with pytest.raises(ValueError, match="unknown quantity"):
        units.canonical_unit("time")
    with pytest.raises(ValueError, match="finite"):
        units.convert(math.inf, "cm", "in")


def test_each_quantity_has_its_units() -> None:
    assert units.units_of("length") == ("cm", "mm", "in", "ft")
    assert units.units_of("mass") == ("kg", "g", "lb")


@pytest.mark.parametrize(
    ("value", "unit", "digits", "wanted"),
    [
        (64.5, "cm", None, "64.5 cm"),
        (64.0, "cm", None, "64 cm"),
        (64.0, "cm", 1, "64.0 cm"),
        (98.25, "deg", 0, "98°"),
        (42, "teeth", None, "42 teeth"),
        (42, "count", None, "42"),
        (0.45, "share", 2, "0.45"),
        (45, "%", None, "45 %"),
        (-0.04, "cm", 1, "0.0 cm"),
        (-0.5, "deg", 1, "-0.5°"),
    ],
)
def test_values_are_printed_for_people(value: float, unit: str, digits: int | None, wanted: str) -> None:
    assert units.format_value(value, unit, digits) == wanted


@pytest.mark.parametrize(
    ("value", "u", "unit", "wanted"),
    [
        (71.5, 0.4, "cm", "71.5 ± 0.4 cm"),
        (60.0, 0.538, "cm", "60.0 ± 0.5 cm"),
        (30.0, 0.158, "kg", "30.00 ± 0.16 kg"),
        (98.24, 4.65, "deg", "98 ± 5°"),
        (98.24, 0.096, "deg", "98.24 ± 0.10°"),
        (1.1, 0.019, "share", "1.100 ± 0.019"),
        (42, 0.0, "teeth", "42 teeth"),
    ],
)
def test_an_uncertainty_is_printed_with_one_or_two_digits(
    value: float, u: float, unit: str, wanted: str
) -> None:
    """At most two significant digits of u (JCGM 100:2008, 7.2.6, from memory)."""
    assert units.format_measured(value, u, unit) == wanted
