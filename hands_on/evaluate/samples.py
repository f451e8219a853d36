"""Three dogs for each limit of an edition, at, inside and outside it, and what the edition says of them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Literal

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.frozen import dataclass
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.rules import Band, Limit, Range
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["Sample", "samples"]

Where = Literal["inside", "at", "tolerated", "outside"]
_TRIES = 14
"""How often the way from an end is made half as long again, until no doubt is left in measuring."""


@dataclass(frozen=True)
class Sample:
    """A dog made up for one limit: the value measured without error three times, and what comes of it."""

    limit: Limit
    where: Where
    value: float
    verdict: str
    cls: str | None
    """Class of the departure that the limit finds; None where it finds none."""
    belongs: bool = True
    """Whether a value at an end is one that is asked for or tolerated."""
    band: str = ""
    """The named stretch that a limit which sorts puts it in; empty where it is sure of none."""


@dataclass(frozen=True)
class _Stretch:
    """A piece of the number line without an end of the limit within it."""

    low: float
    high: float
    where: Where


def samples(ruleset: Ruleset) -> Iterator[Sample]:
    """Dogs in each stretch of each limit that judges one value, a ratio or a difference, and at each end.

    Beyond the outermost ends it is the nearest dog of which the measure's uncertainty leaves no doubt.
    """
    for limit in ruleset.edition.limits:
        for stretch in _stretches(limit):
            sample = _in_stretch(ruleset, limit, stretch)
            if sample is not None:
                yield sample
            if math.isfinite(stretch.high):
                yield from _at(ruleset, limit, stretch.high)


def _in_stretch(ruleset: Ruleset, limit: Limit, stretch: _Stretch) -> Sample | None:
    if math.isfinite(stretch.low) and math.isfinite(stretch.high):
        return _sample(ruleset, limit, stretch.where, (stretch.low + stretch.high) / 2)
    end, way = (stretch.low, 1) if math.isfinite(stretch.low) else (stretch.high, -1)
    wanted = "outside" if stretch.where == "outside" else "inside"
    step = max(abs(end) * 0.01, 0.005 if limit.ratio else 0.1)
    found = None
    for _ in range(_TRIES):
        value = end + way * step
        if value <= 0 < end:
            break
        tried = _sample(ruleset, limit, stretch.where, value)
        if tried is None or tried.verdict == "not-measured":  # no dog has such a value
            break
        found = tried
        if found.verdict == wanted:
            break
        step *= 1.5
    return found


def _at(ruleset: Ruleset, limit: Limit, end: float) -> Iterator[Sample]:
    asked = limit.asked
    inner = next((one for one in (asked, *limit.bands) if one is not None and _free(one, asked, end)), None)
    found = _sample(ruleset, limit, "at", end)
    if found is not None:
        yield replace(found, belongs=inner is not None)


def _free(one: Range, asked: Range | None, end: float) -> bool:
    """Whether `end` is one that belongs to `one`, which is asked or tolerated."""
    free = one is asked or (isinstance(one, Band) and (one.tolerated or one.value is not None))
    return free and ((one.low == end and not one.low_open) or (one.high == end and not one.high_open))


def _sample(ruleset: Ruleset, limit: Limit, where: Where, value: float) -> Sample | None:
    takes = _takes(ruleset, limit, value)
    if takes is None:
        return None
    result = evaluate(ruleset, _session(ruleset, limit, takes))
    given = next((rule for rule in result.rules if rule.id == limit.id), None)
    if given is None:
        return None
    faults = {band.fault for band in limit.bands if band.fault}
    found = [one.cls for one in result.findings if one.id in faults]
    named = given.band if limit.classifies and given.band else ""
    return Sample(limit, where, value, given.verdict, found[0] if found else None, band=named)


def _stretches(limit: Limit) -> list[_Stretch]:
    """The stretches of the number line that the ends of what is asked and of the bands make, from below."""
    held = [one for one in (limit.asked, *limit.bands) if one is not None]
    ends = sorted({end for one in held for end in (one.low, one.high) if math.isfinite(end)})
    out: list[_Stretch] = []
    for low, high in itertools.pairwise([-math.inf, *ends, math.inf]):
        middle = (low + high) / 2 if math.isfinite(low) and math.isfinite(high) else None
        inner = middle if middle is not None else (high - 1e-9 if math.isfinite(high) else low + 1e-9)
        if low == -math.inf and high <= 0:
            continue
        out.append(_Stretch(low, high, _where(limit, inner)))
    return out


def _where(limit: Limit, value: float) -> Where:
    asked = limit.asked
    if asked is not None and asked.low < value < asked.high:
        return "inside"
    if any(band.value and band.low < value < band.high for band in limit.bands):
        return "inside"
    if any(band.tolerated and band.low < value < band.high for band in limit.bands):
        return "tolerated"
    return "outside"


def _takes(ruleset: Ruleset, limit: Limit, value: float) -> list[dict[str, Any]] | None:
    if limit.measure is not None:
        return _three(limit.measure, value, limit.unit)
    pair = limit.ratio or limit.difference
    if pair is None or any(member.measure is None for member in pair):
        return None
    first, second = pair
    base = _middle(ruleset, second)
    if base is None or first.measure is None or second.measure is None:
        return None
    top = base * value if limit.ratio else base + value
    unit = None if limit.ratio else limit.unit
    return [*_three(first.measure, top, unit), *_three(second.measure, base, unit)]


def _three(point: str, value: float, unit: str | None) -> list[dict[str, Any]]:
    row: dict[str, Any] = {"point": point, "value": round(value, 2)}
    return [row | ({"unit": unit} if unit else {})] * 3


def _middle(ruleset: Ruleset, value: Value) -> float | None:
    """A plausible length: what the edition asks, or else the geometric middle of what any dog has."""
    for limit in ruleset.edition.limits:
        asked = limit.asked
        if limit.measure == value.measure and asked and asked.low > 0 and asked.high < 1000:
            return (asked.low + asked.high) / 2
    point = ruleset.points.get(value.measure or "")
    if not isinstance(point, MeasurePoint) or point.plausible is None:
        return None
    low, high = point.plausible
    return math.sqrt(max(low, 0.5) * high)


def _session(ruleset: Ruleset, limit: Limit, takes: list[dict[str, Any]]) -> Session:
    when = limit.when
    dog: dict[str, Any] = {"born": "2020-01-01"}
    if when is not None:
        if when.sex:
            dog["sex"] = when.sex
        dog["attributes"] = {name: words[0] for name, words in when.attributes.items()}
    head = {"ruleset": {"id": ruleset.id}, "dog": dog, "takes": takes}
    return Session.model_validate(head | {"examination": {"started": "2024-06-01T09:00:00Z"}})
