"""Fit the weights of [confidence] in language.toml: `python -m tests.bench.calibrate CORPUS.jsonl ...`

A logistic regression of "fault and status right" on the evidence of each finding, drawn towards the present
weights (a ridge penalty on the change), so that evidence seldom seen keeps its prior weight.

The wording has been mended on these corpora, so on them the reader looks better than on notes of strangers.
Therefore every corpus is read with several thinned lexicons, from which a share of all phrases was taken out
at random: what it meets then is as new to it as another writer's words. The examples it
learns from are those of the other corpora. Prints the weights and, leaving out
one corpus at a time, the precision and the share of true findings accepted at several thresholds, over the
held-out findings of all corpora together, and a reliability table of them.
"""

import json
import random
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from hands_on.notes import WordingSource, build_lexicon
from hands_on.notes import reading as reading_module
from hands_on.notes.confidence import features
from hands_on.notes.source import examples_from_notes
from tests.bench.load import examples, shipped_wording

RIDGE = 0.5
THINNED = 3
SHARE_OUT = 0.3
# evidence that can only speak against a finding, whatever a few notes say
AGAINST = {
    *(
        "ambiguous",
        "common",
        "cost",
        "cost.high",
        "foreign",
        "one.word",
        "one.word.nowhere",
        "like.behind",
        "like.behind.whole",
        "other.region",
        "other.region.clear",
        "other.region.apart",
    ),
    *(
        "praised",
        "rivals",
        "stray.not",
        "slip",
        "slip.strange",
        "strange",
        "strange.around",
        "unknown",
        "unread",
        "unread.clear",
        "idle.around",
        "neutral",
        "neutral.all",
        "modal",
        "modal.apart",
        "strange.apart",
        "unread.apart",
    ),
    *("strange.nowhere", "asked", "unsure", "origin.lone"),
}
FIXED = {"other.region", "other.region.apart", "other.region.clear", "at.home"}
"""Chosen, not fitted: the notes learned from were mostly said under the screen of their own region, while a
scribe takes down whatever is called."""
_TALK = ("right", "idioms", "verdict", "praise", "people", "correct")


def thinned(source: WordingSource, share: float, chance: random.Random) -> WordingSource:
    """The wording with a share of its phrases left out at random; the first of each list stays."""

    def thin(phrases, plain_words=True):
        """Everybody knows `not` and `perhaps`: single words of talk stay."""
        kept = enumerate(phrases)
        return tuple(
            p for i, p in kept if not i or chance.random() >= share or (not plain_words and " " not in p)
        )

    def thin_table(table, plain_words):
        lists = {k: v for k in type(table).model_fields if isinstance(v := getattr(table, k), tuple)}
        return table.model_copy(update={k: thin(v, plain_words) for k, v in lists.items()})

    language = source.language
    talk = {k: thin(getattr(language.talk, k)) for k in _TALK}
    parts = {
        name: part.model_copy(update={"words": thin(part.words)}) for name, part in language.parts.items()
    }
    fewer = language.model_copy(
        update={
            "qualities": {k: thin(v) for k, v in language.qualities.items()},
            "classes": {k: thin(v, False) for k, v in language.classes.items()},
            "status": thin_table(language.status, False),
            "degrees": thin_table(language.degrees, False),
            "talk": language.talk.model_copy(update=talk),
            "parts": parts,
        }
    )
    faults = {k: replace(f, wording=tuple(thin(f.wording))) for k, f in source.faults.items()}
    return replace(source, faults=faults, language=fewer)


def examples_but(path):
    """The notes the reader learns from, without those of one corpus: it is a stranger's too."""
    own = set(Path(path).read_text(encoding="utf-8").splitlines())
    return examples_from_notes(note for note in examples() if json.dumps(note, ensure_ascii=False) not in own)


def collect(path, lexicon):
    """Evidence, whether right, whether ambiguous, of each finding; and how many findings are true."""
    rows, right, ambiguous, true = [], [], [], 0
    seen = []
    plain = reading_module.probability

    def spy(context, judged):
        seen.append((features(context, judged), judged))
        return plain(context, judged)

    reading_module.probability = spy
    for line in Path(path).read_text(encoding="utf-8").splitlines():
        note = json.loads(line)
        wanted = {(f["id"], f["status"]) for f in note["faults"]}
        true += len(wanted)
        seen.clear()
        reading_module.read_note(note["note"], lexicon, region=note["region"])
        known = set()
        for evidence, judged in seen:
            if judged.candidate.faults[0] in known:
                continue
            known.add(judged.candidate.faults[0])
            rows.append(evidence)
            right.append((judged.candidate.faults[0], judged.status) in wanted)
            ambiguous.append(judged.candidate.ambiguous)
    reading_module.probability = plain
    return rows, right, ambiguous, true


def fit(x, y, prior, names):
    """Weights that explain y, drawn towards the prior; evidence against a finding never speaks for it."""
    bounds = [
        (was, was) if n in FIXED else (None, 0.0) if n in AGAINST else (None, None)
        for n, was in zip(names, prior, strict=True)
    ]

    def loss(w):
        z = x @ w
        return np.sum(np.logaddexp(0, z) - y * z) / THINNED + RIDGE * np.sum((w - prior) ** 2)

    return minimize(loss, prior, method="L-BFGS-B", bounds=bounds).x


def main(paths):
    """Fit and print."""
    source = shipped_wording()
    full = build_lexicon(source)
    thin = [thinned(source, SHARE_OUT, random.Random(seed)) for seed in range(THINNED)]
    rows, right, ambiguous, corpus, true = [], [], [], [], 0
    for number, path in enumerate(paths):
        others = examples_but(path)
        for wording in thin:
            r, y, a, t = collect(path, build_lexicon(replace(wording, examples=others)))
            rows += r
            right += y
            ambiguous += a
            corpus += [number] * len(r)
            true += t
    y, ambiguous, corpus = np.array(right, float), np.array(ambiguous), np.array(corpus)
    names = sorted({n for r in rows for n in r} | (set(full.confidence) - {"accept", "floor", "floor.guess"}))
    x = np.array([[r.get(n, 0.0) for n in names] for r in rows])
    prior = np.array([full.confidence.get(n, 0.0) for n in names])
    for name, weight in zip(names, fit(x, y, prior, names), strict=True):
        print(f'"{name}" = {weight:.2f}')
    held = np.zeros(len(y))
    for part in range(len(paths)):
        out = corpus == part
        held[out] = 1 / (1 + np.exp(-(x[out] @ fit(x[~out], y[~out], prior, names))))
    hits, extra = y.sum(), (1 - y).sum()
    print(f"findings {len(y)}, right {hits:.0f}, F1 about {2 * hits / (hits + extra + true):.3f}")
    for limit in (0.8, 0.85, 0.88, 0.9, 0.91, 0.92, 0.93, 0.94, 0.95, 0.96, 0.97, 0.98):
        take = (held >= limit) & ~ambiguous
        share = y[take].sum() / true
        print(f"accept from {limit}: precision {y[take].mean():.4f}, of true findings {share:.3f}")
    for low, high in ((0, 0.3), (0.3, 0.5), (0.5, 0.7), (0.7, 0.8), (0.8, 0.9), (0.9, 0.95), (0.95, 1.01)):
        group = (held >= low) & (held < high)
        if group.any():
            print(f"stated {held[group].mean():.3f}, right {y[group].mean():.3f} of {group.sum()}")


if __name__ == "__main__":
    main(sys.argv[1:])
