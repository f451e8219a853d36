"""How often every interval that is told holds the truth, by simulation.

    python -m tests.bench.coverage [TABLES [SEED [judged | readings | values | growth]]]

Dogs differ, hands scatter; the truth is the coefficient of a very large table made the same way, or known.
Printed for each interval: the share of tables of so many dogs whose interval holds it (95 % is wanted), and
the share that gave one; of grades for dogs and hands that vary much and little, in degrees. How wide the
interval of a coefficient is was chosen on other draws, of two and four evaluators and the first four kinds in
`DRAWN`: what is printed is a check of that choice. Below, of single dogs: values of takes, of a hand whose
error is as assumed or only as well known as is assumed; and the ranges in which growth ends, of dogs whose
timing and curve err as is assumed.
"""

from __future__ import annotations

import math
import random
import sys
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from unittest.mock import patch

from hands_on.compare.agreement import alpha as alpha_module
from hands_on.compare.agreement import gwet as gwet_module
from hands_on.compare.agreement import kappa as kappa_module
from hands_on.compare.agreement.alpha import alpha
from hands_on.compare.agreement.estimate import Estimate, Table
from hands_on.compare.agreement.gwet import gwet
from hands_on.compare.agreement.icc import icc
from hands_on.compare.agreement.kappa import quadratic, weighted_kappa
from hands_on.compare.agreement.precision import Precision, Spread, precision
from hands_on.measure.distributions import student_quantile
from hands_on.measure.growth_curves import TIMING, curve_error, curve_of
from hands_on.measure.growth_seen import Seen, project_seen
from hands_on.measure.takes import LASTING_SHARE, PRIOR_DOF, REPEATABLE_SHARE, DefaultU, summarise

DOGS = (4, 5, 6, 8, 10, 16)
SCALE = [float(step) for step in range(-3, 4)]
MANY = 20_000
"""Dogs of the table that tells the true coefficient."""


FEW = 100
"""Intervals; of fewer the share that holds is too rough to be called the least."""

DRAWN = ((1.2, 0.4), (1.2, 0.8), (0.5, 0.4), (0.7, 0.6), (0.9, 0.5), (1.6, 1.0))
"""By how many degrees dogs vary, and hands scatter: much and little of both."""


def graded(
    dogs: int, evaluators: int, spread: float, scatter: float, chance: random.Random
) -> list[list[float]]:
    """Grades: dogs about as asked, each evaluator with a scatter in degrees."""
    rows = []
    for _ in range(dogs):
        truth = chance.gauss(0.0, spread)
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


def judged(tables: int, seed: int) -> None:
    """Coefficients of grades."""
    least: dict[int, float] = dict.fromkeys(DOGS, 1.0)
    for evaluators in (2, 3, 4, 6):
        for spread, scatter in DRAWN:
            every = dict(JUDGED)
            if evaluators == 2:
                every["kappa, quadratic"] = lambda rows: weighted_kappa(rows, SCALE)
            for name, of in every.items():
                chance = random.Random(f"{seed} {name} {evaluators} {spread} {scatter}")
                truth = _value(of, graded(MANY, evaluators, spread, scatter, chance))
                found = [
                    _share(
                        truth, [of(graded(dogs, evaluators, spread, scatter, chance)) for _ in range(tables)]
                    )
                    for dogs in DOGS
                ]
                for dogs, (share, given) in zip(DOGS, found, strict=True):
                    least[dogs] = min(least[dogs], share) if given * tables >= FEW else least[dogs]
                _print(f"{name}, {evaluators} evaluators, dogs {spread:g}, hands {scatter:g}", found)
    _print(f"least of these, of {FEW} intervals or more", [(share, share < 1.0) for share in least.values()])


def readings(tables: int, seed: int) -> None:
    """ICC(2,1), repeatability and reproducibility."""
    for evaluators in (2, 3, 5):
        for spread in ((0.0, 0.0, 0.6), (0.4, 0.2, 0.5)):
            chance = random.Random(f"{seed} {evaluators} {spread}")
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
        chance = random.Random(f"{seed} repeats {evaluators}")
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


SIZES: dict[str, Callable[[random.Random], float]] = {
    "as assumed": lambda chance: 1.0,
    "good to a quarter": lambda chance: chance.gammavariate(2 * PRIOR_DOF, 1 / (2 * PRIOR_DOF)),
    "as 8 repeats tell": lambda chance: math.sqrt(PRIOR_DOF / chance.gammavariate(PRIOR_DOF / 2, 2)),
}
"""How many times as large as assumed each part of a hand's error is. The second is what is assumed of it
(JCGM 100:2008, formula G.3); the third, as if found from so few repeats, is now and then far larger."""


def values(dogs: int, seed: int) -> None:
    """Values of takes with their t-interval, on one stand or several."""
    default = DefaultU(0.40, 0.006, stand_share=0.5)
    u = default.at(60.0)
    print(f"\nvalue +- t u of {dogs} dogs\n{'':28}" + "".join(f"{name:>20}" for name in SIZES))
    for stands in ([1], [1, 1], [1, 1, 1], [1, 2], [1, 2, 3], [1, 1, 1, 2]):
        chance = random.Random(f"{seed} values {stands}")
        shares = []
        for size in SIZES.values():
            held = 0
            for _ in range(dogs):
                repeat, lasting = (share * u * size(chance) for share in (REPEATABLE_SHARE, LASTING_SHARE))
                way = chance.gauss(60.0, lasting * math.sqrt(0.5))
                stood = {stand: chance.gauss(0.0, lasting * math.sqrt(0.5)) for stand in stands}
                takes = [way + stood[n] + chance.gauss(0.0, repeat) for n in stands]
                found = summarise(takes, default, stands=stands)
                held += abs(found.value - 60.0) <= student_quantile(0.975, found.dof) * found.u
            shares.append(f"{held / dogs:20.1%}")
        print(f"takes on stands {' '.join(map(str, stands)):12}" + "".join(shares), flush=True)


def growth(dogs: int, seed: int) -> None:
    """Ranges of a later size, from one earlier measurement and from three."""
    print(f"\nrange of growth of {dogs} dogs, from one and from three earlier measurements")
    for quantity, size, u in (("height", "large", 0.6), ("weight", "large", 0.3), ("height", "giant", 0.7)):
        chance = random.Random(f"{seed} growth {quantity} {size}")
        curve, error = curve_of(quantity, size), curve_error(quantity, size) / math.sqrt(2)
        held = [0, 0]
        for _ in range(dogs):
            shift = chance.gauss(0.0, TIMING[size])

            ages = (4.0, 5.0, 6.5)
            *sizes, truth = (
                60.0 * curve(max(age + shift, 1.0)) * math.exp(chance.gauss(0.0, error))
                for age in (*ages, 24.0)
            )
            seen = [Seen(x + chance.gauss(0.0, u), u, age) for x, age in zip(sizes, ages, strict=True)]
            for place, used in enumerate((seen[-1:], seen)):
                found = project_seen(used, 24.0, quantity, size)
                held[place] += found.low <= truth <= found.high
        print(f"{quantity}, {size:34}" + "  ".join(f"{count / dogs:6.1%}" for count in held), flush=True)


def _value(of: Judged, rows: Table) -> float:
    """The coefficient of a very large table; its interval, which takes long, is not asked for."""
    with ExitStack() as without:
        for module in (alpha_module, gwet_module, kappa_module):
            without.enter_context(patch.object(module, "jackknife", return_value=None))
        value = of(rows).value
    assert value is not None
    return value


def _share(truth: float, found: Sequence[Estimate]) -> tuple[float, float]:
    told = [one for one in found if one.low is not None and one.high is not None]
    within = sum((one.low or 0.0) <= truth <= (one.high or 0.0) for one in told)
    return within / max(len(told), 1), len(told) / len(found)


def _print(name: str, found: Sequence[tuple[float, float]]) -> None:
    cells = (f"{share:5.1%} of {given:4.0%}" if given else f"{'none':>14}" for share, given in found)
    print(f"{name:44}" + "  ".join(f"{cell:>14}" for cell in cells), flush=True)


def main() -> None:
    """Print the table."""
    tables, seed = (int(word) for word in (sys.argv[1:3] + ["200", "1"][len(sys.argv[1:3]) :]))
    kinds = {"readings": readings, "judged": judged, "values": values, "growth": growth}
    chosen = sys.argv[3:] or list(kinds)
    print(f"seed {seed}: share of {tables} tables whose interval holds the truth, of the share that gave one")
    print(f"{'dogs':44}" + "  ".join(f"{dogs:>14}" for dogs in DOGS))
    for kind in chosen:
        kinds[kind](tables * (10 if kind in ("values", "growth") else 1), seed)


if __name__ == "__main__":
    main()
