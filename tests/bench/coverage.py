"""How often the intervals of agreement hold the truth, by simulation.

    python -m tests.bench.coverage [TABLES]

Dogs differ, hands scatter; the truth is the coefficient of a very large table made the same way, or known.
Printed for each interval: the share of tables of so many dogs whose interval holds it (95 % is wanted), and
the share that gave one.
"""

from __future__ import annotations

import math
import random
import sys
from collections.abc import Callable, Sequence

from hands_on.compare.agreement.alpha import alpha
from hands_on.compare.agreement.estimate import Estimate, Table
from hands_on.compare.agreement.gwet import gwet
from hands_on.compare.agreement.icc import icc
from hands_on.compare.agreement.kappa import quadratic, weighted_kappa
from hands_on.compare.agreement.precision import Precision, Spread, precision

DOGS = (4, 5, 6, 8, 10)
SCALE = [float(step) for step in range(-3, 4)]
MANY = 4000
"""Dogs of the table that tells the true coefficient."""


def graded(dogs: int, evaluators: int, scatter: float, chance: random.Random) -> list[list[float]]:
    """Grades: dogs about as asked, each evaluator with a scatter in degrees."""
    rows = []
    for _ in range(dogs):
        truth = chance.gauss(0.0, 1.2)
        rows.append(
            [float(min(max(round(truth + chance.gauss(0.0, scatter)), -3), 3)) for _ in range(evaluators)]
        )
    return rows


def measured(
    dogs: int, evaluators: int, repeats: int, spread: tuple[float, float, float], chance: random.Random
) -> list[list[list[float]]]:
    """Readings; `spread` holds the standard deviations of evaluators, evaluator by dog, and hand."""
    lean = [chance.gauss(0.0, spread[0]) for _ in range(evaluators)]
    cells = []
    for _ in range(dogs):
        truth = chance.gauss(60.0, 2.0)
        row = []
        for shift in lean:
            middle = truth + shift + chance.gauss(0.0, spread[1])
            row.append([middle + chance.gauss(0.0, spread[2]) for _ in range(repeats)])
        cells.append(row)
    return cells


Judged = Callable[[Table], Estimate]

JUDGED: dict[str, Judged] = {
    "alpha, ordinal": lambda rows: alpha(rows, "ordinal"),
    "alpha, nominal": lambda rows: alpha(rows, "nominal"),
    "AC2": lambda rows: gwet(rows, SCALE, weights=quadratic(len(SCALE))),
    "AC1": lambda rows: gwet(rows, SCALE),
}


def judged(tables: int) -> None:
    """Coefficients of grades."""
    for evaluators in (2, 4):
        for scatter in (0.4, 0.8):
            every = dict(JUDGED)
            if evaluators == 2:
                every["kappa, quadratic"] = lambda rows: weighted_kappa(rows, SCALE)
            for name, of in every.items():
                chance = random.Random(f"{name} {evaluators} {scatter}")
                truth = _value(of, graded(MANY, evaluators, scatter, chance))
                found = [
                    _share(truth, [of(graded(dogs, evaluators, scatter, chance)) for _ in range(tables)])
                    for dogs in DOGS
                ]
                _print(f"{name}, {evaluators} evaluators, {scatter:g} degrees", found)


def readings(tables: int) -> None:
    """ICC(2,1), repeatability and reproducibility."""
    for evaluators in (2, 3, 5):
        for spread in ((0.0, 0.0, 0.6), (0.4, 0.2, 0.5)):
            chance = random.Random(f"{evaluators} {spread}")
            total = math.hypot(*spread)
            truth = 4.0 / (4.0 + total**2)
            found = []
            for dogs in DOGS:
                cells = [measured(dogs, evaluators, 1, spread, chance) for _ in range(tables)]
                found.append(
                    _share(truth, [icc([[cell[0] for cell in row] for row in one]) for one in cells])
                )
            _print(f"ICC(2,1), {evaluators} evaluators, u {total:.2g} cm", found)
    for evaluators in (3, 5):
        spread = (0.4, 0.2, 0.5)
        chance = random.Random(f"repeats {evaluators}")
        kinds: dict[str, tuple[Callable[[Precision], Spread | None], float]] = {
            "s_r": (lambda one: one.repeatability, spread[2]),
            "s_R": (lambda one: one.reproducibility, math.hypot(*spread)),
            "evaluator": (lambda one: one.evaluator, spread[0]),
            "evaluator by dog": (lambda one: one.evaluator_by_dog, spread[1]),
        }
        held = {name: [] for name in kinds}  # type: dict[str, list[tuple[float, float]]]
        for dogs in DOGS:
            rows = [precision(measured(dogs, evaluators, 2, spread, chance)) for _ in range(tables)]
            for name, (of, truth) in kinds.items():
                ends = [of(one) for one in rows if one is not None]
                within = sum(one is not None and one.low <= truth <= one.high for one in ends)
                held[name].append((within / tables, 1.0))
        for name, found in held.items():
            _print(f"{name}, {evaluators} evaluators, twice each", found)


def _value(of: Judged, rows: Table) -> float:
    """The coefficient of a very large table: the mean over parts, since the jackknife takes long."""
    parts = [of(rows[start : start + MANY // 20]).value for start in range(0, MANY, MANY // 20)]
    return math.fsum(part for part in parts if part is not None) / len(parts)


def _share(truth: float, found: Sequence[Estimate]) -> tuple[float, float]:
    told = [one for one in found if one.low is not None and one.high is not None]
    within = sum((one.low or 0.0) <= truth <= (one.high or 0.0) for one in told)
    return within / max(len(told), 1), len(told) / len(found)


def _print(name: str, found: Sequence[tuple[float, float]]) -> None:
    cells = (f"{share:5.1%} of {given:4.0%}" if given else f"{'none':>14}" for share, given in found)
    print(f"{name:44}" + "  ".join(f"{cell:>14}" for cell in cells), flush=True)


def main() -> None:
    """Print the table."""
    tables = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    print(f"share of {tables} tables whose interval holds the truth, of the share that gave one")
    print(f"{'dogs':44}" + "  ".join(f"{dogs:>14}" for dogs in DOGS))
    readings(tables)
    judged(tables)


if __name__ == "__main__":
    main()
