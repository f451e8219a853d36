"""Units of the quantities taken at the table, and exact conversion between them.

Conversion goes through fractions: one inch is 2.54 cm and one pound 0.45359237 kg exactly
(international yard and pound agreement of 1959; NIST Special Publication 811, appendix B.8).
A float is read as the decimal it prints as, so ``convert(25.4, "mm", "in")`` is 1.0 and not
something beside it.
"""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

from hands_on.frozen import dataclass

__all__ = [
    "CANONICAL",
    "UNITS",
    "Unit",
    "canonical_unit",
    "convert",
    "decimals_for",
    "format_measured",
    "format_value",
    "quantity_of",
    "to_fraction",
    "unit_named",
    "units_of",
]

Number = int | float | Fraction | Decimal


@dataclass(frozen=True)
class Unit:
    """A unit: its symbol, what kind of quantity it measures, how much of the canonical unit it is."""

    symbol: str
    quantity: str
    factor: Fraction
    name: str


_INCH = Fraction(254, 100)
_POUND = Fraction(45359237, 100_000_000)

UNITS: dict[str, Unit] = {
    unit.symbol: unit
    for unit in (
        Unit("cm", "length", Fraction(1), "centimetres"),
        Unit("mm", "length", Fraction(1, 10), "millimetres"),
        Unit("in", "length", _INCH, "inches"),
        Unit("ft", "length", 12 * _INCH, "feet"),
        Unit("kg", "mass", Fraction(1), "kilograms"),
        Unit("g", "mass", Fraction(1, 1000), "grams"),
        Unit("lb", "mass", _POUND, "pounds"),
        Unit("deg", "angle", Fraction(1), "degrees"),
        Unit("count", "count", Fraction(1), "a number"),
        Unit("teeth", "count", Fraction(1), "teeth"),
        Unit("share", "share", Fraction(1), "a share"),
        Unit("%", "share", Fraction(1, 100), "per cent"),
    )
}

CANONICAL: dict[str, str] = {
    "length": "cm",
    "mass": "kg",
    "angle": "deg",
    "count": "count",
    "share": "share",
}
"""The unit each quantity is computed in."""


def unit_named(symbol: str) -> Unit:
    """The unit with this symbol. Raises ValueError for a symbol that is not known."""
    try:
        return UNITS[symbol]
    except KeyError:
        raise ValueError(f"unknown unit {symbol!r}; known are {', '.join(UNITS)}") from None


def quantity_of(symbol: str) -> str:
    """``length``, ``mass``, ``angle``, ``count`` or ``share``. Raises ValueError if unknown."""
    return unit_named(symbol).quantity


def canonical_unit(quantity: str) -> str:
    """The unit a quantity is computed in. Raises ValueError for an unknown quantity."""
    try:
        return CANONICAL[quantity]
    except KeyError:
        raise ValueError(f"unknown quantity {quantity!r}; known are {', '.join(CANONICAL)}") from None


def units_of(quantity: str) -> tuple[str, ...]:
    """The symbols of all units of a quantity, the canonical one first."""
    canonical_unit(quantity)
    return tuple(unit.symbol for unit in UNITS.values() if unit.quantity == quantity)


def to_fraction(value: Number) -> Fraction:
    """The number as a fraction; a float as the decimal it prints as. Raises ValueError if not finite."""
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{value} is not a finite number")
        return Fraction(repr(value))
    return Fraction(value)


def convert(value: Number, unit: str, to: str) -> float:
    """``value`` in ``unit`` expressed in ``to``, rounded once, at the end.

    Raises ValueError for an unknown unit, for two units of different kinds and for a number that
    is not finite.
    """
    source, target = unit_named(unit), unit_named(to)
    if source.quantity != target.quantity:
        raise ValueError(f"{unit} is a unit of {source.quantity}, {to} one of {target.quantity}")
    if source is target and isinstance(value, float) and math.isfinite(value):
        return value
    return float(to_fraction(value) * source.factor / target.factor)


_AFTER = {"deg": "°", "count": "", "share": "", "%": " %"}


def format_value(value: float, unit: str, digits: int | None = None) -> str:
    """A value with its unit for people: ``64.5 cm``, ``98°``, ``42 teeth``, ``0.45``.

    ``digits`` is the number of decimals; None prints as many as the value has, three at most.
    Raises ValueError for an unknown unit.
    """
    unit_named(unit)
    if digits is None:
        text = f"{value:.3f}".rstrip("0").rstrip(".")
    else:
        text = f"{value:.{digits}f}"
    if text.startswith("-") and not text.strip("-0."):
        text = text[1:]
    return text + _AFTER.get(unit, f" {unit}")


def decimals_for(u: float) -> int:
    """How many decimals a value deserves: one significant digit of ``u``, two where the first is 1.

    At most two significant digits of an uncertainty are worth printing (JCGM 100:2008, 7.2.6).
    """
    if u <= 0 or not math.isfinite(u):
        return 1
    exponent = math.floor(math.log10(u))
    leading = round(u / 10**exponent, 9)
    if leading >= 9.5:
        exponent, leading = exponent + 1, 1.0
    return min(6, max(0, -exponent + (1 if leading < 1.95 else 0)))


def format_measured(value: float, u: float, unit: str) -> str:
    """A value with its standard uncertainty: ``71.5 ± 0.4 cm``; without the second part when u is 0."""
    if u <= 0:
        return format_value(value, unit)
    digits = decimals_for(u)
    return f"{value:.{digits}f} ± {format_value(u, unit, digits)}"
