"""Labelled notes are read as well as the project promises (invented, labelled by hand).

Those in rulesets/common/examples the reader has learned from. Those in tests/data/notes it has not: their
writers never saw the program, and weights were not held against them; the wording was mended on the errors of
country, handler, mixed and whole-critiques, and by a few words on plain-table.
"""

import json
from pathlib import Path

import pytest

from hands_on.notes import read_note
from tests.bench.load import RULESETS
from tests.bench.read_notes import Score, score

NOTES = [
    *sorted((RULESETS / "common" / "examples").glob("*.jsonl")),
    *sorted((Path(__file__).resolve().parents[1] / "data" / "notes").glob("*.jsonl")),
]

LEAST = {
    "f1": 0.95,
    "accepted": 0.97,
    "share": 0.75,
    "degree": 0.97,
    "side": 0.97,
    "measures": 0.98,
    "clean": 0.94,
}
"""What holds where nothing else is said."""

HARDER = {
    # Six voices, idioms and similes: 0.93 and 0.69 before anything was mended on them.
    "six-styles": {"accepted": 0.985, "share": 0.78},
    # 0.96 and 0.83 before anything was mended on it.
    "seminar": {"accepted": 0.985, "share": 0.85},
    # Praise written to be taken for faults; a fault beside praise of another part is offered all the same.
    "praise-later": {"clean": 0.85},
    "right-states": {"clean": 0.87},
    # 0.92 and 0.93 before anything was mended on them.
    "abroad": {"f1": 0.93, "share": 0.7, "measures": 0.96},
    "formal": {"f1": 0.93, "measures": 0.97},
    "head-neck": {"measures": 0.95},
    # Two writers, 0.94 and 0.88 before anything was mended on them; degrees that are only implied.
    "by-breeder": {"degree": 0.93},
    "by-translated": {"degree": 0.94},
    # Strangers' notes; the last are plain descriptions of the right state, without a word of praise.
    "notebook": {"f1": 0.93, "accepted": 0.96},
    "plain-table": {"f1": 0.93, "accepted": 0.96},
    "states": {"clean": 0.88},
    # Three writers whose notes nothing was held against: what they are read as since less is taken unasked.
    "ringside": {"f1": 0.69, "accepted": 0.85, "share": 0.44, "degree": 0.82},
    "spoken": {"f1": 0.83, "accepted": 0.96, "share": 0.67, "measures": 0.98, "degree": 0.93, "side": 0.96},
    "jotted": {"f1": 0.82, "accepted": 0.94, "share": 0.7, "measures": 0.69, "clean": 0.98, "side": 0.95},
    # Four more writers; the wording was mended on their errors since: no strangers any more.
    "country": {"f1": 0.89, "accepted": 0.93, "share": 0.74, "degree": 0.95, "side": 0.94},
    "handler": {"f1": 0.83, "accepted": 0.92, "share": 0.67, "degree": 0.89, "measures": 0.7},
    "mixed": {"f1": 0.74, "accepted": 0.91, "share": 0.51, "measures": 0.7, "clean": 0.9},
    "whole-critiques": {"f1": 0.89, "accepted": 0.97, "clean": 0.0},
}
"""What holds for notes that are harder, or that the wording was never held against."""

WRITERS = {
    # One writer each, F1 between 0.80 and 0.95 before anything was mended on them.
    "met-": {"f1": 0.86, "accepted": 0.94, "share": 0.66, "degree": 0.93, "side": 0.92, "measures": 0.83},
    # Each fault in seven ways, 0.69 and 0.65 before.
    "ways-": {"f1": 0.94, "accepted": 0.98, "share": 0.88},
    # Strangers' notes: nothing was held against them, nor looked at but in totals.
    "new-": {"f1": 0.87, "accepted": 0.95, "share": 0.6, "degree": 0.95, "side": 0.93, "measures": 0.69},
}
"""What holds for files of these names."""
HARDEST = {
    # Thinks aloud, asks and answers, blames by likenesses.
    "met-seminar-teacher": {"f1": 0.79},
    "met-long-careful-sentences": {"degree": 0.9},
    "met-seminar-novice": {"degree": 0.92},
    # Long sentences without a comma, 0.80 before anything was mended on it.
    "met-field-trialler": {"share": 0.66, "measures": 0.8},
    # 0.84 before; a few measures.
    "met-dry-terrier-breeder": {"measures": 0.69},
    # Notes of measurements, with few faults; measures 0.70 and 0.70 before, faults 0.81 and 0.80.
    "met-callipers": {"f1": 0.79, "accepted": 0.9},
    "met-farrier": {"f1": 0.84},
    # Strangers: a plain-spoken shepherd, a writer of long names, few measures and hard ones, measures alone.
    "new-hill-handler": {"accepted": 0.91},
    "new-physiotherapist": {"degree": 0.93},
    "new-nordic-judge": {"measures": 0.6},
    "new-warden-who-measures": {"f1": 0.73, "accepted": 0.75},
}


@pytest.mark.parametrize("path", NOTES, ids=lambda p: p.stem)
def test_figures_of_each_corpus(path, lexicon):
    least = LEAST | HARDER.get(path.stem, {})
    for name, bounds in WRITERS.items():
        if path.stem.startswith(name):
            least = LEAST | bounds | {"clean": 0.86} | HARDEST.get(path.stem, {})
    notes = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    total = score(notes, lambda n: read_note(n["note"], lexicon, region=n["region"])).total
    if total.hit + total.missed >= 10:
        assert Score.f1(total.hit, total.extra, total.missed) >= least["f1"]
        assert total.accepted_right >= least["accepted"] * total.accepted
        assert total.accepted_right >= least["share"] * (total.hit + total.missed)
        assert total.degree >= least["degree"] * total.hit
        assert total.side >= least["side"] * total.hit
    if total.measure_hit + total.measure_missed:
        measured = Score.f1(total.measure_hit, total.measure_extra, total.measure_missed)
        assert measured >= least["measures"]
    assert total.empty_clean >= least["clean"] * total.empty


@pytest.mark.parametrize("path", NOTES, ids=lambda p: p.stem)
def test_labels_use_known_ids_and_degrees(path, lexicon):
    for line in path.read_text(encoding="utf-8").splitlines():
        note = json.loads(line)
        assert all(f["id"] in lexicon.regions for f in note["faults"]), note
        assert all(
            f["degree"] in (None, "slight", "moderate", "marked", "extreme") for f in note["faults"]
        ), note
        assert all(f["side"] in (None, "left", "right", "both") for f in note["faults"]), note
        scales = {"body-condition", "muscle-condition"}
        assert all(m["id"] in {*lexicon.measures, *scales} for m in note["measures"]), note


def test_opposites_are_never_taken_for_each_other(lexicon):
    """Every wording of a fault, read on its own region's screen, never gives the opposite fault."""
    from tests.bench.load import shipped_wording

    opposite = {
        "mouth.overshot": "mouth.undershot",
        "forequarters.elbows-in": "forequarters.elbows-out",
        "forefeet.toe-in": "forefeet.east-west",
        "hindquarters.cow-hocks": "hindquarters.bowed-hocks",
        "neck.short": "neck.long",
        "ears.short": "ears.long",
        "ears.low-set": "ears.high-set",
        "general.over-height": "general.under-height",
        "chest.shallow": "chest.too-deep",
        "chest.narrow": "chest.broad",
        "croup-tail.set-low": "croup-tail.set-high",
        "croup-tail.croup-steep": "croup-tail.croup-flat",
        "hindquarters.straight": "hindquarters.over-angulated",
    }
    opposite |= {b: a for a, b in opposite.items()}
    wording = shipped_wording().faults
    crossed = [
        (phrase, opposite[fault])
        for fault in opposite
        for phrase in wording[fault].wording
        if "{" not in phrase
        and opposite[fault] in {f.id for f in read_note(phrase, lexicon, region=wording[fault].region).faults}
    ]
    assert crossed == []
