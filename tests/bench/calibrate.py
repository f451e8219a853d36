"""Fit the weights of [confidence] in language.toml: `python -m tests.bench.calibrate CORPUS.jsonl ...`

A logistic regression of "fault and status right" on the evidence of each finding, drawn towards the present
weights (a ridge penalty on the change), so that evidence seldom seen keeps its prior weight. Prints the
weights and, by cross-validation over five parts of the notes, the precision and the share accepted at several
thresholds. Feed it notes the wording was not mended on: on others the reader looks better than it is.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from hands_on.notes import build_lexicon
from hands_on.notes import reading as reading_module
from hands_on.notes.confidence import features
from tests.bench.load import shipped_wording

RIDGE = 0.15


def collect(paths, lexicon):
    """Evidence, whether right, the number of the note, whether ambiguous; and how many findings are true."""
    rows, right, notes, ambiguous, true = [], [], [], [], 0
    seen = []
    plain = reading_module.probability

    def spy(parsed, judged, lex, region):
        p = plain(parsed, judged, lex, region)
        seen.append((features(parsed, judged, lex, region), judged))
        return p

    reading_module.probability = spy
    number = 0
    for path in paths:
        for line in Path(path).read_text(encoding="utf-8").splitlines():
            note = json.loads(line)
            wanted = {(f["id"], f["status"]) for f in note["faults"]}
            true += len(wanted)
            seen.clear()
            reading_module.read_note(note["note"], lexicon, region=note["region"])
            for evidence, judged in seen:
                rows.append(evidence)
                right.append((judged.candidate.faults[0], judged.status) in wanted)
                ambiguous.append(judged.candidate.ambiguous)
                notes.append(number)
            number += 1
    reading_module.probability = plain
    return rows, np.array(right, float), np.array(notes), np.array(ambiguous), true


def fit(x, y, prior):
    """Weights that explain y, drawn towards the prior."""

    def loss(w):
        z = x @ w
        return np.sum(np.logaddexp(0, z) - y * z) + RIDGE * np.sum((w - prior) ** 2)

    return minimize(loss, prior, method="L-BFGS-B").x


def main(paths):
    """Fit and print."""
    lexicon = build_lexicon(shipped_wording())
    rows, y, notes, ambiguous, true = collect(paths, lexicon)
    names = sorted({n for r in rows for n in r} | (set(lexicon.confidence) - {"accept"}))
    x = np.array([[r.get(n, 0.0) for n in names] for r in rows])
    prior = np.array([lexicon.confidence.get(n, 0.0) for n in names])
    for name, weight in zip(names, fit(x, y, prior), strict=True):
        print(f'"{name}" = {weight:.2f}')
    held = np.zeros(len(y))
    for part in range(5):
        out = notes % 5 == part
        held[out] = 1 / (1 + np.exp(-(x[out] @ fit(x[~out], y[~out], prior))))
    for limit in (0.8, 0.85, 0.88, 0.9, 0.92, 0.94, 0.96, 0.98):
        take = (held >= limit) & ~ambiguous
        share = y[take].sum() / true
        print(f"accept from {limit}: precision {y[take].mean():.4f}, of true findings {share:.3f}")


if __name__ == "__main__":
    main(sys.argv[1:])
