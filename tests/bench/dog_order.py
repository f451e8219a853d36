"""How often is an order of dogs said to be settled, or a dog first, that is not?

    python -m tests.bench.dog_order [COMPARISONS [SEED]]

Three dogs alike in everything, recorded with the errors that the program assumes (tests.bench.real_rows): any
order of them is error alone, and at most one comparison in twenty may call it settled or a dog surely first.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

from hands_on.compare.dogs.order import order
from hands_on.store.library import Library
from tests.bench.real_rows import EDITION, alike


def main() -> None:
    """Print the rates."""
    comparisons, seed = (int(word) for word in (sys.argv[1:3] + ["30", "1"][len(sys.argv[1:3]) :]))
    rules = Library([Path(__file__).parents[2] / "rulesets"]).load(EDITION)
    print(
        f"seed {seed}: {comparisons} comparisons of three dogs alike in everything; at most 5 % may be called"
    )
    chance = random.Random(f"{seed} three dogs")
    settled = first = 0
    for _ in range(comparisons):
        found = order(alike(rules, 3, chance), draws=1000)
        settled += found.settled
        first += any(one.p_place and one.p_place[0] >= found.sure for one in found.dogs)
    print(f"order settled {settled / comparisons:.1%}, a dog surely first {first / comparisons:.1%}")


if __name__ == "__main__":
    main()
