"""What a dog's place would be had every answer come out a little otherwise: many draws of it.

* Measurements: by their own uncertainty (`compare.dogs.drawn_measures`).
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
from collections.abc import Sequence
from dataclasses import field
from functools import cached_property
from operator import add

from hands_on.compare.answer import AS_ASKED, answer_at
from hands_on.compare.dogs.class_rank import ClassRanking, InCommon, Place, Rank, counted
from hands_on.compare.dogs.drawn_measures import Hands, draw_limits
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.points import GradePoint, ScalePoint

__all__ = [
    "P_OVERLOOKED",
    "P_RIGHT",
    "P_UNSURE",
    "USUAL",
    "Assumed",
    "Draws",
    "Shared",
    "Varying",
    "draw",
    "overlooked_at",
]

P_RIGHT = 0.8
P_UNSURE = 0.5
P_OVERLOOKED = 0.02


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


USUAL = Assumed()


@dataclass(frozen=True)
class Varying:
    """One answer that may come out otherwise: the outcome each draw picks, and which are not as recorded."""

    what: Finding | RuleResult
    point: str
    picked: Sequence[int]
    moved: tuple[bool, ...]

    @cached_property
    def changed(self) -> tuple[bool, ...]:
        """Of each draw whether the answer came out otherwise."""
        return tuple([self.moved[n] for n in self.picked])


@dataclass(frozen=True)
class Draws:
    """A dog's place by the rule of its edition in every draw, and what varied."""

    places: tuple[Place, ...]
    varying: tuple[Varying, ...] = ()


@dataclass(frozen=True)
class _Measured:
    """What a dog's limits give in every draw: how many findings disqualify, and what the others weigh."""

    out: list[float]
    weight: list[float]
    varying: tuple[Varying, ...]
    replaced: frozenset[str]


@dataclass
class Shared:
    """What is the same whatever is assumed, worked out once; by each dog's seed."""

    hands: Hands = field(default_factory=dict)
    limits: dict[str, _Measured] = field(default_factory=dict)
    picked: dict[tuple[str, tuple[float, ...]], list[int]] = field(default_factory=dict)
    """Which of the outcomes of an answer each draw picks."""
    beside: dict[str, list[list[float]]] = field(default_factory=dict)
    """For each point as asked what its neighbouring grades would weigh."""
    slips: dict[tuple[str, float], list[float]] = field(default_factory=dict)
    """What was overlooked in each draw weighs."""


def draw(
    one: Examined,
    ranking: ClassRanking,
    n: int,
    seed: str,
    shared: Shared,
    *,
    common: InCommon | None = None,
    assumed: Assumed = USUAL,
) -> Draws:
    """Draw a dog's place `n` times, by what was found where dogs are compared (all where None).

    `seed` fixes the draws. `shared` is filled and shared between dogs, whose evaluator may be one, and
    between calls that differ in what is assumed.
    """
    return _Drawing(one, ranking, n, seed, shared, common, assumed).run()


def overlooked_at(one: Examined, ranking: ClassRanking, common: InCommon | None = None) -> list[list[Rank]]:
    """For each point graded as asked what its neighbouring grades weigh; none of them disqualifies."""
    present = _present(one)
    options: list[list[Rank]] = []
    for point in one.ruleset.walk_points:
        if not isinstance(point, GradePoint) or not (common is None or point.id in common.points):
            continue
        answer = answer_at(one, point)
        if answer.category == AS_ASKED and not answer.too_young:
            beside = (*point.less, *point.more) or (point.other if len(point.other) == 1 else ())
            weights = [
                _weight(one, ranking, present, fault, "slight")
                for fault in beside
                if _judgeable(one, fault) and not (common and fault in common.too_young)
            ]
            weights = [weight for weight in weights if not ranking.disqualifies(weight)]
            options += [weights] if any(map(any, weights)) else []
    return options


class _Drawing:
    def __init__(
        self,
        one: Examined,
        ranking: ClassRanking,
        n: int,
        seed: str,
        shared: Shared,
        common: InCommon | None,
        assumed: Assumed,
    ) -> None:
        self.one, self.ranking, self.n, self.seed = one, ranking, n, seed
        self.shared, self.common, self.assumed = shared, common, assumed
        self.nothing = ranking.nothing
        self.present = _present(one)
        # A place is how many findings disqualify, and what the others weigh.
        self.out, self.weight = [0.0] * n, [0.0] * n
        self.varying: list[Varying] = []

    def run(self) -> Draws:
        findings = [f for f in self.one.evaluation.findings if _may_count(f) and self._lies_in(f)]
        graded = {f.id for f in findings if f.origin != "take"}
        replaced = self._measured(graded)
        for place, finding in enumerate(findings):
            if finding.origin != "take" or finding.id not in replaced:
                self._finding(finding, place)
        self._overlooked()
        return Draws(tuple(zip(self.out, self.weight, strict=True)), tuple(self.varying))

    def _lies_in(self, finding: Finding) -> bool:
        return self.common is None or self.ranking.lies_in(finding, self.common)

    def _add(self, places: Sequence[Place], picked: Sequence[int]) -> None:
        """Add what the outcome of one answer weighs that each draw picks."""
        out, weight = [place[0] for place in places], [place[1] for place in places]
        if any(out):
            self.out = [before + out[n] for before, n in zip(self.out, picked, strict=True)]
        self.weight = [before + weight[n] for before, n in zip(self.weight, picked, strict=True)]

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
            outcomes = [(p * unsure, rank) for p, rank in outcomes] + [(1 - unsure, self.nothing)]
        self._discrete(finding, outcomes, f"{self.seed}/finding {place} {finding.id}")

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

    def _weight(self, fault: str, degree: Degree | None, detail: str | None = None) -> Rank:
        return _weight(self.one, self.ranking, self.present, fault, degree, detail)

    def _discrete(self, finding: Finding, outcomes: Sequence[tuple[float, Rank]], key: str) -> None:
        chances = tuple(p for p, _ in outcomes)
        ranks = [rank for _, rank in outcomes]
        places = [self.ranking.place(rank) for rank in ranks]
        if len(set(ranks)) == 1:
            if any(places[0]):
                self._add(places, [0] * self.n)
            return
        if (key, chances) not in self.shared.picked:
            choices = random.Random(key).choices(range(len(ranks)), chances, k=self.n)
            self.shared.picked[key, chances] = choices
        picked = self.shared.picked[key, chances]
        self._add(places, picked)
        # Of an unsure finding it matters whether it is there at all.
        unsure = finding.status == "unsure"
        moved = [rank == self.nothing if unsure else rank != ranks[0] for rank in ranks]
        point = next(iter(finding.points), "")
        self.varying.append(Varying(finding, point, picked, tuple(moved)))

    # --- points as asked -----------------------------------------------------------------------------

    def _overlooked(self) -> None:
        """The neighbouring grade at a point graded as asked, once in a while; nothing that disqualifies."""
        key = (self.seed, self.assumed.overlooked)
        if key not in self.shared.slips:
            self.shared.slips[key] = self._slips()
        self.weight = list(map(add, self.weight, self.shared.slips[key]))

    def _slips(self) -> list[float]:
        if self.seed not in self.shared.beside:
            ranks = overlooked_at(self.one, self.ranking, self.common)
            # None of them disqualifies, so that it is what they weigh alone.
            self.shared.beside[self.seed] = [[self.ranking.place(one)[1] for one in row] for row in ranks]
        options = self.shared.beside[self.seed]
        found = [0.0] * self.n
        if not options or not self.assumed.overlooked:
            return found
        chance, log, n = random.Random(f"{self.seed}/overlooked").random, math.log, self.n
        scale = math.log1p(-self.assumed.overlooked)
        cell, end = -1, n * len(options)
        while True:
            # From one overlooked departure to the next, over all draws of all points (geometric gaps).
            cell += 1 + int(log(1.0 - chance()) / scale)
            if cell >= end:
                return found
            beside = options[cell // n]
            found[cell % n] += beside[int(chance() * len(beside))]

    # --- limits --------------------------------------------------------------------------------------

    def _measured(self, graded: set[str]) -> frozenset[str]:
        """Begin with what the limits weigh; the findings that this replaces."""
        if not self.assumed.measured:
            return frozenset()
        if self.seed not in self.shared.limits:
            drawn = draw_limits(
                self.one, self.ranking, self.n, self.seed, self.shared.hands, self.common, graded
            )
            for one in drawn.limits:
                self._add(one.places, one.rungs)
            varying = tuple(
                Varying(one.rule, one.point, one.rungs, one.moved)
                for one in drawn.limits
                if any(one.moved[n] for n in set(one.rungs))
            )
            self.shared.limits[self.seed] = _Measured(self.out, self.weight, varying, drawn.replaced)
        found = self.shared.limits[self.seed]
        self.out, self.weight = found.out, found.weight
        self.varying += found.varying
        return found.replaced


def _may_count(finding: Finding) -> bool:
    return finding.counts and finding.status != "absent" and finding.decision != "dismiss"


def _present(one: Examined) -> frozenset[str]:
    return frozenset(f.id for f in one.evaluation.findings if counted(f))


def _weight(
    one: Examined,
    ranking: ClassRanking,
    present: frozenset[str],
    fault: str,
    degree: Degree | None,
    detail: str | None = None,
) -> Rank:
    called = one.evaluation.classes.class_of(fault, degree, detail, present)
    return ranking.rank(called.cls, degree)


def _judgeable(one: Examined, fault: str) -> bool:
    known = one.ruleset.faults.get(fault)
    return known is not None and not one.circumstances.too_young(known.too_young)
