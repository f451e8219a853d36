"""Limits of two editions on the same value of the dog: where on the number line they do not say the same.

Numbers are compared in the first edition's unit; one inch is 2.54 cm, one pound 0.45359237 kg exactly
(see `measure.units`).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from hands_on.compare.editions.classing import class_key, profile
from hands_on.compare.editions.rows import Difference, Row, Section, Stretch
from hands_on.evaluate.values import describe, unit_of
from hands_on.measure.units import convert
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import Band, Limit, Range, Value
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import class_words, condition_words, range_words

_SHARE = "share"

_DECIMALS = 9
"""Numbers that agree so far are one number: 25.4 mm and 1 in."""

_SHOWN = 2
"""Decimals of a converted figure."""


def limits(a: Ruleset, b: Ruleset) -> Section:
    """Every value that either edition limits, under the same condition, in the first edition's order."""
    rows: list[Row] = []
    same = 0
    for name in dict.fromkeys(limit.name for rules in (a, b) for limit in rules.edition.limits):
        for first, second in _pairs(a, b, name):
            row = limit_row(a, b, first, second)
            if row is None:
                same += 1
            else:
                rows.append(row)
    return Section("limits", "Measured", tuple(rows), same)


def asked_words(ruleset: Ruleset, limit: Limit, unit: str = "") -> str:
    """What a limit asks for: `25 to 27 in (63.5 to 68.58 cm)`, converted where `unit` is another one."""
    if limit.classifies is not None or limit.asked is None:
        return f"sorts by {limit.classifies}"
    about = "about " if limit.about else ""
    ideal = ", an ideal" if limit.ideal else ""
    return about + _both_units(limit.asked, _unit(ruleset, limit), unit) + ideal


# --- which limits belong together -------------------------------------------------------------------


def _pairs(a: Ruleset, b: Ruleset, name: str) -> list[tuple[Limit | None, Limit | None]]:
    """The limits on one value in both editions, by condition.

    Where one edition tells the sexes apart and the other does not, its limit stands for each sex.
    """
    found = [[limit for limit in rules.edition.limits if limit.name == name] for rules in (a, b)]
    sexes = any(limit.when is not None and limit.when.sex for group in found for limit in group)
    tables: list[dict[tuple[str, ...], list[Limit]]] = [{}, {}]
    for table, group in zip(tables, found, strict=True):
        for limit in group:
            for one in _by_sex(limit) if sexes else [limit]:
                table.setdefault(_key(one), []).append(one)
    pairs: list[tuple[Limit | None, Limit | None]] = []
    for key in dict.fromkeys([*tables[0], *tables[1]]):
        pairs += zip_longest(tables[0].get(key, []), tables[1].get(key, []))
    return pairs


def _by_sex(limit: Limit) -> list[Limit]:
    when = limit.when or When()
    if when.sex is not None:
        return [limit]
    return [
        limit.model_copy(update={"when": when.model_copy(update={"sex": sex})}) for sex in ("male", "female")
    ]


def _key(limit: Limit) -> tuple[str, ...]:
    condition = limit.when.model_dump_json(exclude_defaults=True) if limit.when is not None else ""
    return condition, limit.classifies or "", str(limit.optional), str(limit.ideal)


# --- one pair ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Lies:
    """What it means to lie in a stretch."""

    key: tuple[str, ...]
    words: str


_NOT_LIMITED = _Lies(("not-limited",), "not limited")


def limit_row(a: Ruleset, b: Ruleset, first: Limit | None, second: Limit | None) -> Row | None:
    """What `first` of edition `a` and `second` of `b` say of one value; None where they say the same.

    At most one of the two may be missing, for an edition that sets no such limit.
    """
    one = first or second
    if one is None:
        return None
    units = [_unit(rules, limit) if limit else "" for rules, limit in ((a, first), (b, second))]
    unit = units[0] or units[1]
    stretches = _stretches(a, b, first, second, unit, units[1] or unit)
    differs = _how(a, b, first, second, stretches, units)
    if not differs:
        return None
    home = a if first is not None else b
    return Row(
        "limit",
        one.name,
        describe(home, one),
        condition_words(home, one.when),
        _words(a, first, units[1]) or no_limit(a, one),
        _words(b, second, units[0]) or no_limit(b, one),
        differs,
        ", ".join(first.source) if first else "",
        ", ".join(second.source) if second else "",
        stretches,
    )


def _how(
    a: Ruleset,
    b: Ruleset,
    first: Limit | None,
    second: Limit | None,
    stretches: Sequence[Stretch],
    units: Sequence[str],
) -> tuple[Difference, ...]:
    if second is None:
        return ("only-a",)
    if first is None:
        return ("only-b",)
    found: list[Difference] = []
    figures = [_figures(limit, unit, units[0]) for limit, unit in ((first, units[0]), (second, units[1]))]
    if figures[0] != figures[1]:
        found.append("figures")
    if any(one.low is not None and one.low == one.high for one in stretches):
        found.append("ends")
    if units[0] != units[1]:
        found.append("unit")
    if stretches and _weights(a, first) != _weights(b, second):
        found.append("class")
    faults = [{band.fault for band in limit.bands} for limit in (first, second)]
    if stretches and faults[0] != faults[1]:
        found.append("fault")
    if (first.about, first.from_age) != (second.about, second.from_age):
        found.append("words")
    return tuple(found)


def _figures(limit: Limit, unit: str, wanted: str) -> set[float]:
    return {
        end for part in _parts(limit) for end in (_end(part.low, unit, wanted), _end(part.high, unit, wanted))
    }


def _weights(ruleset: Ruleset, limit: Limit) -> set[tuple[str, ...]]:
    return {_lies(ruleset, band).key[1:] for band in limit.bands}


def _parts(limit: Limit) -> list[Range]:
    return [*([limit.asked] if limit.asked is not None else []), *limit.bands]


# --- the number line --------------------------------------------------------------------------------


def _stretches(
    a: Ruleset, b: Ruleset, first: Limit | None, second: Limit | None, unit: str, other: str
) -> tuple[Stretch, ...]:
    """Where the two limits do not say the same, from the lowest value up."""
    if first is None or second is None:
        return ()
    lines = [_line(a, first, unit, unit), _line(b, second, other, unit)]
    marks = sorted({end for line in lines for part, _ in line for end in part[:2] if math.isfinite(end)})
    pieces: list[tuple[float, float, bool, bool]] = []
    for low, high in zip([-math.inf, *marks], [*marks, math.inf], strict=True):
        pieces.append((low, high, True, True))
        if math.isfinite(high):
            pieces.append((high, high, False, False))
    found: list[tuple[float, float, bool, bool, _Lies, _Lies]] = []
    for piece in pieces:
        says = _at(lines[0], piece), _at(lines[1], piece)
        before = found[-1] if found else None
        if before is not None and (before[4].key, before[5].key) == (says[0].key, says[1].key):
            found[-1] = (before[0], piece[1], before[2], piece[3], *says)
        else:
            found.append((*piece, *says))
    shown = "" if unit == _SHARE else unit
    return tuple(
        Stretch(
            _finite(low), _finite(high), low_open, high_open, shown,
            _both_units(_range(low, high, low_open, high_open), unit, other), one.words, two.words,
        )
        for low, high, low_open, high_open, one, two in found
        if one.key != two.key
    )  # fmt: skip


_Part = tuple[float, float, bool, bool]


def _line(ruleset: Ruleset, limit: Limit, unit: str, wanted: str) -> list[tuple[_Part, _Lies]]:
    """What a limit says, stretch by stretch, its numbers in the wanted unit."""
    line: list[tuple[_Part, _Lies]] = []
    for part in _parts(limit):
        ends = (_end(part.low, unit, wanted), _end(part.high, unit, wanted), part.low_open, part.high_open)
        lies = _lies(ruleset, part) if isinstance(part, Band) else _Lies(("asked",), "as asked")
        line.append((ends, lies))
    return line


def _at(line: Sequence[tuple[_Part, _Lies]], piece: _Part) -> _Lies:
    low, high, low_open, _ = piece
    for (start, end, start_open, end_open), lies in line:
        above = low > start or (low == start and (low_open or not start_open))
        below = high < end or (high == end and (low_open or not end_open))
        if above and below:
            return lies
    return _NOT_LIMITED


def _lies(ruleset: Ruleset, band: Band) -> _Lies:
    if band.value is not None:
        return _Lies(("value", band.value), band.label or band.value)
    if band.tolerated:
        return _Lies(("tolerated",), "out of the range, tolerated")
    named = ruleset.label(band.fault).lower() if band.fault else band.label
    named += ", " if named else ""
    if band.class_ is None and band.fault is not None:
        ruled = profile(ruleset, band.fault)
        return _Lies((band.fault, str(ruled.key(ruleset))), named + ruled.words(ruleset))
    clause = ruleset.edition.general_clause
    name = band.class_ or (clause.class_ if clause is not None else "unclassed")
    return _Lies((band.fault or "", class_key(ruleset, name)), named + class_words(ruleset, name))


# --- numbers and words ------------------------------------------------------------------------------


def _unit(ruleset: Ruleset, limit: Limit) -> str:
    return limit.unit or unit_of(ruleset, limit)


def _end(value: float, unit: str, wanted: str) -> float:
    return (
        round(convert(value, unit, wanted), _DECIMALS) if math.isfinite(value) and unit != wanted else value
    )


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _range(low: float, high: float, low_open: bool, high_open: bool) -> Range:
    """The stretch as the format has it; not checked, since a single number may stand open."""
    return Range.model_construct(
        from_=None if low_open or low == -math.inf else low,
        above=low if low_open and low != -math.inf else None,
        to=None if high_open or high == math.inf else high,
        below=high if high_open and high != math.inf else None,
    )


def _both_units(part: Range, unit: str, other: str) -> str:
    """A stretch in its unit, and in the other one behind it where that is another."""
    text = range_words(_rounded(part, unit, unit), _shown(unit))
    if not other or other == unit or _SHARE in (unit, other):
        return text
    return f"{text} ({range_words(_rounded(part, unit, other), _shown(other))})"


def _rounded(part: Range, unit: str, wanted: str) -> Range:
    if unit == wanted:
        ends = (part.low, part.high)
        decimals = 4
    else:
        ends = (_end(part.low, unit, wanted), _end(part.high, unit, wanted))
        decimals = _SHOWN
    low, high = (round(end, decimals) if math.isfinite(end) else end for end in ends)
    return _range(low, high, part.low_open, part.high_open)


def _shown(unit: str) -> str:
    return "" if unit == _SHARE else f" {unit}"


def lack(ruleset: Ruleset) -> Callable[[str], str]:
    """Why an edition says nothing at a point, in words: silent, not asked, or nothing of its own."""
    silent = {point: one.about for one in ruleset.edition.silent for point in one.points}
    walk = {point.id for point in ruleset.walk_points}

    def words(point: str) -> str:
        if point in silent:
            return f"silent: {silent[point]}"
        return "nothing of its own" if point in walk else "not asked"

    return words


def no_limit(ruleset: Ruleset, value: Value) -> str:
    """What an edition without a limit on a value says of its measurements."""
    said = [lack(ruleset)(name) for name in value.measures]
    return next((text for text in said if text.startswith("silent")), "no limit")


def _words(ruleset: Ruleset, limit: Limit | None, other: str) -> str:
    """The whole limit in one statement, in both units; empty where there is none."""
    if limit is None:
        return ""
    unit = _unit(ruleset, limit)
    parts = [asked_words(ruleset, limit, other)]
    if limit.words:
        parts[0] += f" ({limit.words.rstrip('.')})"
    parts += [f"{_both_units(band, unit, other)}: {_lies(ruleset, band).words}" for band in limit.bands]
    if limit.from_age is not None:
        parts.append(f"from {limit.from_age:g} months")
    if limit.optional:
        parts.append("practice beside the standard, never counted")
    return "; ".join(parts)
