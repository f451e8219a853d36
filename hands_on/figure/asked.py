"""The dog as its edition would have it: each measurement at the nearest that is asked, nothing departing."""

from __future__ import annotations

from hands_on.evaluate import Evaluation
from hands_on.evaluate.result import RuleResult
from hands_on.figure.drawn import Figure, figure_of, measures_of, sex_of
from hands_on.frozen import dataclass
from hands_on.measure.units import canonical_unit, convert, quantity_of
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Asked", "Brought", "asked_figure"]


@dataclass(frozen=True)
class Brought:
    """A value outside its limit, and the nearest within it, in the unit of the limit."""

    rule: RuleResult
    to: float


@dataclass(frozen=True)
class Asked:
    """The dog brought to what is asked."""

    figure: Figure
    changed: tuple[Brought, ...]
    """What was brought where; empty where the dog is as asked as far as it was measured."""
    held: int
    """Limits that say something of the figure and were held against the dog."""


def asked_figure(ruleset: Ruleset, evaluation: Evaluation) -> Asked:
    """The figure that the edition would have of a dog of this size.

    What lies within what is asked stays as it is. A limit on the height comes first; a ratio to the height
    then moves the other measurement, any other ratio its first one.
    """
    own = measures_of(evaluation)
    asked = dict(own)
    limits = {limit.id: limit for limit in ruleset.edition.limits}
    pairs = [(limits[one.id], one) for one in evaluation.rules if one.id in limits and _telling(one)]
    pairs.sort(key=lambda pair: (pair[0].measure != "height", pair[0].measure is None))
    changed: list[Brought] = []
    held = 0
    for limit, rule in pairs:
        value = rule.value or 0.0
        if limit.measure is not None and limit.measure in own:
            if quantity_of(rule.unit) not in ("length", "angle"):
                continue
            unit = canonical_unit(quantity_of(rule.unit))
            held += 1
            wanted = _nearest(rule, value)
            if wanted != value:
                asked[limit.measure] = (convert(wanted, rule.unit, unit), own[limit.measure][1])
                changed.append(Brought(rule, wanted))
        elif limit.ratio is not None:
            top, bottom = (member.measure for member in limit.ratio)
            if top is None or bottom is None or top not in own or bottom not in own:
                continue
            held += 1
            share = asked[top][0] / asked[bottom][0]
            wanted = _nearest(rule, share)
            if wanted == share or wanted <= 0:
                continue
            if top == "height":
                asked[bottom] = (asked[top][0] / wanted, own[bottom][1])
            else:
                asked[top] = (wanted * asked[bottom][0], own[top][1])
            if wanted != value and _nearest(rule, value) != value:
                changed.append(Brought(rule, wanted))
    figure = figure_of(ruleset, asked, sex=sex_of(evaluation), examined=True)
    return Asked(figure, tuple(changed), held)


def _telling(rule: RuleResult) -> bool:
    return rule.value is not None and not rule.optional and (rule.low is not None or rule.high is not None)


def _nearest(rule: RuleResult, value: float) -> float:
    """The value itself where it lies within what is asked, else the nearer end."""
    if rule.low is not None and value < rule.low:
        return rule.low
    if rule.high is not None and value > rule.high:
        return rule.high
    return value
