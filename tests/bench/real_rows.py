"""Dogs alike in everything, compared: how often is any row called real?

    python -m tests.bench.real_rows [COMPARISONS]

Dogs of one truth are measured and graded by one evaluator, with the errors that the program assumes: takes by
the point's own uncertainty (half of its lasting variance common to all), a grade right 8 times in 10, else a
step off. At most one comparison in twenty may call a row real. A second column gives the rows that would be
called real were each held against its own error alone.
"""

from __future__ import annotations

import math
import random
import sys
from pathlib import Path

from hands_on.compare.dogs.side_by_side import side_by_side
from hands_on.compare.examined import Examined
from hands_on.measure.takes import LASTING_SHARE, REPEATABLE_SHARE
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


def alike(rules: Ruleset, dogs: int, chance: random.Random) -> list[Examined]:
    """Examinations of dogs alike in everything, by one hand."""
    answers = [""] * dogs
    for point in rules.walk_points:
        if isinstance(point, MeasurePoint):
            truth = TRUTH.get(point.id, sum(point.plausible) / 3)
            u = math.hypot(point.u.a, point.u.b * convert(truth, point.unit, canonical_unit(point.quantity)))
            common = chance.gauss(0.0, LASTING_SHARE * math.sqrt(0.5) * u)
            for n in range(dogs):
                own = chance.gauss(0.0, math.hypot(REPEATABLE_SHARE, LASTING_SHARE * math.sqrt(0.5)) * u)
                value = round(truth + common + own, 2)
                answers[n] += f'[[takes]]\npoint = "{point.id}"\nvalue = {value}\nunit = "{point.unit}"\n'
        elif isinstance(point, GradePoint) and (point.less or point.more):
            truth_step = chance.choice([-1, 0, 0, 0, 1])
            for n in range(dogs):
                error = chance.choices([0, -1, 1], [RIGHT, (1 - RIGHT) / 2, (1 - RIGHT) / 2])[0]
                answers[n] += _grade(point, truth_step + error)
    return [held(text, name=f"Dog {n}", ruleset=rules) for n, text in enumerate(answers)]


def _grade(point: GradePoint, step: int) -> str:
    faults = point.less if step < 0 else point.more
    if not step or not faults:
        return f'[[grades]]\npoint = "{point.id}"\nas_asked = true\n'
    return f'[[grades]]\npoint = "{point.id}"\nfault = "{faults[0]}"\ndegree = "{DEGREES[abs(step) - 1]}"\n'


def main() -> None:
    """Print the rates."""
    comparisons = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    rules = Library([Path(__file__).parents[2] / "rulesets"]).load(EDITION)
    print(f"{comparisons} comparisons of dogs alike in everything; at most 5 % may call any row real")
    print(f"{'dogs':>5} {'rows':>5} {'any real':>9} {'rows beyond their own error':>28}")
    for dogs in (2, 6):
        chance = random.Random(f"alike {dogs}")
        any_real = alone = rows = 0
        for _ in range(comparisons):
            found = side_by_side(alike(rules, dogs, chance))
            every = (*found.rows, *found.proportions)
            rows = found.table.rows
            any_real += found.table.real > 0
            alone += sum(row.real or any(one.alone_only for one in row.differences) for row in every)
        print(f"{dogs:5} {rows:5} {any_real / comparisons:9.1%} {alone / comparisons:28.1f}", flush=True)


if __name__ == "__main__":
    main()
