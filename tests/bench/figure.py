"""How long a drawn dog takes in the terminal: processor time, the first drawing and those after it.

    python -m tests.bench.figure [width height]

A frame has 16 ms. Prints milliseconds for each view of three editions' dogs, and for fitting all measures.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from collections.abc import Callable

from hands_on.figure.drawn import figure_of, ideal
from hands_on.figure.reading import readings
from hands_on.figure.skeleton import skeleton
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.tui.drawing import Picture, figure_rows

ROUNDS = 30
EDITIONS = ("german-shepherd-fci-166", "dachshund-fci-148", "border-terrier-fci-10")


def took(work: Callable[[], object]) -> float:
    """Milliseconds of processor time."""
    begun = time.process_time()
    work()
    return (time.process_time() - begun) * 1000


def main(width: int = 160, height: int = 45) -> None:
    """Print the table."""
    library = Library((shipped_rulesets(),))
    print(f"{width} x {height} cells{'first':>30}{'median':>9}{'worst':>9}  ms")
    for name in EDITIONS:
        for view in ("side", "front", "rear"):
            figure = ideal(library.load(name))

            def draw(figure=figure, view=view):  # type: ignore[no-untyped-def]
                figure_rows(Picture(figure, view, over=figure), width, height)

            first = took(draw)
            after = [took(draw) for _ in range(ROUNDS)]
            print(f"{name:>30} {view:<6}{first:9.1f}{statistics.median(after):9.1f}{max(after):9.1f}")
    rules = library.load("any-dog")
    own, ways = ideal(rules), readings(rules)
    at = skeleton(own.shape)
    chance = random.Random(1)
    for count in (3, 10, len(ways)):
        names = chance.sample(sorted(ways), count)
        measures = {name: (ways[name](own.shape, at) * chance.uniform(0.97, 1.03), 0.5) for name in names}
        print(f"fitting {count:>3} measures{took(lambda m=measures: figure_of(rules, m)):24.1f}")  # type: ignore[misc]


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
