"""What the grids of wording and of measurements share: every n-th note read, counted by its keys, printed."""

import argparse
from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from hands_on.notes import Reading, read_note
from tests.bench.load import shipped_lexicon


@dataclass(frozen=True)
class Row:
    """One note of a grid."""

    meant: str
    """The departure or measurement that it speaks of."""
    form: str
    note: str
    region: str | None
    right: Callable[[Reading], bool]


def read_grid(about: str | None, rows: Iterable[Row], found: Callable[[Reading], Iterable[object]]) -> None:
    """Read the grid as the command line says; print the shares, the worst first."""
    parser = argparse.ArgumentParser(description=about)
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--every", type=int, default=1, help="read each n-th note only")
    options = parser.parse_args()
    lexicon = shipped_lexicon()
    right: dict[str, list[int]] = defaultdict(lambda: [0, 0])
    wrong: list[str] = []
    for at, row in enumerate(rows, 1):
        if at % options.every:
            continue
        reading = read_note(row.note, lexicon, region=row.region)
        ok = row.right(reading)
        for key in ("all", row.form, row.meant):
            right[key][0] += ok
            right[key][1] += 1
        if not ok:
            wrong.append(f"{row.meant}: {row.note!r} read as {sorted(map(str, found(reading)))}")
    for key, (hits, count) in sorted(right.items(), key=lambda item: item[1][0] / item[1][1]):
        print(f"{key:44} {hits:6} of {count:6}  {hits / count:.3f}")
    if options.errors:
        print("\n".join(wrong))
