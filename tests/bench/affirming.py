"""Fit the weights of [affirming] in language.toml: `python -m tests.bench.affirming [CORPUS.jsonl ...]`

A logistic regression of "the point was called right" on the evidence of each affirmation, drawn towards the
present weights, over the notes of each writer among the examples (`met-...`), those of `MENDED` and the
corpora named; lists of single remarks teach the likeness alone. What the likeness knows it has learned from
the other writers. Prints the weights and, leaving out one writer at a time, the precision of what would be
taken unasked and its share of all that was called right, at several thresholds.
"""

import argparse
import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from hands_on.notes import Lexicon, build_lexicon, read_note
from hands_on.notes import affirmed as affirmed_module
from tests.bench.calibrate import examples_but
from tests.bench.load import RULESETS, shipped_wording

MENDED = ("country", "handler", "mixed", "whole-critiques")
"""Corpora of tests/data/notes whose errors were mended: they are no strangers, and may be learned from."""
RIDGE = 0.5
AGAINST = frozenset({
    "cost", "hedged", "sums.up", "names.other", "names.none", "elsewhere", "other.part", "contrast",
    "unread", "strange", "rivals", "rivals.elsewhere", "amiss", "amiss.region", "modal", "denies",
    "compares", "one.word", "way.screen", "way.may-be",
})  # fmt: skip
"""Evidence that never speaks for an affirmation, whatever a few notes say."""
CHOSEN = frozenset({"set.phrase"})
"""Chosen, not fitted: phrases that everybody means alike are too seldom wrong to be weighed."""


@dataclass(frozen=True)
class Heard:
    """One affirmation with its evidence."""

    writer: str
    evidence: dict[str, float]
    right: bool
    sums_up: bool
    told: str


def heard(path: Path, lexicon: Lexicon) -> tuple[list[Heard], int]:
    """The affirmations read from a writer's notes, and how many points the notes call right."""
    plain = affirmed_module.right_probability
    out: list[Heard] = []
    wanted_in_all = 0
    seen: list[tuple[dict[str, float], float]] = []

    def spy(evidence: dict[str, float], known: Lexicon) -> float:
        p = plain(evidence, known)
        seen.append((evidence, p))
        return p

    affirmed_module.right_probability = spy
    try:
        for line in path.read_text(encoding="utf-8").splitlines():
            note = json.loads(line)
            if "affirmed" not in note:
                continue
            wanted = set(note["affirmed"])
            wanted_in_all += len(wanted)
            seen.clear()
            for found in read_note(note["note"], lexicon, region=note["region"]).affirmed:
                evidence = next((e for e, p in seen if p == found.confidence), None)
                if evidence is None:
                    continue  # by what was ruled out or counted: no weight decides
                words = lexicon.affirms.get(found.point)
                sums_up = words is not None and words.sums_up
                right = found.point in wanted
                out.append(Heard(path.stem, evidence, right, sums_up, f"{found.point}: {note['note']}"))
    finally:
        affirmed_module.right_probability = plain
    return out, wanted_in_all


def fit(x: np.ndarray, y: np.ndarray, prior: np.ndarray, names: Sequence[str]) -> np.ndarray:
    """Weights that explain y, drawn towards the prior; evidence against never speaks for."""
    bounds = [
        (p, p) if n in CHOSEN else (None, 0.0) if n in AGAINST else (None, None)
        for n, p in zip(names, prior, strict=True)
    ]

    def loss(w: np.ndarray) -> float:
        z = x @ w
        return float(np.sum(np.logaddexp(0, z) - y * z) + RIDGE * np.sum((w - prior) ** 2))

    return minimize(loss, prior, method="L-BFGS-B", bounds=bounds).x


def main(argv: Sequence[str] | None = None) -> int:
    """Fit and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("corpus", nargs="*", type=Path)
    parser.add_argument("--errors", type=float, metavar="P", help="show what is wrong and surer than P")
    options = parser.parse_args(argv)
    notes = Path(__file__).parents[1] / "data" / "notes"
    paths = [*sorted((RULESETS / "common" / "examples").glob("met-*.jsonl"))]
    paths += [*(notes / f"{name}.jsonl" for name in MENDED), *options.corpus]
    source = shipped_wording()
    lexicon = build_lexicon(source)
    found: list[Heard] = []
    wanted = 0
    for path in paths:
        learned = build_lexicon(replace(source, examples=examples_but(path)))
        more, called = heard(path, learned)
        found += more
        wanted += called
    names = sorted({n for h in found for n in h.evidence} | set(lexicon.affirming) - {"accept", "floor"})
    x = np.array([[h.evidence.get(n, 0.0) for n in names] for h in found])
    y = np.array([h.right for h in found], float)
    prior = np.array([lexicon.affirming.get(n, 0.0) for n in names])
    for name, weight in zip(names, fit(x, y, prior, names), strict=True):
        print(f'"{name}" = {weight:.2f}')
    held = np.zeros(len(y))
    for writer in {h.writer for h in found}:
        out = np.array([h.writer == writer for h in found])
        held[out] = 1 / (1 + np.exp(-(x[out] @ fit(x[~out], y[~out], prior, names))))
    may = np.array([not h.sums_up for h in found])
    print(f"heard {len(y)}, right {y.sum():.0f}, called right {wanted}")
    for limit in (0.8, 0.85, 0.9, 0.92, 0.93, 0.94, 0.95, 0.96, 0.97, 0.98, 0.99):
        take = (held >= limit) & may
        if take.any():
            share = y[take].sum() / wanted
            print(f"taken from {limit}: precision {y[take].mean():.4f}, share {share:.3f}")
    if options.errors is not None:
        for p, one in sorted(zip(held, found, strict=True), key=lambda pair: -pair[0]):
            if p >= options.errors and not one.right:
                print(f"{p:.3f} {one.writer} {one.told[:200]}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
