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


# Bodies head these lists in words of their own, with a number before, an explanation behind; common practice.
OWN_WORDS = {
    "by their words": (
        "L. FAULTS\nWhatever differs is a fault.\n\n"
        "L.1 Small points - to be named in the report\n(a) light eyes\n(b) long loin\n\n"
        "L.2 Grave points - bar a dog from Excellent\n(a) cow hocks\n(b) roach back\n\n"
        "L.3 Bars - the dog goes unplaced\n(a) wry mouth\n(b) overshot bite\n"
    ),
    "by what the opening tells": (
        "ASSESSMENT OF SHORTCOMINGS\nTo the first step belong the FRECKLES, with which the mark excellent "
        "remains possible. To the second step the DEFECTS, with which the mark good is the highest. "
        "To the third step the DOORS, with which the dog receives no mark.\n\n"
        "Freckles\n- light eyes\n- long loin\n\nDefects\n- cow hocks\n- roach back\n\n"
        "Doors\n- wry mouth\n- overshot bite\n"
    ),
    "by their order, lightest first": (
        "FAULTS\n\n1. Pebbles\na) light eyes\nb) long loin\n\n2. Boulders\na) cow hocks\nb) roach back\n\n"
        "3. Walls - the dog leaves the ring\na) wry mouth\nb) overshot bite\n"
    ),
}


@pytest.mark.parametrize("text", OWN_WORDS.values(), ids=OWN_WORDS)
def test_a_line_over_a_list_of_departures_is_a_class_whatever_its_words(text):
    found = {
        fault: one.table["class"]
        for read in read_standard(text, lexicon()).reads
        for one in read.proposals
        if one.kind == "rulings"
        for fault in one.table["faults"]
    }
    light, heavy = {found["eyes.light"], found["back.loin-long"]}, {found["back.roached"]}
    assert found["mouth.overshot"] == found["mouth.wry"] == "disqualifying"
    assert light == {"minor"} if "FRECKLES" in text or "Small" in text else light == {"fault"}
    assert heavy == {found["hindquarters.cow-hocks"]} == {"serious"}


def test_items_and_notes_in_the_part_on_faults_head_no_class():
    text = (
        "FAULTS\n(a) light eyes; round eyes\n(b) long loin\n\nM. A word to judges\n"
        "A scar is no concern of the judge.\n\nSCALE OF POINTS\nHead 20\nBody 30\n"
    )
    reads = read_standard(text, lexicon()).reads
    found = [one.key for read in reads for one in read.proposals if one.kind == "classes"]
    assert found == ["fault"]
