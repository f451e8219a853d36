"""The heading of a list of faults is known however it is written: all that stands under it has its class."""

from functools import cache
from pathlib import Path

import pytest

from hands_on.notes import build_lexicon
from hands_on.standard_text import read_standard
from hands_on.store.library import Library
from hands_on.store.wording import wording

ROOT = Path(__file__).parents[2]

# Ways in which published standards head these lists; common practice.
HEADINGS = {
    "fault": (
        "FAULTS",
        "Faults.",
        "** Faults **",
        "- Faults -",
        "XII. Faults",
        "M. FAULTS",
        "Faults to be penalised:",
        "The following shall be considered as faults:",
        "Ordinary faults",
    ),
    "serious": (
        "SERIOUS FAULTS",
        "Grave faults",
        "Faults, serious:",
        "b) Serious faults",
        "Major faults:",
        "SERIOUS FAULTS (to be heavily penalised)",
    ),
    "disqualifying": (
        "DISQUALIFICATIONS",
        "Disqualifying faults.",
        "Eliminatory faults",
        "Disqualify:",
        "Grounds for disqualification",
        "Reasons for elimination:",
        "A dog shall be disqualified for:",
        "Dogs showing any of the following shall be disqualified:",
        "DISQUALIFYING CHARACTERISTICS",
        "FAULTS THAT EXCLUDE FROM AWARDS",
    ),
}


@cache
def lexicon():
    return build_lexicon(wording(Library([ROOT / "rulesets"]), "any-dog"))


@pytest.mark.parametrize(("cls", "heading"), [(cls, one) for cls, rows in HEADINGS.items() for one in rows])
def test_what_stands_under_a_heading_has_its_class(cls, heading):
    before = "serious" if cls != "serious" else "fault"
    other = {"serious": "SERIOUS FAULTS", "fault": "FAULTS"}[before]
    text = f"HEAD\nSkull broad.\n\n{other}\nLight eyes.\n\n{heading}\n- Cow hocks.\n- Roach back.\n"
    given = {
        p.table["faults"][0]: p.table.get("class")
        for one in read_standard(text, lexicon()).reads
        for p in one.proposals
        if p.kind == "rulings"
    }
    assert given["eyes.light"] == before
    assert given["hindquarters.cow-hocks"] == given["back.roached"] == cls


def test_a_heading_and_its_list_on_one_line():
    text = "FAULTS\nLight eyes.\n\nDisqualifying faults. Cow hocks; roach back.\n"
    reads = read_standard(text, lexicon()).reads
    classes = {p.key: p.table.get("class") for one in reads for p in one.proposals if p.kind == "rulings"}
    assert classes == {
        "eyes.light": "fault",
        "hindquarters.cow-hocks": "disqualifying",
        "back.roached": "disqualifying",
    }
