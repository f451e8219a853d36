"""Readings: they can be read, their unit measures the quantity, and a dog can have them."""

from __future__ import annotations

from hands_on.exam.session import Take
from hands_on.measure import units
from hands_on.measure.asked_reading import Entry
from hands_on.measure.entry import EntryProblem, parse_entry
from hands_on.ruleset.points import QUANTITY_UNITS, MeasurePoint
from hands_on.toml_text.explain import listed
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["check_reading"]


def check_reading(report: Report, path: Path, take: Take, point: MeasurePoint) -> None:
    """One take at a measured point. A struck take is on record only and may be odd."""
    fitting = QUANTITY_UNITS[point.quantity]
    if take.unit is not None and take.unit not in fitting:
        what = f'"{take.unit}" does not measure {point.quantity}, which is what "{point.id}" is.'
        report.error((*path, "unit"), what, listed(f'"{unit}"' for unit in fitting) + ".")
        return
    if take.struck:
        return
    unit = take.unit or point.unit
    canonical = units.canonical_unit(point.quantity)
    low, high = (units.convert(end, point.unit, canonical) for end in point.plausible)
    try:
        if isinstance(take.value, str):
            parse_entry(take.value, quantity=point.quantity, default_unit=unit, plausible=(low, high))
        else:
            _check_number(take.value, unit, point, low, high)
    except EntryProblem as problem:
        meant = listed(_written(entry) for entry in problem.suggestions)
        right = f"{meant}?" if meant else _possible(point)
        report.error((*path, "value"), f'the reading of "{point.id}" is odd: {problem.message}', right)


def _check_number(value: float, unit: str, point: MeasurePoint, low: float, high: float) -> None:
    """Raises EntryProblem as a typed reading would."""
    try:
        figure = units.convert(value, unit, units.canonical_unit(point.quantity))
    except ValueError as error:
        raise EntryProblem("unreadable", f"{value} is no number.") from error
    if low <= figure <= high and (point.quantity != "count" or figure.is_integer()):
        return
    text = f"{value:f}".rstrip("0").rstrip(".") if value % 1 else f"{value:.0f}"
    parse_entry(text, quantity=point.quantity, default_unit=unit, plausible=(low, high))


def _possible(point: MeasurePoint) -> str:
    low, high = point.plausible
    return f"a reading from {low:g} to {high:g} {point.unit}."


def _written(entry: Entry) -> str:
    return f'value = {entry.value:g} with unit = "{entry.unit}"'
