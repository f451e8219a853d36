"""Shares, parts and spans beside the lengths they are told of; invented sentences, arithmetic by hand."""

import pytest

from hands_on.notes import build_lexicon
from hands_on.standard_text import read_standard
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.store.wording import wording

SENTENCES = (
    ("NECK AND BODY\nLoin not longer than 18 % of the body.", "loin-length-to-body-length", {"to": 0.18}),
    (
        "NECK, BODY\nThe chest is not less than 48 % of the height.",
        "chest-depth-to-height",
        {"from": 0.48},
    ),
    ("LOINS\nBroad, at the most one third of the back.", "loin-length-to-back-length", {"to": 0.333}),
    (
        "BODY\nThe chest makes up between 45 and 50 hundredths of the height.",
        "chest-depth-to-height",
        {"from": 0.45, "to": 0.5},
    ),
    (
        "BUILD\nThe body may be longer than the height by up to one part in twenty.",
        "body-length-to-height",
        {"from": 1.0, "to": 1.05},
    ),
    (
        "BUILD\nThe depth of the chest is a little more than half the height (51 to 54 %).",
        "chest-depth-to-height",
        {"from": 0.51, "to": 0.54},
    ),
    ("LEGS\nHock from tip to ground 11 to 13 cm.", "hock-height", {"from": 11.0, "to": 13.0}),
    (
        "LEGS\nBlade at 55 to 60 degrees to the ground, angle at the point of shoulder 115 to 120 degrees.",
        "shoulder-angle",
        {"from": 115.0, "to": 120.0},
    ),
    (
        "UPPER ARM\nIt closes with the blade an angle of 105 degrees (allowed from 100 to 112 degrees).",
        "shoulder-angle",
        {"from": 100.0, "to": 112.0},
    ),
)


@pytest.fixture(scope="module")
def lexicon():
    return build_lexicon(wording(Library([shipped_rulesets()]), "any-dog"))


def limits(text, lexicon):
    return {
        one.key: one.table
        for read in read_standard(text, lexicon).reads
        for one in read.proposals
        if one.kind == "limits"
    }


@pytest.mark.parametrize(("text", "key", "asked"), SENTENCES, ids=[key for _, key, _ in SENTENCES])
def test_a_share_is_of_what_the_sentence_tells(text, key, asked, lexicon):
    assert limits(text, lexicon)[key]["asked"] == asked


def test_a_figure_belongs_to_the_variety_named_behind_it(lexicon):
    text = (
        "Two sizes are bred, the Moor and the Fen.\n\n"
        "EARS\nPricked, 8 to 10 cm in the Moor and 6 to 8 cm in the Fen.\n"
    )
    found = limits(text, lexicon)
    assert found["ear-length-moor"]["asked"] == {"from": 8.0, "to": 10.0}
    assert found["ear-length-fen"]["asked"] == {"from": 6.0, "to": 8.0}
