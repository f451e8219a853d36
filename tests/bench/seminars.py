"""Simulated seminars: how often is somebody named as leaning who does not?

    python -m tests.bench.seminars [SEMINARS [SEED [TABLE ...]]]

Evaluators without any bias grade and measure the same dogs, each with their own scatter (table 1), also where
points differ very much in how hard they are (2 and 3), which is where a spread borrowed from other points
could deceive; tables 4 and 5 give one of them a bias at three points, of two degrees and of one. Printed: the
share of seminars in which anybody is named, by dogs and evaluators. At most one in twenty may name somebody
without a bias, whether or not another has one.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from hands_on.compare.agreement.lean import Tables, leans, strictness
from hands_on.compare.answer import Answer, scale_of
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point
from hands_on.store.library import Library

EDITION = "hovawart-fci-190"
BIASED = 3
"""Points at which one evaluator leans in the tables with a bias."""

ALIKE = (0.7, 0.9, 1.1, 1.4)
"""How many times a hand's usual scatter it is at one point: one of these, by lot."""

TABLES = {
    "1": ("nobody leans", 0.0, ALIKE),
    "2": ("nobody leans, points from very easy to very hard", 0.0, (0.2, 0.5, 1.0, 2.5)),
    "3": ("nobody leans, one point of seven very hard among plain ones", 0.0, (*[0.3] * 6, 2.5)),
    "4": (f"bias 2 degrees at {BIASED} points", 2.0, ALIKE),
    "5": (f"bias 1 degree at {BIASED} points", 1.0, ALIKE),
}
"""What each table is of: its head, the bias, and how hard points are."""

SIZES = ((3, 4), (4, 3), (6, 4), (8, 2), (8, 5), (12, 6))
"""Dogs and evaluators."""

Row = list[Answer | None]


def points() -> tuple[Point, ...]:
    """All points of the edition that can be ordered."""
    rules = Library([Path(__file__).parents[2] / "rulesets"]).load(EDITION)
    return tuple(
        point
        for point in rules.walk_points
        if isinstance(point, MeasurePoint) or (isinstance(point, GradePoint) and scale_of(point))
    )


def seminar(
    every: tuple[Point, ...],
    dogs: int,
    evaluators: int,
    bias: float,
    chance: random.Random,
    hardness: Sequence[float] = ALIKE,
) -> Tables:
    """Answers of one seminar; the first evaluator leans by `bias` standard deviations at a few points.

    Nearly all dogs are as asked at most points, as in life; hands differ in their scatter by a factor of two,
    and so do points: one is harder to grade than another, for all.
    """
    tables: dict[str, tuple[Point, list[Row]]] = {}
    scatter = [chance.uniform(0.35, 0.7) for _ in range(evaluators)]
    graded = [point.id for point in every if isinstance(point, GradePoint)][:BIASED]
    for point in every:
        spread, harder = chance.choice([0.2, 0.5, 1.2]), chance.choice(hardness)
        here = [harder * sd for sd in scatter]
        rows: list[Row] = []
        for _ in range(dogs):
            truth = chance.gauss(0.0, spread)
            shift = [bias if n == 0 and point.id in graded else 0.0 for n in range(evaluators)]
            rows.append(list(_answers(point, truth, shift, here, chance)))
        tables[point.id] = (point, rows)
    return tables


def _answers(
    point: Point, truth: float, shift: list[float], scatter: list[float], chance: random.Random
) -> Iterator[Answer]:
    scale = scale_of(point)
    for moved, sd in zip(shift, scatter, strict=True):
        felt = truth + moved + chance.gauss(0.0, sd)
        if isinstance(point, MeasurePoint):
            step = point.resolution
            yield Answer(point.id, "answered", value=round((50.0 + felt * 3 * step) / step) * step, unit="cm")
        else:
            assert scale is not None
            yield Answer(point.id, "answered", position=min(max(round(felt), scale[0]), scale[-1]))


def named(tables: Tables, evaluators: int) -> set[int]:
    """Places of the evaluators named at any point or over all."""
    people = [str(n) for n in range(evaluators)]
    graded = {name: one for name, one in tables.items() if isinstance(one[0], GradePoint)}
    found = (*leans(people, tables, str), *strictness(people, graded))
    return {int(one.evaluator) for one in found if one.clear}


def main() -> None:
    """Print the tables."""
    seminars, seed = (int(word) for word in (sys.argv[1:3] + ["200", "1"][len(sys.argv[1:3]) :]))
    every = points()
    print(
        f"seed {seed}, {len(every)} points; {seminars} seminars a row; "
        "at most 5 % may name somebody without a bias"
    )
    for table in sys.argv[3:] or TABLES:
        head, bias, hardness = TABLES[table]
        print(f"\n{head}\n{'dogs':>5} {'evaluators':>11} {'wrongly named':>14} {'the biased named':>17}")
        for dogs, evaluators in SIZES:
            chance = random.Random(f"{seed} {table} {dogs} {evaluators}")
            wrong = right = 0
            for _ in range(seminars):
                found = named(seminar(every, dogs, evaluators, bias, chance, hardness), evaluators)
                # Of two, who leans cannot be told: both are named where one leans.
                wrong += bool(found - {0}) if bias and evaluators > 2 else bool(found and not bias)
                right += bool(bias) and 0 in found
            told = f"{right / seminars:17.1%}" if bias else ""
            print(f"{dogs:5} {evaluators:11} {wrong / seminars:14.1%} {told}".rstrip(), flush=True)


if __name__ == "__main__":
    main()
