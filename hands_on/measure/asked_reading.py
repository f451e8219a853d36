"""What one reading may be: the value, what is possible where it is asked, what a slip may have meant."""

from __future__ import annotations

from dataclasses import field
from fractions import Fraction

from hands_on.frozen import dataclass
from hands_on.measure import units

__all__ = ["AskedReading", "Entry", "Number"]


@dataclass(frozen=True)
class Entry:
    """One reading: the value in the unit it was given in, and the same in the canonical unit."""

    value: float
    unit: str
    canonical: float
    canonical_unit: str
    text: str


@dataclass(frozen=True)
class Number:
    """A number as typed, in the unit beside it."""

    value: Fraction
    text: str
    plain: bool
    """Written as one decimal number, so a slipped decimal sign is a likely mistake."""
    unit_typed: bool = False


@dataclass(frozen=True)
class AskedReading:
    """What is asked for: kind, unit to assume, and what is possible, in the canonical unit."""

    text: str
    quantity: str
    default_unit: str
    low: float | None
    high: float | None
    canonical: str = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "canonical", units.canonical_unit(self.quantity))

    def entry(self, value: Fraction, unit: str) -> Entry:
        """The reading of so many of a unit."""
        return Entry(
            float(value), unit, units.convert(value, unit, self.canonical), self.canonical, self.text
        )

    def possible(self, entry: Entry) -> bool:
        """Within what is possible, and whole where it is counted."""
        whole = self.quantity != "count" or entry.canonical.is_integer()
        above = (self.low is None and entry.canonical >= 0) or (
            self.low is not None and entry.canonical >= self.low
        )
        return whole and above and (self.high is None or entry.canonical <= self.high)

    def fitting(self, *readings: tuple[Fraction, str]) -> tuple[Entry, ...]:
        """The readings that are possible, each canonical value once."""
        found: list[Entry] = []
        for value, unit in readings:
            entry = self.entry(value, unit)
            known = any(abs(entry.canonical - other.canonical) < 1e-9 for other in found)
            if self.possible(entry) and not known:
                found.append(entry)
        return tuple(found)

    def slips(self, number: Number, unit: str) -> tuple[Entry, ...]:
        """What may have been meant: a slipped decimal sign, or the same number in another unit.

        Where inches, feet or pounds are only assumed, the metric reading comes first.
        """
        factors = (Fraction(1, 10), Fraction(10), Fraction(1, 100), Fraction(100)) if number.plain else ()
        others = [name for name in units.units_of(self.quantity) if name != unit]
        slipped = [(number.value * factor, unit) for factor in factors]
        other = [(number.value, name) for name in others]
        if unit in ("in", "ft", "lb") and not number.unit_typed:
            return self.fitting(*other[:1], *slipped, *other[1:])
        return self.fitting(*slipped, *other)

    def range_text(self, unit: str) -> str:
        """What is possible, in this unit, for an error."""
        low = 0.0 if self.low is None else units.convert(self.low, self.canonical, unit)
        if self.high is None:
            return f"{units.format_value(low, unit, None)} and more"
        high = units.convert(self.high, self.canonical, unit)
        return f"{_short(low)} to {units.format_value(high, unit, 0 if high >= 10 else 1)}"


def _short(number: float) -> str:
    return f"{number:.0f}" if abs(number) >= 10 else f"{number:.2g}"
