"""How well notes are read: `python -m tests.bench.read_notes CORPUS.jsonl ...`

Each line of a corpus is one labelled note: note, region (on screen, or null), faults (id, degree, side,
status), measures (id, value, unit), kind, and affirmed (points) where they are labelled. Prints precision,
recall and F1 for (fault, status), degree and side among the matched, measures, the precision of what would be
accepted unasked, the notes without a fault that stay clean, affirmed points, all by kind, a reliability
table of the confidence, the same figures for a plain baseline (rapidfuzz WRatio over every wording), and
the speed of both. `--errors` lists every note read otherwise than labelled; `--no-baseline` leaves out the
baseline.
"""

import argparse
import json
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, fields
from itertools import pairwise
from pathlib import Path
from typing import Any

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from rapidfuzz import fuzz, process, utils

from hands_on.notes import FoundFault, Reading, WordingSource, build_lexicon, read_note
from tests.bench.load import shipped_wording

Note = dict[str, Any]
Reader = Callable[[Note], Reading]


@dataclass
class Score:
    """Counts over some notes."""

    hit: int = 0
    extra: int = 0
    missed: int = 0
    degree: int = 0
    side: int = 0
    measure_hit: int = 0
    measure_extra: int = 0
    measure_missed: int = 0
    accepted: int = 0
    accepted_right: int = 0
    empty: int = 0
    empty_clean: int = 0
    affirmed_hit: int = 0
    affirmed_extra: int = 0
    affirmed_missed: int = 0
    affirmed_accepted: int = 0
    affirmed_accepted_right: int = 0

    def plus(self, other: "Score") -> "Score":
        """The counts of both."""
        return Score(**{f.name: getattr(self, f.name) + getattr(other, f.name) for f in fields(Score)})

    def count_affirmed(self, note: Note, reading: Reading) -> None:
        """Points said to be right, where the note is labelled with them."""
        if "affirmed" not in note:
            return
        wanted, found = set(note["affirmed"]), {a.point: a.accepted for a in reading.affirmed}
        self.affirmed_hit += len(wanted & found.keys())
        self.affirmed_extra += len(found.keys() - wanted)
        self.affirmed_missed += len(wanted - found.keys())
        self.affirmed_accepted += sum(found.values())
        self.affirmed_accepted_right += sum(sure and point in wanted for point, sure in found.items())

    @staticmethod
    def head(width: int = 14) -> str:
        """The names of the columns."""
        return " " * width + "".join(f" {name:>6}" for name in COLUMNS)

    @staticmethod
    def f1(hit: int, extra: int, missed: int) -> float:
        return 2 * hit / (2 * hit + extra + missed) if hit + extra + missed else 1.0

    def line(self, name: str, width: int = 14) -> str:
        """The figures of `COLUMNS`."""

        def share(part: int, whole: int) -> str:
            return f"{part / whole:6.3f}" if whole else "     -"

        return (
            f"{name:{width}} {share(self.hit, self.hit + self.extra)}"
            f" {share(self.hit, self.hit + self.missed)}"
            f" {self.f1(self.hit, self.extra, self.missed):6.3f}"
            f" {share(self.degree, self.hit)} {share(self.side, self.hit)}"
            f" {self.f1(self.measure_hit, self.measure_extra, self.measure_missed):6.3f}"
            f" {share(self.accepted_right, self.accepted)}"
            f" {share(self.accepted_right, self.hit + self.missed)}"
            f" {share(self.empty_clean, self.empty)}"
            f" {self.f1(self.affirmed_hit, self.affirmed_extra, self.affirmed_missed):6.3f}"
            f" {share(self.affirmed_accepted_right, self.affirmed_accepted)}"
        )


COLUMNS = ("prec", "recall", "F1", "degree", "side", "measF1", "accP", "accR", "clean", "affF1", "affP")


@dataclass
class Result:
    """Scores of a reader over a corpus."""

    total: Score = field(default_factory=Score)
    kinds: dict[str, Score] = field(default_factory=lambda: defaultdict(Score))
    confidence: list[tuple[float, bool]] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)
    seconds: float = 0.0
    slowest: list[float] = field(default_factory=list)


def score(notes: Sequence[Note], reader: Reader) -> Result:
    """Run the reader over the notes and count."""
    result = Result()
    for note in notes:
        before = time.perf_counter()
        reading = reader(note)
        took = time.perf_counter() - before
        result.seconds += took
        result.slowest.append(took)
        _count(note, reading, result)
    return result


def _count(note: Note, reading: Reading, result: Result) -> None:
    wanted = {(f["id"], f["status"]): f for f in note["faults"]}
    found: dict[tuple[str, str], FoundFault] = {(f.id, f.status): f for f in reading.faults}
    wanted_measures = {(m["id"], float(m["value"]), m["unit"]) for m in note["measures"]}
    found_measures = {(m.id, m.value, m.unit) for m in reading.measures}
    hits = wanted.keys() & found.keys()
    wrong: list[str] = [f"missed {k[0]} {k[1]}" for k in wanted.keys() - hits]
    wrong += [f"extra {k[0]} {k[1]} {found[k].confidence:.2f}" for k in found.keys() - hits]
    if "affirmed" in note:
        said = {a.point for a in reading.affirmed}
        wrong += [f"not affirmed {point}" for point in sorted(set(note["affirmed"]) - said)]
        wrong += [f"affirmed too {point}" for point in sorted(said - set(note["affirmed"]))]
    for key, fault in found.items():
        result.confidence.append((fault.confidence, key in wanted))
    for s in (result.total, result.kinds[note.get("kind", "")]):
        s.hit += len(hits)
        s.extra += len(found) - len(hits)
        s.missed += len(wanted) - len(hits)
        s.degree += sum(wanted[k]["degree"] == found[k].degree for k in hits)
        s.side += sum(wanted[k]["side"] == found[k].side for k in hits)
        s.measure_hit += len(wanted_measures & found_measures)
        s.measure_extra += len(found_measures - wanted_measures)
        s.measure_missed += len(wanted_measures - found_measures)
        s.count_affirmed(note, reading)
        s.accepted += sum(f.accepted for f in found.values())
        s.accepted_right += sum(f.accepted and k in wanted for k, f in found.items())
        if not wanted:
            s.empty += 1
            s.empty_clean += not found
    for k in hits:
        if wanted[k]["degree"] != found[k].degree:
            wrong.append(f"{k[0]}: degree {found[k].degree}, not {wanted[k]['degree']}")
        if wanted[k]["side"] != found[k].side:
            wrong.append(f"{k[0]}: side {found[k].side}, not {wanted[k]['side']}")
    if wanted_measures != found_measures:
        wrong.append(f"measures {sorted(map(str, found_measures))}, not {sorted(map(str, wanted_measures))}")
    if wrong:
        result.errors.append(f"[{note['region']}/{note.get('kind')}] {note['note']}\n    " + "; ".join(wrong))


def baseline(source: WordingSource, limit: float = 90.0) -> Reader:
    """The plain way: every wording scored with WRatio, each fault above the limit is present."""
    phrases = [
        (utils.default_process(w), fault) for fault, words in source.faults.items() for w in words.wording
    ]
    texts = [p for p, _ in phrases]

    def read(note: Note) -> Reading:
        scored = process.extract(utils.default_process(note["note"]), texts, scorer=fuzz.WRatio, limit=3)
        faults: dict[str, FoundFault] = {}
        for _, value, index in scored:
            fault = phrases[index][1]
            if value >= limit and fault not in faults:
                faults[fault] = FoundFault(fault, None, None, "present", value / 100, (0, 0), value >= 99)
        return Reading(note["note"], tuple(faults.values()))

    return read


def report(name: str, result: Result, kinds: bool) -> None:
    """Print one reader's figures."""
    print(f"\n{name}\n{Score.head()}")
    print(result.total.line("all"))
    if kinds:
        for kind in sorted(result.kinds):
            print(result.kinds[kind].line(kind))


def reliability(result: Result) -> None:
    """Print how often findings of each confidence are right."""
    print("\nconfidence   findings   stated   right")
    edges = [0.0, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.98, 1.0001]
    for low, high in pairwise(edges):
        group = [(p, ok) for p, ok in result.confidence if low <= p < high]
        if group:
            stated = sum(p for p, _ in group) / len(group)
            right = sum(ok for _, ok in group) / len(group)
            print(f"{low:.2f}-{min(high, 1.0):.2f}  {len(group):9} {stated:8.3f} {right:7.3f}")


def main(argv: Sequence[str] | None = None) -> int:
    """Read the corpora and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("corpus", nargs="+", type=Path)
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--no-baseline", action="store_true")
    options = parser.parse_args(argv)
    notes = [
        json.loads(line)
        for path in options.corpus
        for line in path.read_text(encoding="utf-8").splitlines()
        if line
    ]
    source = shipped_wording()
    before = time.perf_counter()
    lexicon = build_lexicon(source)
    built = time.perf_counter() - before
    result = score(notes, lambda n: read_note(n["note"], lexicon, region=n["region"]))
    report(f"Reading {len(notes)} notes", result, kinds=True)
    reliability(result)
    slow = sorted(result.slowest)
    print(
        f"\nlexicon built in {1000 * built:.0f} ms; a note in {1000 * result.seconds / len(notes):.2f} ms,"
        f" 99th percentile {1000 * slow[min(len(slow) - 1, int(0.99 * len(slow)))]:.2f} ms"
    )
    if options.errors:
        print("\n" + "\n".join(result.errors))
    if not options.no_baseline:
        plain = score(notes, baseline(source))
        report("Baseline: rapidfuzz WRatio over every wording", plain, kinds=False)
        print(
            f"\na note in {1000 * plain.seconds / len(notes):.2f} ms:"
            f" {plain.seconds / result.seconds:.1f} times as long"
        )
        typed = keystrokes(notes, lexicon)
        print(f"a keystroke in the note line: {1000 * typed:.2f} ms at the 99th percentile")
    return 0


def keystrokes(notes: Sequence[Note], lexicon: Any) -> float:
    """The 99th percentile of seconds to read each beginning of the notes, as if typed."""
    took: list[float] = []
    for note in notes[:60]:
        for end in range(1, len(note["note"]) + 1):
            before = time.perf_counter()
            read_note(note["note"][:end], lexicon, region=note["region"])
            took.append(time.perf_counter() - before)
    took.sort()
    return took[int(0.99 * len(took))]


if __name__ == "__main__":
    raise SystemExit(main())
