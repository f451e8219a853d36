"""Three dogs for each limit of an edition, at, inside and outside it, and what the edition says of them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, Literal

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.frozen import dataclass
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value

__all__ = ["Sample", "samples"]

Where = Literal["inside", "at", "outside"]


@dataclass(frozen=True)
class Sample:
    """A dog made up for one limit: the value measured without error three times, and what comes of it."""

    limit: Limit
    where: Where
    value: float
    verdict: str
    cls: str | None
    """Class of the departure that the limit finds; None where it finds none."""


def samples(ruleset: Ruleset) -> Iterator[Sample]:
    """Dogs at, inside and outside each limit that judges one value, a ratio or a difference."""
    for limit in ruleset.edition.limits:
        for where, value in _values(limit):
            takes = _takes(ruleset, limit, value)
            if takes is None:
                continue
            result = evaluate(ruleset, _session(ruleset, limit, takes))
            given = next((rule for rule in result.rules if rule.id == limit.id), None)
            if given is None:
                continue
            faults = {band.fault for band in limit.bands if band.fault}
            found = [one.cls for one in result.findings if one.id in faults]
            yield Sample(limit, where, value, given.verdict, found[0] if found else None)


def _values(limit: Limit) -> list[tuple[Where, float]]:
    asked = limit.asked
    if asked is None:
        return []
    low = next((end for end in (asked.from_, asked.above) if end is not None), None)
    high = next((end for end in (asked.to, asked.below) if end is not None), None)
    if low is not None and high is not None:
        step = max((high - low) / 2, abs(high) * 0.08)
        return [("inside", (low + high) / 2), ("at", low), ("outside", low - step), ("outside", high + step)]
    end = low if low is not None else high
    if end is None:
        return []
    step = max(abs(end) * 0.15, 0.5 if abs(end) > 3 else abs(end) * 0.15)
    way = 1 if low is not None else -1
    return [("inside", end + way * step), ("at", end), ("outside", end - way * step)]


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
