"""Limits of two editions on the same value of the dog: where on the number line they do not say the same.

Numbers are compared in the first edition's unit; one inch is 2.54 cm, one pound 0.45359237 kg exactly
(see `measure.units`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import zip_longest

from hands_on.compare.editions.classing import class_key, classes_key, fault_classes, lacking_one
from hands_on.compare.editions.rule_pair import Difference, Lack, Lies, RulePair, Section, Stretch
from hands_on.evaluate.values import unit_of
from hands_on.measure.units import convert
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import Band, Limit, Range
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["lack", "limit_pair", "limits", "meanings", "no_limit", "unit_of_limit"]

_DECIMALS = 9
"""Numbers that agree so far are one number: 25.4 mm and 1 in."""


def limits(a: Ruleset, b: Ruleset) -> Section:
    """Every value that either edition limits, under the same condition, in the first edition's order."""
    pairs: list[RulePair] = []
    same = 0
    for name in dict.fromkeys(limit.name for rules in (a, b) for limit in rules.edition.limits):
        for first, second in _pairs(a, b, name):
            pair = limit_pair(a, b, first, second)
            if pair is None:
                same += 1
            else:
                pairs.append(pair)
    return Section("limits", tuple(pairs), same)


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


_NOT_LIMITED = Lies("not-limited", ("not-limited",))


def limit_pair(a: Ruleset, b: Ruleset, first: Limit | None, second: Limit | None) -> RulePair | None:
    """What `first` of edition `a` and `second` of `b` say of one value; None where they say the same.

    At most one of the two may be missing, for an edition that sets no such limit.
    """
    one = first or second
    if one is None:
        return None
    units = [unit_of_limit(rules, limit) if limit else "" for rules, limit in ((a, first), (b, second))]
    unit = units[0] or units[1]
    stretches = _stretches(a, b, first, second, unit, units[1] or unit)
    differs = _how(a, b, first, second, stretches, units)
    if not differs:
        return None
    return RulePair(
        "limit",
        one.name,
        first or no_limit(a, one),
        second or no_limit(b, one),
        differs,
        first.source if first is not None else (),
        second.source if second is not None else (),
        when=one.when,
        stretches=stretches,
    )


def _how(
    a: Ruleset,
    b: Ruleset,
    first: Limit | None,
    second: Limit | None,
    stretches: Sequence[Stretch],
    units: Sequence[str],
) -> tuple[Difference, ...]:
    if first is None or second is None:
        return lacking_one(first, second)
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


def meanings(ruleset: Ruleset, limit: Limit) -> tuple[Lies, ...]:
    """What it means under an edition that the value lies in each band of a limit."""
    return tuple(_lies(ruleset, band) for band in limit.bands)


def _weights(ruleset: Ruleset, limit: Limit) -> set[tuple[str, ...]]:
    return {lies.key[1:] for lies in meanings(ruleset, limit)}


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
    found: list[tuple[float, float, bool, bool, Lies, Lies]] = []
    for piece in pieces:
        says = _at(lines[0], piece), _at(lines[1], piece)
        before = found[-1] if found else None
        if before is not None and (before[4].key, before[5].key) == (says[0].key, says[1].key):
            found[-1] = (before[0], piece[1], before[2], piece[3], *says)
        else:
            found.append((*piece, *says))
    return tuple(
        Stretch(_finite(low), _finite(high), low_open, high_open, unit, other, one, two)
        for low, high, low_open, high_open, one, two in found
        if one.key != two.key
    )


_Part = tuple[float, float, bool, bool]


def _line(ruleset: Ruleset, limit: Limit, unit: str, wanted: str) -> list[tuple[_Part, Lies]]:
    """What a limit says, stretch by stretch, its numbers in the wanted unit."""
    line: list[tuple[_Part, Lies]] = []
    for part in _parts(limit):
        ends = (_end(part.low, unit, wanted), _end(part.high, unit, wanted), part.low_open, part.high_open)
        lies = _lies(ruleset, part) if isinstance(part, Band) else Lies("as-asked", ("asked",))
        line.append((ends, lies))
    return line


def _at(line: Sequence[tuple[_Part, Lies]], piece: _Part) -> Lies:
    low, high, low_open, _ = piece
    for (start, end, start_open, end_open), lies in line:
        above = low > start or (low == start and (low_open or not start_open))
        below = high < end or (high == end and (low_open or not end_open))
        if above and below:
            return lies
    return _NOT_LIMITED


def _lies(ruleset: Ruleset, band: Band) -> Lies:
    if band.value is not None:
        return Lies("sorted", ("value", band.value), label=band.label or band.value)
    if band.tolerated:
        return Lies("tolerated", ("tolerated",))
    if band.class_ is None and band.fault is not None:
        ruled = fault_classes(ruleset, band.fault)
        key = str(classes_key(ruled, ruleset))
        return Lies("departs", (band.fault, key), band.fault, band.label, ruled=ruled)
    clause = ruleset.edition.general_clause
    name = band.class_ or (clause.class_ if clause is not None else "unclassed")
    return Lies("departs", (band.fault or "", class_key(ruleset, name)), band.fault, band.label, name)


# --- numbers ----------------------------------------------------------------------------------------


def unit_of_limit(ruleset: Ruleset, limit: Limit) -> str:
    """The unit a limit's figures are in."""
    return limit.unit or unit_of(ruleset, limit)


def _end(value: float, unit: str, wanted: str) -> float:
    return (
        round(convert(value, unit, wanted), _DECIMALS) if math.isfinite(value) and unit != wanted else value
    )


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


# --- what is said where there is no rule ------------------------------------------------------------


def lack(ruleset: Ruleset, point: str) -> Lack:
    """Why an edition says nothing at a point: silent, not asked, or nothing of its own."""
    about = next((one.about for one in reversed(ruleset.edition.silent) if point in one.points), None)
    if about is not None:
        return Lack("silent", about)
    walked = any(point == one.id for one in ruleset.walk_points)
    return Lack("nothing-of-its-own" if walked else "not-asked")


def no_limit(ruleset: Ruleset, value: Value) -> Lack:
    """What an edition without a limit on a value says of its measurements."""
    said = [lack(ruleset, name) for name in value.measures]
    return next((one for one in said if one.kind == "silent"), Lack("no-limit"))
