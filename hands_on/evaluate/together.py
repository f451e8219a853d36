"""Findings that seldom stand together, or explain each other: questions across regions, never faults."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from hands_on.evaluate.alarms.judged import Claim, Measured, SaidRight, Stands, TogetherAsked
from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.departure import Affirmed, Departure, sides_meet
from hands_on.evaluate.measures import Measures
from hands_on.evaluate.result import Alarm
from hands_on.evaluate.values import Incomputable, readings
from hands_on.exam.session import Decision
from hands_on.frozen import dataclass
from hands_on.measure.distributions import normal_quantile
from hands_on.ruleset.base import DEGREES, Side
from hands_on.ruleset.labels import Label, label_of
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.together import Sign, StandTogether

__all__ = ["asked_together"]

_SURE = 0.95
"""A number counts as beyond a figure when it is so with this probability, as everywhere else."""


@dataclass(frozen=True)
class _Seen:
    """A sign that holds, where, and of which fault if it is one."""

    stands: Stands
    points: tuple[str, ...]
    side: Side | None = None
    fault: str = ""


def asked_together(
    ruleset: Ruleset,
    departures: Sequence[Departure],
    affirmed: Sequence[Affirmed],
    measures: Measures,
    circumstances: Circumstances,
    decisions: Sequence[Decision],
) -> tuple[Alarm, ...]:
    """A question for each rule of which every sign holds, and of which no fault was decided on yet."""
    present = [one for one in departures if one.status == "present"]
    decided = {one.fault for one in decisions}
    return tuple(
        alarm
        for rule in ruleset.together.values()
        if circumstances.state(rule.when) == "holds"
        for alarm in _asked(ruleset, rule, present, affirmed, measures, decided)
    )


def _asked(
    ruleset: Ruleset,
    rule: StandTogether,
    present: Sequence[Departure],
    affirmed: Sequence[Affirmed],
    measures: Measures,
    decided: set[str],
) -> Iterator[Alarm]:
    """The first way in which all signs hold on sides that can be the same."""
    each = [list(_holding(ruleset, sign, present, affirmed, measures)) for sign in rule.signs]
    for found in product(*each):
        same = all(sides_meet(a.side, b.side) for n, a in enumerate(found) for b in found[n + 1 :])
        if same and decided.isdisjoint(one.fault for one in found):
            points = tuple(dict.fromkeys(point for one in found for point in one.points))
            stands = tuple(one.stands for one in found)
            yield Alarm("together", points, TogetherAsked(rule.id, rule.how, stands, rule.text, rule.source))
            return


def _holding(
    ruleset: Ruleset,
    sign: Sign,
    present: Sequence[Departure],
    affirmed: Sequence[Affirmed],
    measures: Measures,
) -> Iterator[_Seen]:
    for one in present:
        if one.fault in sign.fault and _far_enough(sign, one):
            claim = Claim(one.named or Label(ruleset.label(one.fault)), one.side, one.origin, one.rule)
            yield _Seen(claim, one.points, one.side, one.fault)
    for answer in affirmed:
        if answer.point in sign.right:
            yield _Seen(SaidRight(answer.point), (answer.point,), answer.side)
    if sign.value is not None:
        yield from _beyond(ruleset, sign, measures)


def _far_enough(sign: Sign, one: Departure) -> bool:
    if sign.from_degree is None or one.degree is None:
        return True
    return DEGREES.index(one.degree) >= DEGREES.index(sign.from_degree)


def _beyond(ruleset: Ruleset, sign: Sign, measures: Measures) -> Iterator[_Seen]:
    """The value where it is surely above, or below, the figure; not of a dog too young for it."""
    assert sign.value is not None
    try:
        found = readings(ruleset, measures, sign.value, sign.unit)
    except Incomputable:
        return
    for reading in found:
        margin = normal_quantile(_SURE) * reading.u
        above = sign.above is not None and reading.value - margin > sign.above
        below = sign.below is not None and reading.value + margin < sign.below
        if (above or below) and reading.too_young is None:
            claim = Measured(label_of(ruleset, sign.value), reading.value, reading.unit)
            yield _Seen(claim, sign.value.measures, reading.side)
