"""How often the interval of a share holds the true one, at the sizes that cohorts have.

    python -m tests.bench.shares [--level 0.95]

Wilson's interval (Wilson 1927, J. Am. Stat. Assoc. 22: 209-212) is what cohorts print. Of each number of dogs
and each true share the chance that it holds the share is summed over all counts, exactly. Brown, Cai and
DasGupta (2001, Statistical Science 16: 101-133) recommend it for 40 and fewer: on average near what it says,
with single shares below, worst for rare faults. The usual interval, p plus or minus z standard errors, stands
beside it: it is what they warn of.
"""

from __future__ import annotations

import argparse
import math

from hands_on.compare.cohort.shares import FEW, LEVEL, wilson
from hands_on.measure.distributions import normal_quantile

DOGS = (5, 8, 10, 15, 20, 30, 40)
TRUE = (0.02, 0.05, 0.10, 0.20, 0.30, 0.50)


def usual(count: int, n: int, level: float) -> tuple[float, float]:
    """The interval of Wald."""
    p = count / n
    half = normal_quantile(0.5 + level / 2) * math.sqrt(p * (1 - p) / n)
    return p - half, p + half


def covered(n: int, p: float, level: float) -> tuple[float, float]:
    """How often Wilson's interval and the usual one hold the true share `p` of `n` dogs."""
    by_wilson = by_usual = 0.0
    for count in range(n + 1):
        chance = math.comb(n, count) * p**count * (1 - p) ** (n - count)
        share, (low, high) = wilson(count, n, level), usual(count, n, level)
        by_wilson += chance * (share.low <= p <= share.high)
        by_usual += chance * (low <= p <= high)
    return by_wilson, by_usual


def main() -> None:
    """Print the table."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--level", type=float, default=LEVEL)
    level = options.parse_args().level
    print(f"Of 100 cohorts so many have the true share in the interval of {100 * level:g} %:")
    print("Wilson's, and in brackets the usual one\n")
    print("  dogs" + "".join(f"{100 * p:>13.0f} %" for p in TRUE) + f"{'0.5 to 50 %':>15s}")
    for n in DOGS:
        cells = [covered(n, p, level) for p in TRUE]
        fine = [covered(n, p / 1000, level) for p in range(5, 501, 5)]
        mean = [sum(one[side] for one in fine) / len(fine) for side in (0, 1)]
        rows = [f"{100 * own:9.1f} ({100 * other:3.0f})" for own, other in (*cells, mean)]
        print(f"{n:>5}{'*' if n < FEW else ' '}" + "".join(rows))
    print(f"\n* fewer than {FEW}: the cohort says that so few dogs tell little of others")


if __name__ == "__main__":
    main()
