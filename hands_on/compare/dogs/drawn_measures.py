"""Measurements as they might have come out, and what limits then weigh: many draws of both.

A reading errs by its own uncertainty, with Student's t for its degrees of freedom: the doubt of a judged
figure is one for all dogs. Half of the lasting variance is shared by all readings of one evaluator at one
point, so that it moves all dogs of a ring together (see `compare.dogs.differ`). Of the lasting part what
comes from finding a landmark is drawn for the landmark, so that lengths which share it err together (see
`measure.landmarks`).
"""

from __future__ import annotations

import math
import random
import sys
from array import array
from bisect import bisect_left
from collections.abc import Callable, Collection, Mapping, Sequence
from functools import cache
from itertools import chain, pairwise
from operator import itemgetter

from hands_on.compare.dogs.class_rank import ClassRanking, InCommon, Place, Rank
from hands_on.compare.examined import Examined
from hands_on.evaluate.ladder import ROUNDED
from hands_on.evaluate.result import RuleResult, Rung
from hands_on.evaluate.shared_landmarks import span_of, spread_of
from hands_on.evaluate.values import unit_of
from hands_on.frozen import dataclass
from hands_on.measure.distributions import normal_quantiles, scaled_chis
from hands_on.measure.landmarks import lasting_errors
from hands_on.measure.takes import SHARED_BY_ONE_HAND, Measured
from hands_on.measure.units import canonical_unit, convert, quantity_of
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.values import Value

__all__ = ["Hands", "LimitDrawn", "LimitsDrawn", "draw_limits", "normal_draws", "normals"]

Hands = dict[tuple[str, str], list[float]]
"""What all readings of one evaluator share, at a point or a landmark, in draws of a standard normal."""

_SETTLED = 1e-4
"""A limit that changes its answer less often than this is left as it is."""


@dataclass(frozen=True)
class LimitDrawn:
    """What a limit weighs in every draw, and whether it came out otherwise than recorded."""

    rule: RuleResult
    point: str
    """The measurement held; empty for a computed value."""
    places: tuple[Place, ...]
    """Of each rung of its ladder."""
    moved: tuple[bool, ...]
    """Of each rung whether it is another than the recorded one."""
    rungs: tuple[int, ...]
    """The rung in every draw."""


@dataclass(frozen=True)
class LimitsDrawn:
    """All limits of a dog that may come out otherwise, and the findings that they replace."""

    limits: tuple[LimitDrawn, ...] = ()
    replaced: frozenset[str] = frozenset()


def draw_limits(
    one: Examined,
    ranking: ClassRanking,
    n: int,
    seed: str,
    hands: Hands,
    common: InCommon | None,
    graded: Collection[str],
) -> LimitsDrawn:
    """Draw the measurements in common (all where None) and hold the limits against them.

    Faults in `graded` are drawn as grades and weigh nothing here.
    """
    readings = _Readings(one, n, seed, hands)
    limits = {limit.id: limit for limit in one.ruleset.edition.limits}
    found: list[LimitDrawn] = []
    replaced: set[str] = set()
    for rule in one.evaluation.rules:
        limit = limits[rule.id]
        if not _may_change(rule) or (common is not None and not _in_common(limit, common)):
            continue
        ranks = [_rank(ranking, rung, graded) for rung in rule.ladder]
        if not any(map(any, ranks)):
            continue
        replaced.update({rule.id, *(rung.fault for rung in rule.ladder if rung.fault)} - set(graded))
        recorded = ranks[_rung(rule, rule.value or 0.0)]
        found.append(
            LimitDrawn(
                rule,
                limit.measures[0] if limit.measure else "",
                tuple(ranking.place(rank) for rank in ranks),
                tuple(rank != recorded for rank in ranks),
                tuple(_rungs(rule, readings.of_limit(limit, rule))),
            )
        )
    return LimitsDrawn(tuple(found), frozenset(replaced))


def _in_common(limit: Limit, common: InCommon) -> bool:
    return limit.id not in common.too_young and all(name in common.points for name in limit.measures)


def _may_change(rule: RuleResult) -> bool:
    """Was a limit held that counts, and may its answer come out otherwise?"""
    if rule.value is None or rule.optional or rule.judged_from is not None or not rule.ladder:
        return False
    value = rule.value
    here = next((rung for rung in rule.ladder[1:] if rung.values.holds(value)), rule.ladder[0])
    return bool(rule.u) and here.p < 1 - _SETTLED


def _rank(ranking: ClassRanking, rung: Rung, graded: Collection[str]) -> Rank:
    return ranking.nothing if rung.fault in graded else ranking.rank(rung.cls, rung.degree)


def _rung(rule: RuleResult, value: float) -> int:
    """The place on the ladder of the stretch that a value lies in; the first is what is asked for."""
    value = round(value, ROUNDED)
    beside = enumerate(rule.ladder[1:], 1)
    return next((place for place, rung in beside if rung.values.holds(value)), 0)


def _rungs(rule: RuleResult, values: Sequence[float]) -> list[int]:
    """The place on the ladder for each of many values: looked up between the ends of all stretches."""
    bands = [rung.values for rung in rule.ladder[1:]]
    ends = sorted({end for band in bands for end in (band.low, band.high) if end is not None})
    if not ends:
        return [_rung(rule, 0.0)] * len(values)
    # What rounds to an end counts as the end: a stretch of its own between two others.
    half = 0.5 * 10**-ROUNDED
    edges = [edge for end in ends for edge in (end - half, end + half)]
    middles = [(low + high) / 2 for low, high in pairwise(edges)]
    rungs = [_rung(rule, value) for value in (ends[0] - 1.0, *middles, ends[-1] + 1.0)]
    return [rungs[bisect_left(edges, value)] for value in values]


@cache
def _scores() -> list[float]:
    """The standard normal cut into 16384 equally likely values, each four times: one for every 16 bits."""
    half = normal_quantiles((n + 0.5) / 16384 for n in range(8192))
    every = [*half, *(-score for score in reversed(half))]
    return list(chain.from_iterable(zip(every, every, every, every, strict=True)))


def normal_draws(seed: str, n: int) -> list[float]:
    """Draws of a standard normal, to 14 bits: a hundred times finer than some thousands of draws can tell."""
    bits = array("H", random.Random(seed).randbytes(2 * n))
    if sys.byteorder == "big":
        bits.byteswap()
    return list(itemgetter(*bits)(_scores()))


def normals(hands: Hands, key: tuple[str, str], n: int, seed: str) -> list[float]:
    """Draws of a standard normal, the same for all who ask by one key."""
    if key not in hands:
        hands[key] = normal_draws(seed, n)
    return hands[key]


class _Readings:
    """A dog's measurements in every draw."""

    def __init__(self, one: Examined, n: int, seed: str, hands: Hands) -> None:
        self.one, self.n, self.seed, self.hands = one, n, seed, hands
        self.who = one.evaluator.casefold() or seed
        self._drawn: dict[tuple[str, str], list[float]] = {}
        self._errors: dict[str, list[float]] = {}

    def of_limit(self, limit: Limit, rule: RuleResult) -> list[float]:
        """The limit's value in every draw, in its unit."""
        base = canonical_unit(quantity_of(unit_of(self.one.ruleset, limit)))
        factor = convert(1.0, base, rule.unit)
        drawn: dict[str, list[float]] = {}
        for name in limit.measures:
            measured = self.one.measures.by_point[name]
            side = rule.side if limit.measure is not None else None
            single = measured.sides.get(side, measured.pooled) if limit.measure else measured.pooled
            key = (name, side or "")
            if key not in self._drawn:
                self._drawn[key] = self._readings(name, side or "", single)
            drawn[name] = self._drawn[key]
        if limit.measure is not None:
            return [x * factor for x in drawn[limit.measure]]
        return [x * factor for x in _computed(limit, drawn)]

    def _readings(self, name: str, side: str, measured: Measured) -> list[float]:
        lasting = min(measured.u_lasting, measured.u)
        found, left = self._landmarks(name, lasting, measured.harder)
        rest = math.sqrt(max(0.0, lasting**2 - left**2))
        common = measured.u_shared**2 - SHARED_BY_ONE_HAND * left**2
        shared = math.sqrt(min(max(0.0, common), rest**2))
        own = math.sqrt(max(0.0, measured.u**2 - left**2 - shared**2))
        hand, doubt = self._of_hand(name), self._of_hand(f"doubt {name}")
        takes = normal_draws(f"{self.seed}/take {name} {side}", self.n)
        errors = [a + shared * z + own * x for a, z, x in zip(found, hand, takes, strict=True)]
        if math.isinf(measured.dof):
            return [measured.value + error for error in errors]
        chis = scaled_chis(doubt, measured.dof)
        return [measured.value + error / chi for error, chi in zip(errors, chis, strict=True)]

    def _landmarks(self, name: str, lasting: float, harder: float) -> tuple[list[float], float]:
        """What finding the landmarks wrong adds to a length in every draw, and its standard deviation."""
        ruleset = self.one.ruleset
        span = span_of(ruleset, ruleset.points.get(name))
        spreads = {place: spread_of(ruleset, place) for place in span.slopes} if span else {}
        parts = lasting_errors(span, spreads, harder) if span else {}
        size = math.hypot(*parts.values())
        if not size:
            return [0.0] * self.n, 0.0
        # No more than the lasting part, however the figures are: an own hand may be surer than they are.
        fit = min(1.0, lasting / size)
        total: list[float] = []
        for axis, slope in parts.items():
            share, errors = fit * slope, self._landmark(axis)
            total = (
                [x + share * z for x, z in zip(total, errors, strict=True)]
                if total
                else [share * z for z in errors]
            )
        return total, fit * size

    def _landmark(self, axis: str) -> list[float]:
        """How far off a landmark was found along one axis: half of it the hand's way, half at this dog."""
        if axis not in self._errors:
            here = normal_draws(f"{self.seed}/landmark {axis}", self.n)
            both, own = math.sqrt(SHARED_BY_ONE_HAND), math.sqrt(1.0 - SHARED_BY_ONE_HAND)
            self._errors[axis] = [both * z + own * x for z, x in zip(self._of_hand(axis), here, strict=True)]
        return self._errors[axis]

    def _of_hand(self, what: str) -> list[float]:
        return normals(self.hands, (self.who, what), self.n, f"hand/{self.who}/{what}/{self.n}")


def _computed(value: Value, readings: Mapping[str, Sequence[float]]) -> Sequence[float]:
    """A ruleset's value of readings in many draws; a share of nought counts as nought."""
    if value.measure is not None:
        return readings[value.measure]
    rows = zip(*(_computed(member, readings) for member in value.members), strict=True)
    if value.ratio is not None:
        return [part / (whole or math.inf) for part, whole in rows]
    if value.slope is not None:
        return [_degrees(math.asin, part, whole) for part, whole in rows]
    if value.angle is not None:
        return [_opposite(sides) for sides in rows]
    if value.difference is not None:
        return [longer - shorter for longer, shorter in rows]
    return [sum(parts) for parts in rows]


def _degrees(inverse: Callable[[float], float], part: float, whole: float) -> float:
    """An angle from a share, which a draw may carry beyond what any angle has."""
    return math.degrees(inverse(min(1.0, max(-1.0, part / (whole or math.inf)))))


def _opposite(sides: Sequence[float]) -> float:
    """The angle between two sides of a triangle, opposite the third, by the law of cosines."""
    first, second, third = sides
    return _degrees(math.acos, first * first + second * second - third * third, 2 * first * second)
