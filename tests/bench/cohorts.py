"""How often a cohort tells of a change over the years that is not there, and how often it sees one that is.

    python -m tests.bench.cohorts [--rounds 400] [--seed 1]

Dogs are drawn without any trend: heights by sex, gradings by four evaluators, twelve years of birth. Told in
one cohort of twenty at most is what `compare/cohort` promises; the rate is printed, and how often a true rise
of 0.3 cm a year is told.
"""

from __future__ import annotations

import argparse
import datetime
import random
from collections.abc import Iterator

from hands_on.compare.cohort.cohort import cohort
from hands_on.compare.cohort.members import Member, Sized


def drawn(chance: random.Random, dogs: int, rise: float) -> Iterator[Member]:
    """Dogs of an invented breed; `rise`: centimetres a year that both sexes grow taller by."""
    for n in range(dogs):
        born = datetime.date(2010 + chance.randrange(12), 1 + chance.randrange(12), 15)
        sex = chance.choice(("male", "female"))
        height = (66.0 if sex == "male" else 61.5) + rise * (born.year - 2016) + chance.gauss(0, 1.8)
        sizes = tuple(
            Sized(name, name, value, 0.5, "cm", too_young=False)
            for name, value in (
                ("height", height),
                ("body-length", height * 1.12 + chance.gauss(0, 1.5)),
                ("chest-depth", height * 0.48 + chance.gauss(0, 1.0)),
            )
        )
        day = born + datetime.timedelta(days=600 + chance.randrange(900))
        graded = 80
        yield Member(
            name=f"{n}.toml", dog=str(n), call_name=f"Dog {n}", sex=sex, born=born, sire="", dam="",
            litter="", registered_name="", evaluator=f"E{chance.randrange(4)}", day=day.isoformat(),
            signed=True,
            edition="drawn", breed="Drawn",
            age=30.0, looked_for=frozenset(), found=(), sizes=sizes, graded=graded,
            steps=sum(chance.random() < 0.08 for _ in range(graded)),
        )  # fmt: skip


def main() -> None:
    """Print the rates."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--rounds", type=int, default=400)
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args()
    chance = random.Random(given.seed)
    for dogs in (20, 60, 200):
        false = seen = 0
        for _ in range(given.rounds):
            even = cohort(list(drawn(chance, dogs, 0.0)))
            false += any(one.clear for one in (*even.trends, *even.drift))
            rising = cohort(list(drawn(chance, dogs, 0.3)))
            seen += any(one.clear and one.about == "height" for one in rising.trends)
        print(
            f"{dogs:>4} dogs: told of a change that is not there in {100 * false / given.rounds:.1f} % of "
            f"cohorts, of a true 0.3 cm a year in {100 * seen / given.rounds:.0f} %"
        )


if __name__ == "__main__":
    main()
