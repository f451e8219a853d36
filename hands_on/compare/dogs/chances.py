"""What a dog's rank would be had every answer come out a little otherwise: many draws of it.

* Measurements: normal with their own uncertainty; half of the lasting variance is shared by all readings of
  one evaluator at one point, so that it moves all dogs of a ring together (see `compare.dogs.differ`).
* Grades: right 8 times in 10, one degree less or more 1 time in 10 each; slight less one is as asked. A
  default by choice that suits the rule for changes of grade in `measure.change`; no published figure.
* Unsure findings: there every other time.
* Points as asked: a slight departure overlooked once in 50, the neighbouring grade of the point's own
  scale. By the same error of 1 in 10 it follows if about one point in ten truly departs, since departures
  are rare; a working value. A departure off the scale (an albino coat, a wall eye), or one that
  disqualifies, is drawn in no draw: nobody overlooks it by a slip of one degree.
* Choices, the tooth chart, counts: as recorded. Everything else is independent. Combinations of faults are
  kept as they were found. `Assumed` holds the figures; an order is shown over a range of them.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

from hands_on.compare.answer import AS_ASKED, answer_at
from hands_on.compare.dogs.class_rank import ClassRanking, Rank, counted
from hands_on.compare.dogs.differ import SHARED_BY_ONE_HAND
from hands_on.compare.examined import Examined
from hands_on.evaluate.ladder import ROUNDED
from hands_on.evaluate.result import Finding, RuleResult, Rung
from hands_on.evaluate.values import unit_of
from hands_on.measure.takes import Measured
from hands_on.measure.units import canonical_unit, convert, quantity_of
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.points import GradePoint, ScalePoint
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.values import Value

__all__ = [
    "P_OVERLOOKED",
    "P_RIGHT",
    "P_UNSURE",
    "Assumed",
    "Draws",
    "Hands",
    "Shared",
    "Varying",
    "draw",
]

P_RIGHT = 0.8
P_UNSURE = 0.5
P_OVERLOOKED = 0.02

_SETTLED = 1e-4
"""A limit that changes its answer less often than this is left as it is."""


@dataclass(frozen=True)
class Assumed:
    """How far answers err."""

    right: float = P_RIGHT
    """How often a degree is right."""
    overlooked: float = P_OVERLOOKED
    """How often a point as asked hides a slight departure."""
    unsure: float = P_UNSURE
    """How often an unsure finding is there."""
    measured: bool = True
    """Do measurements err by their uncertainty?"""


@dataclass(frozen=True)
class Varying:
    """One answer that may come out otherwise; `changed` tells of each draw whether it did."""

    what: Finding | RuleResult
    point: str
    changed: tuple[bool, ...]


@dataclass
class Draws:
    """A dog's rank in every draw, and what varied."""

    ranks: list[Rank]
    varying: list[Varying] = field(default_factory=list)


Hands = dict[tuple[str, str], list[float]]
"""What all readings of one evaluator at one point share, in draws of a standard normal."""


def draw(
    one: Examined,
    ranking: ClassRanking,
    n: int,
    seed: str,
    hands: Hands,
    *,
    points: Collection[str] | None = None,
    assumed: Assumed = Assumed(),
    shared: Shared | None = None,
) -> Draws:
    """Draw a dog's rank `n` times, of what was found at `points` (all where None).

    `hands` is filled and shared between dogs; `seed` fixes the draws. `shared` is filled and shared between
    calls that differ only in what is assumed of grades: the measurements are drawn once.
    """
    return _Drawing(one, ranking, n, seed, hands, points, assumed, shared or Shared()).run()


@dataclass(frozen=True)
class _OfLimits:
    """What the limits of a dog weigh in every draw, and the findings that they replace."""

    picked: tuple[tuple[Rank, ...], ...]
    varying: tuple[Varying, ...]
    replaced: frozenset[str]


@dataclass
class Shared:
    """What is the same whatever is assumed of grades, by each dog's seed: it is worked out once."""

    limits: dict[str, _OfLimits] = field(default_factory=dict)
    beside: dict[str, list[list[Rank]]] = field(default_factory=dict)
    """For each point as asked what its neighbouring grades would weigh."""


class _Drawing:
    def __init__(
        self,
        one: Examined,
        ranking: ClassRanking,
        n: int,
        seed: str,
        hands: Hands,
        points: Collection[str] | None,
        assumed: Assumed,
        shared: Shared,
    ) -> None:
        self.shared = shared
        self.points, self.assumed = points, assumed
        self.one, self.ranking, self.n, self.seed, self.hands = one, ranking, n, seed, hands
        self.nothing = ranking.nothing
        self.classes = one.evaluation.classes
        self.present = frozenset(f.id for f in one.evaluation.findings if counted(f))
        self.draws = Draws([self.nothing] * n)

    def run(self) -> Draws:
        findings = [f for f in self.one.evaluation.findings if _may_count(f) and self._lies_in(f)]
        graded = {f.id for f in findings if f.origin != "take"}
        varied = self._measured(graded)
        for place, finding in enumerate(findings):
            if finding.origin != "take" or finding.id not in varied:
                self._finding(finding, place)
        self._overlooked()
        return self.draws

    def _lies_in(self, finding: Finding) -> bool:
        return self.points is None or self.ranking.lies_in(finding, self.points)

    def _compared(self, point: str) -> bool:
        return self.points is None or point in self.points

    def _add(self, picked: Sequence[Rank]) -> None:
        """Add what one answer weighs in each draw."""
        nothing = self.nothing
        pairs = zip(self.draws.ranks, picked, strict=True)
        self.draws.ranks = [rank if more is nothing else rank + more for rank, more in pairs]

    def _weight(self, fault: str, degree: Degree | None, detail: str | None = None) -> Rank:
        called = self.classes.class_of(fault, degree, detail, self.present)
        return self.ranking.rank(called.cls, degree)

    # --- findings ------------------------------------------------------------------------------------

    def _finding(self, finding: Finding, place: int) -> None:
        recorded = self.ranking.rank(finding.cls, finding.degree)
        if finding.origin == "take":
            # Of a value that no draw moves: as recorded.
            outcomes = [(1.0, recorded if counted(finding) else self.nothing)]
        else:
            outcomes = self._graded(finding, recorded)
        if finding.status == "unsure":
            unsure = self.assumed.unsure
            outcomes = [(p * unsure, weight) for p, weight in outcomes] + [(1 - unsure, self.nothing)]
        self._discrete(finding, outcomes, f"finding {place} {finding.id}")

    def _graded(self, finding: Finding, recorded: Rank) -> list[tuple[float, Rank]]:
        """Chances of a graded finding; the first is the recorded one."""
        if "grade" not in finding.origins and "note" not in finding.origins:
            return [(1.0, recorded)]
        point = self.one.ruleset.points.get(next(iter(finding.points), ""))
        right = self.assumed.right
        beside = (1 - right) / 2
        if isinstance(point, ScalePoint):
            return self._stepped(point, recorded)
        if finding.degree is None:
            return [(1.0, recorded)]
        step = DEGREES.index(finding.degree)
        less = self._weight(finding.id, DEGREES[step - 1], finding.detail) if step else self.nothing
        if step + 1 == len(DEGREES):
            return [(right + beside, recorded), (beside, less)]
        more = self._weight(finding.id, DEGREES[step + 1], finding.detail)
        return [(right, recorded), (beside, less), (beside, more)]

    def _stepped(self, point: ScalePoint, recorded: Rank) -> list[tuple[float, Rank]]:
        steps = sorted(point.steps, key=lambda step: step.value)
        here = answer_at(self.one, point).position
        places = [index for index, step in enumerate(steps) if step.value == here]
        outcomes = [(self.assumed.right, recorded)]
        for other in (places[0] - 1, places[0] + 1) if places else ():
            beside = (1 - self.assumed.right) / 2
            if not 0 <= other < len(steps):
                outcomes[0] = (outcomes[0][0] + beside, recorded)
                continue
            fault = steps[other].fault
            outcomes.append((beside, self._weight(fault, steps[other].degree) if fault else self.nothing))
        return outcomes if places else [(1.0, recorded)]

    def _discrete(self, finding: Finding, outcomes: Sequence[tuple[float, Rank]], key: str) -> None:
        if len({weight for _, weight in outcomes}) == 1:
            self._add([outcomes[0][1]] * self.n)
            return
        chance = random.Random(f"{self.seed}/{key}")
        weights = [weight for _, weight in outcomes]
        picked = chance.choices(weights, [p for p, _ in outcomes], k=self.n)
        self._add(picked)
        # Of an unsure finding it matters whether it is there at all.
        recorded, unsure = weights[0], finding.status == "unsure"
        changed = tuple(weight == self.nothing if unsure else weight != recorded for weight in picked)
        self.draws.varying.append(Varying(finding, next(iter(finding.points), ""), changed))

    # --- points as asked -----------------------------------------------------------------------------

    def _overlooked(self) -> None:
        """The neighbouring grade at a point graded as asked, once in a while; nothing that disqualifies."""
        if not self.assumed.overlooked:
            return
        if self.seed not in self.shared.beside:
            self.shared.beside[self.seed] = self._beside()
        options = self.shared.beside[self.seed]
        if not options:
            return
        chance = random.Random(f"{self.seed}/overlooked")
        scale = math.log1p(-self.assumed.overlooked)
        cell = -1
        while True:
            # From one overlooked departure to the next, over all draws of all points (geometric gaps).
            cell += 1 + int(math.log(1.0 - chance.random()) / scale)
            if cell >= self.n * len(options):
                return
            which, place = divmod(cell, self.n)
            self.draws.ranks[place] += chance.choice(options[which])

    def _beside(self) -> list[list[Rank]]:
        options: list[list[Rank]] = []
        for point in self.one.ruleset.walk_points:
            if not isinstance(point, GradePoint) or not self._compared(point.id):
                continue
            answer = answer_at(self.one, point)
            if answer.category == AS_ASKED and not answer.too_young:
                beside = (*point.less, *point.more) or (point.other if len(point.other) == 1 else ())
                weights = [self._weight(fault, "slight") for fault in beside if self._judgeable(fault)]
                weights = [weight for weight in weights if not self.ranking.disqualifies(weight)]
                options += [weights] if any(map(any, weights)) else []
        return options

    def _judgeable(self, fault: str) -> bool:
        known = self.one.ruleset.faults.get(fault)
        return known is not None and not self.one.circumstances.too_young(known.too_young)

    # --- limits --------------------------------------------------------------------------------------

    def _measured(self, graded: set[str]) -> frozenset[str]:
        """Add what the limits weigh; the findings that this replaces."""
        if not self.assumed.measured:
            return frozenset()
        if self.seed not in self.shared.limits:
            self.shared.limits[self.seed] = self._limits(graded)
        found = self.shared.limits[self.seed]
        for picked in found.picked:
            self._add(picked)
        self.draws.varying += found.varying
        return found.replaced

    def _limits(self, graded: set[str]) -> _OfLimits:
        """Draw the measurements and hold the limits against them."""
        every: list[tuple[Rank, ...]] = []
        varying: list[Varying] = []
        limits = {limit.id: limit for limit in self.one.ruleset.edition.limits}
        replaced: set[str] = set()
        cache: dict[tuple[str, str], list[float]] = {}
        for rule in self.one.evaluation.rules:
            if not self._drawn(rule) or not all(map(self._compared, limits[rule.id].measures)):
                continue
            ranks = [self._rung_rank(rung, graded) for rung in rule.ladder]
            if not any(map(any, ranks)):
                continue
            limit = limits[rule.id]
            replaced.update({rule.id, *(rung.fault for rung in rule.ladder if rung.fault)} - graded)
            values = self._values(limit, rule, cache)
            picked = tuple(self._at(rule, ranks, value) for value in values)
            recorded = self._at(rule, ranks, rule.value or 0.0)
            every.append(picked)
            changed = tuple(rank != recorded for rank in picked)
            if any(changed):
                point = limit.measures[0] if limit.measure else ""
                varying.append(Varying(rule, point, changed))
        return _OfLimits(tuple(every), tuple(varying), frozenset(replaced))

    def _drawn(self, rule: RuleResult) -> bool:
        """Was a limit held that counts, and may its answer come out otherwise?"""
        if rule.value is None or rule.optional or rule.judged_from is not None or not rule.ladder:
            return False
        value = rule.value
        here = next((rung for rung in rule.ladder[1:] if rung.values.holds(value)), rule.ladder[0])
        return bool(rule.u) and here.p < 1 - _SETTLED

    def _rung_rank(self, rung: Rung, graded: set[str]) -> Rank:
        """What a stretch adds; a fault that was graded is drawn as a grade."""
        return self.nothing if rung.fault in graded else self.ranking.rank(rung.cls, rung.degree)

    def _at(self, rule: RuleResult, ranks: Sequence[Rank], value: float) -> Rank:
        """What a value adds by the stretch it lies in; what is asked for adds nothing."""
        value = round(value, ROUNDED)
        beside = zip(rule.ladder[1:], ranks[1:], strict=True)
        return next((rank for rung, rank in beside if rung.values.holds(value)), self.nothing)

    def _values(
        self, limit: Limit, rule: RuleResult, cache: dict[tuple[str, str], list[float]]
    ) -> list[float]:
        """The limit's value in every draw, in its unit."""
        own = unit_of(self.one.ruleset, limit)
        base = canonical_unit(quantity_of(own))
        factor = convert(1.0, base, rule.unit)
        drawn: dict[str, list[float]] = {}
        for name in limit.measures:
            measured = self.one.measures.by_point[name]
            side = rule.side if limit.measure is not None else None
            single = measured.sides.get(side, measured.pooled) if limit.measure else measured.pooled
            key = (name, side or "")
            if key not in cache:
                cache[key] = self._readings(name, side or "", single)
            drawn[name] = cache[key]
        value = _compiled(limit)
        if limit.measure is not None:
            return [x * factor for x in drawn[limit.measure]]
        rows = zip(*drawn.values(), strict=True)
        return [value(dict(zip(drawn, row, strict=True))) * factor for row in rows]

    def _readings(self, name: str, side: str, measured: Measured) -> list[float]:
        shared = math.sqrt(SHARED_BY_ONE_HAND) * min(measured.u_lasting, measured.u)
        own = math.sqrt(max(0.0, measured.u**2 - shared**2))
        who = self.one.evaluator.casefold() or self.seed
        if (who, name) not in self.hands:
            hand = random.Random(f"hand/{who}/{name}/{self.n}")
            self.hands[who, name] = [hand.gauss(0.0, 1.0) for _ in range(self.n)]
        chance = random.Random(f"{self.seed}/take {name} {side}")
        return [measured.value + shared * z + own * chance.gauss(0.0, 1.0) for z in self.hands[who, name]]


def _may_count(finding: Finding) -> bool:
    return finding.counts and finding.status != "absent" and finding.decision != "dismiss"


def _compiled(value: Value) -> Callable[[Mapping[str, float]], float]:
    """A ruleset's value as a function of readings; a share of nought counts as nought."""
    if value.measure is not None:
        name = value.measure
        return lambda readings: readings[name]
    parts = [_compiled(member) for member in value.members]
    if value.ratio is not None:
        return lambda readings: parts[0](readings) / (parts[1](readings) or math.inf)
    if value.slope is not None:
        return lambda readings: _degrees(math.asin, parts[0](readings), parts[1](readings))
    if value.angle is not None:
        return lambda readings: _opposite(*(part(readings) for part in parts))
    if value.difference is not None:
        return lambda readings: parts[0](readings) - parts[1](readings)
    return lambda readings: sum(part(readings) for part in parts)


def _degrees(inverse: Callable[[float], float], part: float, whole: float) -> float:
    """An angle from a share, which a draw may carry beyond what any angle has."""
    return math.degrees(inverse(min(1.0, max(-1.0, part / (whole or math.inf)))))


def _opposite(first: float, second: float, third: float) -> float:
    """The angle between two sides of a triangle, opposite the third, by the law of cosines."""
    return _degrees(math.acos, first * first + second * second - third * third, 2 * first * second)
