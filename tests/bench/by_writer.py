"""How writers never met are read: `python -m tests.bench.by_writer [NAME ...]`

Each file of rulesets/common/examples is one writer. For each in turn everything that is learned from labelled
notes (likeness, and the weights of [confidence]) is learned from the other writers alone, and the writer left
out is read: F1 of findings, precision and share of what would be taken unasked, F1 of what is affirmed and
precision of that taken unasked, F1 of measures, and how many notes with nothing to record stay quiet. The
accept threshold is chosen on the writers left out, at the precision asked for.

The grammar's wording is written by hand and can't be left out; it was mended on some of these files. `--thin
0.3` takes that share of all its phrases away at random, which is nearer to a stranger. With NAMEs only those
writers are read (weights are then fitted on each other).
"""

import argparse
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from random import Random
from typing import Any

import numpy as np

from hands_on.notes import Lexicon, Reading, build_lexicon
from hands_on.notes import reading as reading_module
from hands_on.notes.confidence import features
from tests.bench.calibrate import examples_but, fit, thinned
from tests.bench.load import RULESETS, shipped_wording
from tests.bench.read_notes import Score

PRECISION = 0.985
"""Asked of what is taken unasked, on writers left out."""


@dataclass
class Offered:
    """A finding of one note, with the evidence for it."""

    evidence: dict[str, float]
    right: bool
    may_be_taken: bool
    """Neither ambiguous nor beside praise: sureness alone decides."""
    floor: float
    degree: bool
    side: bool
    p: float = 0.0


@dataclass
class Writer:
    """One writer's notes as read without what they teach."""

    name: str
    score: Score = field(default_factory=Score)
    offered: list[list[Offered]] = field(default_factory=list)
    """Note by note."""
    wanted: list[int] = field(default_factory=list)
    """Findings labelled, note by note."""

    def score_at(self, accept: float) -> Score:
        """Counts, where findings are taken from `accept` on."""
        s = replace(self.score)
        for found, wanted in zip(self.offered, self.wanted, strict=True):
            kept = [one for one in found if one.p >= one.floor]
            hit = sum(one.right for one in kept)
            taken = [one for one in kept if one.may_be_taken and one.p >= accept]
            s.hit += hit
            s.degree += sum(one.degree for one in kept)
            s.side += sum(one.side for one in kept)
            s.extra += len(kept) - hit
            s.missed += wanted - hit
            s.accepted += len(taken)
            s.accepted_right += sum(one.right for one in taken)
            s.empty += not wanted
            s.empty_clean += not wanted and not kept
        return s


def read_writer(path: Path, lexicon: Lexicon) -> Writer:
    """Read a writer's notes, keeping the evidence for each finding."""
    writer = Writer(path.stem)
    undecided = replace(lexicon, confidence={**lexicon.confidence, "accept": 0.0})
    floors = lexicon.confidence
    plain = reading_module.probability
    seen: dict[tuple[str, str], tuple[float, dict[str, float], str]] = {}

    def spy(context: Any, judged: Any) -> float:
        p = plain(context, judged)
        key = (judged.candidate.faults[0], judged.status)
        if key not in seen or p > seen[key][0]:
            seen[key] = (p, features(context, judged), judged.candidate.origin)
        return p

    reading_module.probability = spy
    try:
        for line in path.read_text(encoding="utf-8").splitlines():
            note = json.loads(line)
            seen.clear()
            reading = reading_module.read_note(note["note"], undecided, region=note["region"])
            wanted = {(f["id"], f["status"]): f for f in note["faults"]}
            found = []
            for f in reading.faults:
                p, evidence, origin = seen[f.id, f.status]
                floor = floors["floor.guess" if origin == "like" else "floor"]
                meant = wanted.get((f.id, f.status), {})
                degree, side = meant.get("degree", "") == f.degree, meant.get("side", "") == f.side
                found.append(Offered(evidence, bool(meant), f.accepted, floor, degree, side, p))
            writer.offered.append(found)
            writer.wanted.append(len(wanted))
            _count_rest(note, reading, writer.score)
    finally:
        reading_module.probability = plain
    return writer


def _count_rest(note: dict[str, Any], reading: Reading, score: Score) -> None:
    """Measures and affirmed points, which no weight decides."""
    measures = {(m["id"], float(m["value"]), m["unit"]) for m in note["measures"]}
    read = {(m.id, m.value, m.unit) for m in reading.measures}
    score.measure_hit += len(measures & read)
    score.measure_extra += len(read - measures)
    score.measure_missed += len(measures - read)
    score.count_affirmed(note, reading)


def weigh(writers: Sequence[Writer], names: Sequence[str], prior: np.ndarray) -> None:
    """Give each writer's findings the probability that the other writers' notes teach."""
    rows = [(k, one) for k, w in enumerate(writers) for note in w.offered for one in note]
    x = np.array([[one.evidence.get(name, 0.0) for name in names] for _, one in rows])
    y = np.array([one.right for _, one in rows], float)
    by = np.array([k for k, _ in rows])
    for k in range(len(writers)):
        out = by == k
        if out.any():
            weights = fit(x[~out], y[~out], prior, names) if (~out).any() else prior
            for (_, one), p in zip(
                (r for r in rows if r[0] == k), 1 / (1 + np.exp(-(x[out] @ weights))), strict=True
            ):
                one.p = float(p)


def threshold(writers: Sequence[Writer], precision: float = PRECISION) -> float:
    """The lowest probability from which on what is taken is right so often; 1 where none is."""
    rows = sorted(
        ((one.p, one.right) for w in writers for note in w.offered for one in note if one.may_be_taken),
        reverse=True,
    )
    lowest, right = 1.0, 0
    for number, (p, ok) in enumerate(rows, 1):
        right += ok
        if right / number >= precision:
            lowest = p
    return lowest


def main(argv: Sequence[str] | None = None) -> int:
    """Read every writer, print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("names", nargs="*", metavar="NAME")
    parser.add_argument("--thin", type=float, default=0.0, metavar="SHARE")
    options = parser.parse_args(argv)
    paths = sorted((RULESETS / "common" / "examples").glob("*.jsonl"))
    unknown = set(options.names) - {p.stem for p in paths}
    if unknown:
        parser.error(f"no such writer: {', '.join(sorted(unknown))}")
    source = shipped_wording()
    if options.thin:
        source = thinned(source, options.thin, Random(1))
    confidence = source.language.confidence
    writers = []
    for path in paths:
        if not options.names or path.stem in options.names:
            lexicon = build_lexicon(replace(source, examples=examples_but(path)))
            writers.append(read_writer(path, lexicon))
            print(".", end="", file=sys.stderr, flush=True)
    evidence = {n for w in writers for note in w.offered for one in note for n in one.evidence}
    names = sorted(evidence | set(confidence) - {"accept", "floor", "floor.guess"})
    weigh(writers, names, np.array([confidence.get(n, 0.0) for n in names]))
    best, shipped = threshold(writers), float(confidence["accept"])
    print(f"\nlearned without the writer; taken unasked from {shipped:.2f} on\n{Score.head(24)}")
    total = Score()
    for writer in writers:
        s = writer.score_at(shipped)
        total = total.plus(s)
        print(s.line(writer.name, 24))
    print(total.line("all writers", 24))
    print(f"\nat a precision of {PRECISION:.3f} on writers left out: taken from {best:.3f} on")
    print(sum_of(writers, best).line("all writers", 24))
    return 0


def sum_of(writers: Sequence[Writer], accept: float) -> Score:
    """The counts of all writers together."""
    total = Score()
    for writer in writers:
        total = total.plus(writer.score_at(accept))
    return total


if __name__ == "__main__":
    raise SystemExit(main())
