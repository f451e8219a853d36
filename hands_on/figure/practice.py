"""Practice of the eye on drawn dogs: a series of figures whose departures are known, and what came of it.

A series is made from a seed, so that the same seed shows the same figures. Some figures come a second time
without being announced: how far two answers to one figure lie apart is the eye's own repeatability,
s_r = sqrt(sum d^2 / 2 n) for n pairs (ISO 5725-2:2019, for two results a cell). The mean of answer less truth
is the bias, their standard deviation the spread. What is drawn is exact; no dog is.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from typing import Literal

from hands_on.figure.drawn import Departure, Figure, figure_of, ideal
from hands_on.figure.reading import readings
from hands_on.figure.shapes import ViewName
from hands_on.figure.skeleton import skeleton
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["GRADED", "MEASURED", "Answered", "Exercise", "Learned", "learned", "repeatability", "series"]

GRADED = (
    "forequarters.shoulder-steep", "forequarters.upper-arm-short", "forequarters.pasterns-weak",
    "back.roached", "back.swayed", "back.croup-high", "croup-tail.croup-steep", "croup-tail.croup-flat",
    "croup-tail.carried-high", "hindquarters.straight", "hindquarters.over-angulated",
    "hindquarters.cow-hocks", "hindquarters.bowed-hocks", "hindquarters.sickle-hocks", "forefeet.east-west",
    "neck.throaty", "general.leggy", "general.body-long", "chest.shallow", "back.tuck-up-excess",
)  # fmt: skip
"""Faults that are practised."""

MEASURED: dict[str, tuple[str, ...]] = {
    "shoulder-angle": ("shoulder-angle",),
    "blade-slope": ("blade-slope",),
    "croup-slope": ("croup-slope",),
    "stifle-angle": ("stifle-angle",),
    "pastern-slope": ("pastern-slope",),
    "body-length/height": ("body-length", "height"),
    "chest-depth/height": ("chest-depth", "height"),
    "muzzle-length/skull-length": ("muzzle-length", "skull-length"),
}
"""Angles and ratios that are estimated: the measure, or numerator and denominator."""

_STEPS = 4
"""As asked, slight, moderate, marked: an extreme one needs no practice."""

_OFF_ANGLE, _OFF_RATIO = 12.0, 0.12
"""How far a figure's angle (degrees) or ratio (as a share) may lie from the edition's."""

_JITTER = 0.5
"""Proportions that are not asked differ from dog to dog by so many times what they readily give."""

_EVERY = 3
"""One figure of so many comes a second time."""


@dataclass(frozen=True)
class Exercise:
    """A figure to be graded or estimated."""

    number: int
    kind: Literal["grade", "estimate"]
    about: str
    """A fault, or one of `MEASURED`."""
    truth: float
    """The degree as a number, 0 for as asked; else degrees or the ratio."""
    figure: Figure
    view: ViewName
    repeat_of: int | None = None
    """The number of the exercise that showed the same figure before."""


@dataclass(frozen=True)
class Answered:
    """An answer as it is kept."""

    at: str
    """When, as ISO 8601 has it."""
    edition: str
    seed: int
    number: int
    kind: str
    about: str
    truth: float
    answer: float
    repeat_of: int | None = None

    @property
    def error(self) -> float:
        """Answer less truth: degrees of a fault, degrees of an angle, or a ratio."""
        return self.answer - self.truth


@dataclass(frozen=True)
class Learned:
    """What the answers at one point tell: over all, and in blocks in the order they were given."""

    about: str
    count: int
    bias: float
    spread: float | None
    """None for a single answer."""
    repeatability: float | None
    """None without a figure that was shown twice."""
    blocks: tuple[float, ...]
    """The mean size of the error in each block: the learning curve."""


def series(ruleset: Ruleset, seed: int, count: int = 12) -> tuple[Exercise, ...]:
    """`count` exercises, about a quarter of them figures that were shown before in the series.

    Raises LookupError where the common files hold no figure.
    """
    chance = random.Random(f"{ruleset.id}:{seed}")
    made: list[Exercise] = []
    waiting: list[Exercise] = []
    fresh = 0
    while len(made) < count:
        number = len(made) + 1
        if waiting and (fresh % _EVERY == 0 or len(made) + len(waiting) >= count) and number > 2:
            old = waiting.pop(0)
            if old.number < number - 1:
                made.append(_again(old, number))
                fresh += 1
                continue
            waiting.insert(0, old)
        one = _new(ruleset, chance, number)
        made.append(one)
        fresh += 1
        if fresh % _EVERY == 1:
            waiting.append(one)
    return tuple(made)


def _again(old: Exercise, number: int) -> Exercise:
    return Exercise(number, old.kind, old.about, old.truth, old.figure, old.view, old.number)


def _new(ruleset: Ruleset, chance: random.Random, number: int) -> Exercise:
    if chance.random() < 0.6:
        return _graded(ruleset, chance, number)
    return _measured(ruleset, chance, number)


def _graded(ruleset: Ruleset, chance: random.Random, number: int) -> Exercise:
    plan = ruleset.figure
    assert plan is not None
    fault = chance.choice([name for name in GRADED if name in plan.seen])
    step = chance.randrange(_STEPS)
    departures = [Departure(fault, DEGREES[step - 1])] if step else []
    asked = set(plan.seen[fault].moves)
    figure = figure_of(ruleset, _others(ruleset, chance, asked), departures)
    figure = Figure(figure.sides)  # nothing in its lines gives the answer away
    return Exercise(number, "grade", fault, float(step), figure, plan.seen[fault].views[0])


def _measured(ruleset: Ruleset, chance: random.Random, number: int) -> Exercise:
    about = chance.choice(list(MEASURED))
    names = MEASURED[about]
    own = ideal(ruleset)
    ways, at = readings(ruleset), skeleton(own.shape)
    base = [ways[name](own.shape, at) for name in names]
    if len(names) == 1:
        wanted = {names[0]: (base[0] + chance.uniform(-_OFF_ANGLE, _OFF_ANGLE), 0.0)}
    else:
        wanted = {
            names[0]: (base[0] * (1 + chance.uniform(-_OFF_RATIO, _OFF_RATIO)), 0.0),
            names[1]: (base[1], 0.0),
        }
    figure = Figure(figure_of(ruleset, wanted).sides)
    at = skeleton(figure.shape)
    found = [ways[name](figure.shape, at) for name in names]
    truth = found[0] if len(found) == 1 else found[0] / found[1]
    return Exercise(number, "estimate", about, truth, figure, "side")


def _others(ruleset: Ruleset, chance: random.Random, asked: set[str]) -> dict[str, tuple[float, float]]:
    """A few measures a little other than the edition asks, none of those that the question is about."""
    free = {
        "head-length": {"head-length"}, "neck-length": {"neck-length"}, "tail-length": {"tail-length"},
        "ear-length": {"ear-length"}, "hock-height": {"hock-height", "hock-forward"},
    }  # fmt: skip
    own = ideal(ruleset)
    ways, at = readings(ruleset), skeleton(own.shape)
    return {
        name: (ways[name](own.shape, at) * (1 + 0.08 * _JITTER * chance.uniform(-1, 1)), 0.0)
        for name, moved in free.items()
        if not moved & asked
    }


def learned(answers: Sequence[Answered], block: int = 5) -> tuple[Learned, ...]:
    """What the answers tell, point by point, in the order the points were first practised."""
    rows: dict[str, list[Answered]] = {}
    for one in answers:
        rows.setdefault(one.about, []).append(one)
    return tuple(_learned(about, found, answers, block) for about, found in rows.items())


def _learned(about: str, found: list[Answered], every: Sequence[Answered], block: int) -> Learned:
    errors = [one.error for one in found]
    bias = math.fsum(errors) / len(errors)
    spread = None
    if len(errors) > 1:
        spread = math.sqrt(math.fsum((error - bias) ** 2 for error in errors) / (len(errors) - 1))
    pairs = _pairs(found, every)
    blocks = tuple(
        math.fsum(abs(error) for error in errors[n : n + block]) / len(errors[n : n + block])
        for n in range(0, len(errors), block)
    )
    return Learned(about, len(found), bias, spread, repeatability(pairs), blocks)


def _pairs(found: list[Answered], every: Sequence[Answered]) -> list[tuple[float, float]]:
    """Both answers to each figure that was shown twice in one series."""
    first = {(one.at[:10], one.edition, one.seed, one.number): one.answer for one in every}
    pairs = []
    for one in found:
        if one.repeat_of is not None:
            before = first.get((one.at[:10], one.edition, one.seed, one.repeat_of))
            if before is not None:
                pairs.append((before, one.answer))
    return pairs


def repeatability(pairs: Sequence[tuple[float, float]]) -> float | None:
    """The standard deviation of one answer to the same figure, from pairs; None without any."""
    if not pairs:
        return None
    return math.sqrt(math.fsum((a - b) ** 2 for a, b in pairs) / (2 * len(pairs)))
