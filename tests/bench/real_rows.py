"""Dogs alike in everything, compared: how often is any row called real?

    python -m tests.bench.real_rows [COMPARISONS [SEED]]

Dogs of one truth are measured and graded by one evaluator, with the errors that the program assumes: takes by
the point's own uncertainty (half of its lasting variance common to all), a grade right 8 times in 10, else a
step off; "doubtful": the uncertainties are themselves only as good as is assumed of them (8 degrees of
freedom each). At most one comparison in twenty may call a row real; the interval of the rate is Clopper and
Pearson's (1934, Biometrika 26: 404-413). The last column gives the rows that would be called real were each
held against its own error alone.
"""

from __future__ import annotations

import math
import random
import sys
from dataclasses import replace
from pathlib import Path

from hands_on.compare.dogs.side_by_side import traits
from hands_on.compare.examined import Examined
from hands_on.evaluate.measures import at_age, measure
from hands_on.measure.distributions import beta_quantile
from hands_on.measure.takes import LASTING_SHARE, PRIOR_DOF, REPEATABLE_SHARE
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.points import GradePoint, MeasurePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.library import Library
from tests.compare.build import held

EDITION = "hovawart-fci-190"
RIGHT = 0.8

TRUTH = {
    "height": 66.0, "body-length": 74.0, "muzzle-length": 11.0, "skull-length": 11.2, "weight": 34.0,
    "tail-end-to-hock": 2.0, "loin-length": 17.0, "croup-length": 16.0,
}  # fmt: skip
"""Of the dogs, in each point's unit; a point not here lies in the middle of what is plausible."""


def alike(rules: Ruleset, dogs: int, chance: random.Random, *, doubtful: bool = False) -> list[Examined]:
    """Examinations of dogs alike in everything, by one hand; with `doubtful` its errors are not as assumed.

    Each part of an uncertainty is then as large as it may be, found as it was with 8 degrees of freedom.
    """
    answers = [""] * dogs
    for point in rules.walk_points:
        if isinstance(point, MeasurePoint):
            truth = TRUTH.get(point.id, sum(point.plausible) / 3)
            u = math.hypot(point.u.a, point.u.b * convert(truth, point.unit, canonical_unit(point.quantity)))
            repeat, lasting = (
                share
                * u
                * (math.sqrt(PRIOR_DOF / chance.gammavariate(PRIOR_DOF / 2, 2)) if doubtful else 1.0)
                for share in (REPEATABLE_SHARE, LASTING_SHARE)
            )
            common = chance.gauss(0.0, lasting * math.sqrt(0.5))
            for n in range(dogs):
                own = chance.gauss(0.0, math.hypot(repeat, lasting * math.sqrt(0.5)))
                value = round(truth + common + own, 2)
                answers[n] += f'[[takes]]\npoint = "{point.id}"\nvalue = {value}\nunit = "{point.unit}"\n'
        elif isinstance(point, GradePoint) and (point.less or point.more):
            truth_step = chance.choice([-1, 0, 0, 0, 1])
            for n in range(dogs):
                error = chance.choices([0, -1, 1], [RIGHT, (1 - RIGHT) / 2, (1 - RIGHT) / 2])[0]
                answers[n] += _grade(point, truth_step + error)
    return [held(text, name=f"Dog {n}", ruleset=rules) for n, text in enumerate(answers)]


def _doubted(size: float, chance: random.Random) -> float:
    return size * math.sqrt(PRIOR_DOF / chance.gammavariate(PRIOR_DOF / 2, 2))


def _grade(point: GradePoint, step: int) -> str:
    faults = point.less if step < 0 else point.more
    if not step or not faults:
        return f'[[grades]]\npoint = "{point.id}"\nas_asked = true\n'
    return f'[[grades]]\npoint = "{point.id}"\nfault = "{faults[0]}"\ndegree = "{DEGREES[abs(step) - 1]}"\n'


def judged_once(sessions: list[Examined], model: Examined) -> list[Examined]:
    """The same, each with the evaluation of `model` and measurements of its own.

    All that is asked of an evaluation here is what was measured, and these dogs are of one age.
    """
    for one in sessions:
        taken = at_age(measure(one.ruleset, one.session, {}), model.circumstances)
        one.__dict__["evaluation"] = replace(model.evaluation, measured=taken)
    return sessions


def interval(hits: int, of: int) -> tuple[float, float]:
    """The 95 % interval of a rate."""
    low = beta_quantile(0.025, hits, of - hits + 1) if hits else 0.0
    high = beta_quantile(0.975, hits + 1, of - hits) if hits < of else 1.0
    return low, high


def main() -> None:
    """Print the rates."""
    comparisons, seed = (int(word) for word in (sys.argv[1:3] + ["200", "1"][len(sys.argv[1:3]) :]))
    rules = Library([Path(__file__).parents[2] / "rulesets"]).load(EDITION)
    print(
        f"seed {seed}: {comparisons} comparisons of dogs alike in everything; "
        "at most 5 % may call any row real"
    )
    print(f"{'dogs':>5} {'errors':>12} {'rows':>5} {'any real':>9} {'interval':>16} {'beyond own error':>17}")
    for dogs in (2, 6):
        for doubtful in (False, True):
            chance = random.Random(f"{seed} alike {dogs} {doubtful}")
            model = alike(rules, 1, chance)[0]
            any_real = alone = rows = 0
            for _ in range(comparisons):
                sessions = judged_once(alike(rules, dogs, chance, doubtful=doubtful), model)
                points, proportions, table = traits(sessions)
                rows = table.rows
                any_real += table.real > 0
                every = (*points, *proportions)
                alone += sum(row.real or any(one.alone_only for one in row.differences) for row in every)
            low, high = interval(any_real, comparisons)
            kind = "doubtful" if doubtful else "as assumed"
            print(
                f"{dogs:5} {kind:>12} {rows:5} {any_real / comparisons:9.1%} "
                f"{f'{low:.1%} to {high:.1%}':>16} {alone / comparisons:17.1f}",
                flush=True,
            )


if __name__ == "__main__":
    main()
