"""Do further takes settle a value as often as is said, and what does stopping when inside cost?

    python -m tests.bench.more_takes [DOGS]

Dogs of true heights about a limit; a hand with a lasting error and one from take to take, both as large as
assumed. First table: values left undecided of which is said that so many more takes settle them with some
probability, against how often those takes, taken, do settle them. Second: how often a dog that is not inside
is called inside: with a fixed number of takes, and where one goes on taking until it is inside, ten takes at
most. Third: two honest takes that are called contradictory.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Sequence

from hands_on.measure.concordance import concordance
from hands_on.measure.conformity import Band, Verdict, verdict
from hands_on.measure.further import Resting
from hands_on.measure.stopping import stopping as stopping_cost
from hands_on.measure.takes import DefaultU, expected_repeatability, summarise

LIMIT = Band(None, 70.0)
DEFAULT = DefaultU(0.40, 0.006)
U = DEFAULT.at(70.0)
STEP = 0.1
MOST = 10


def judged(takes: Sequence[float]) -> Verdict:
    """What is said of takes."""
    found = summarise(takes, DEFAULT, STEP)
    resting = Resting(found.u, found.u_lasting, found.n, found.dof_repeat, found.dof_lasting)
    return verdict(found.value, found.u, LIMIT, dof=found.dof, resting=resting)


class Hand:
    """One dog under one hand: what stays of its error, and readings."""

    def __init__(self, truth: float, chance: random.Random) -> None:
        self.middle = truth + chance.gauss(0.0, 0.8 * U)
        self.chance = chance

    def take(self) -> float:
        """One more reading."""
        return round(self.middle + self.chance.gauss(0.0, 0.6 * U), 1)


def promised(dogs: int) -> None:
    """How often what was said to settle it does."""
    chance = random.Random("more takes")
    bins: dict[int, list[tuple[float, bool]]] = {}
    for _ in range(dogs):
        hand = Hand(chance.uniform(68.0, 72.0), chance)
        takes = [hand.take() for _ in range(chance.randint(1, 3))]
        found = judged(takes)
        if found.takes_more is None or found.takes_p is None:
            continue
        takes += [hand.take() for _ in range(found.takes_more)]
        kept = (found.takes_p, judged(takes).outcome != "undecided")
        bins.setdefault(int(20 * found.takes_p), []).append(kept)
    print("said to be settled   said on average   settled   values")
    for place, kept in sorted(bins.items()):
        said = sum(p for p, _ in kept) / len(kept)
        came = sum(done for _, done in kept) / len(kept)
        print(f"{place / 20:>8.2f} to {(place + 1) / 20:.2f} {said:>17.3f} {came:>9.3f} {len(kept):>8}")


def stopping(dogs: int) -> None:
    """How often a dog that is over is called inside."""
    print("\ntruly over by   1 take   3 takes   10 takes   until inside, at most 10")
    for beyond in (0.0, 0.1, 0.3, 0.6, 1.0):
        chance = random.Random(f"stopping {beyond}")
        called = {"1": 0, "3": 0, "10": 0, "until": 0}
        for _ in range(dogs):
            hand = Hand(70.0 + beyond, chance)
            takes = [hand.take() for _ in range(MOST)]
            inside = [judged(takes[: n + 1]).outcome == "inside" for n in range(MOST)]
            called["1"] += inside[0]
            called["3"] += inside[2]
            called["10"] += inside[-1]
            called["until"] += any(inside)
        shares = "   ".join(f"{100 * called[key] / dogs:6.1f} %" for key in called)
        print(f"{beyond:10.1f} cm   {shares}")
    one = summarise([70.0], DEFAULT, STEP)
    resting = Resting(one.u, one.u_lasting, one.n, one.dof_repeat, one.dof_lasting)
    told = [stopping_cost(resting, takes - 1, 0.95) for takes in (1, 3, MOST)]
    shares = [*(cost.at_once for cost in told), told[-1].until_inside]
    print(f"{'told of 0.0':>13}   " + "   ".join(f"{100 * share:6.1f} %" for share in shares))


def contradictory(dogs: int) -> None:
    """Honest takes called contradictory, and one of three set aside."""
    chance = random.Random("contradictory")
    sigma = expected_repeatability(66.0, DEFAULT)
    print("\nhonest takes   contradict   one set aside")
    for n in (2, 3, 5):
        kinds = [
            concordance([chance.gauss(66.0, sigma) for _ in range(n)], sigma, STEP).kind for _ in range(dogs)
        ]
        shares = (100 * kinds.count(kind) / dogs for kind in ("contradict", "aside"))
        print(f"{n:12}   " + "   ".join(f"{share:8.2f} %" for share in shares))


def main() -> None:
    """Print the tables."""
    dogs = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    promised(5 * dogs)
    stopping(dogs)
    contradictory(5 * dogs)


if __name__ == "__main__":
    main()
