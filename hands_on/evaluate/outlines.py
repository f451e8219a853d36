"""A dog's side outline from its measurements, and the same dog with what the edition asks put in.

Pure; `tui` and HTML draw it. An outline shows proportions, it is no source of measurements.
"""

from __future__ import annotations

from dataclasses import dataclass

from hands_on.evaluate import Evaluation
from hands_on.evaluate.result import RuleResult
from hands_on.measure.outline import Outline, outline
from hands_on.measure.units import canonical_unit, convert, quantity_of
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Asked", "Brought", "asked_outline", "dog_outline", "outline_measures"]

Measures = dict[str, tuple[float, float]]


@dataclass(frozen=True)
class Brought:
    """A value outside its limit, and the nearest within it, in the unit of the limit."""

    rule: RuleResult
    to: float


@dataclass(frozen=True)
class Asked:
    """The dog with each measurement brought to the nearest that the edition asks for."""

    outline: Outline
    changed: tuple[Brought, ...]
    """What was brought where; empty where the dog is as asked as far as it was measured."""
    held: int
    """Limits that say something of the outline and were held against the dog."""


def outline_measures(evaluation: Evaluation) -> Measures:
    """Each measurement with its uncertainty in cm or degrees; of two sides the mean."""
    rows: dict[str, list[tuple[float, float]]] = {}
    for one in evaluation.measures:
        quantity = quantity_of(one.unit)
        if quantity in ("length", "angle"):
            unit = canonical_unit(quantity)
            rows.setdefault(one.id, []).append(
                (convert(one.value, one.unit, unit), convert(one.u, one.unit, unit))
            )
    return {
        name: (sum(value for value, _ in pairs) / len(pairs), max(u for _, u in pairs))
        for name, pairs in rows.items()
    }


def dog_outline(evaluation: Evaluation) -> Outline:
    """The outline of the dog as measured; empty when neither height nor body length was taken."""
    return outline(outline_measures(evaluation))


def asked_outline(ruleset: Ruleset, evaluation: Evaluation) -> Asked:
    """The outline that the edition would have of a dog of this size.

    What lies within what is asked stays as it is. A limit on the height comes first; a ratio to the height
    then moves the other measurement, any other ratio its first one.
    """
    own = outline_measures(evaluation)
    asked = dict(own)
    limits = {limit.id: limit for limit in ruleset.edition.limits}
    pairs = [(limits[one.id], one) for one in evaluation.rules if one.id in limits and _telling(one)]
    pairs.sort(key=lambda pair: (pair[0].measure != "height", pair[0].measure is None))
    changed: list[Brought] = []
    held = 0
    for limit, rule in pairs:
        if limit.measure is not None and limit.measure in own:
            name, wanted = limit.measure, _nearest(rule, rule.value or 0.0)
            if quantity_of(rule.unit) not in ("length", "angle"):
                continue
            unit = canonical_unit(quantity_of(rule.unit))
            held += 1
            if wanted != rule.value:
                asked[name] = (convert(wanted, rule.unit, unit), own[name][1])
                changed.append(Brought(rule, wanted))
        elif limit.ratio is not None:
            top, bottom = (member.measure for member in limit.ratio)
            if top is None or bottom is None or top not in own or bottom not in own:
                continue
            held += 1
            wanted = _nearest(rule, asked[top][0] / asked[bottom][0])
            if wanted == asked[top][0] / asked[bottom][0] or wanted <= 0:
                continue
            if top == "height":
                asked[bottom] = (asked[top][0] / wanted, own[bottom][1])
            else:
                asked[top] = (wanted * asked[bottom][0], own[top][1])
            if wanted != rule.value and _nearest(rule, rule.value or 0.0) != rule.value:
                changed.append(Brought(rule, wanted))
    return Asked(outline(asked), tuple(changed), held)


def _telling(rule: RuleResult) -> bool:
    return rule.value is not None and not rule.optional and (rule.low is not None or rule.high is not None)


def _nearest(rule: RuleResult, value: float) -> float:
    """The value itself where it lies within what is asked, else the nearer end."""
    if rule.low is not None and value < rule.low:
        return rule.low
    if rule.high is not None and value > rule.high:
        return rule.high
    return value
