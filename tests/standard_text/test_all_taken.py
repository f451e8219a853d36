"""All that a text proposes, taken at once, makes an edition in which the check finds nothing."""

import pytest

from hands_on.notes import build_lexicon
from hands_on.standard_text import read_standard
from hands_on.store.edition_draft import EditionDraft
from hands_on.store.library import Library
from hands_on.store.new_edition import begin
from hands_on.store.places import shipped_rulesets
from hands_on.store.wording import wording

# Each an invented text in the manner of the published ones.
TEXTS = {
    "a limit on one sex": "LOIN\nIts length not above 15 cm in males.\n\nFAULTS\nCow hocks.\nRoach back.\n",
    "a class given up later": (
        "COLOR\nWhite on the belly is undesirable. White on the back is a fault.\n\nFAULTS\nCow hocks.\n"
    ),
    "an impossible length": (
        "CROUP\nThe croup slopes at 25 to 30 degrees, with at least 5 cm across between the hip bones "
        "in bitches and in dogs alike.\n\nFAULTS\nCow hocks.\n"
    ),
}


@pytest.fixture(scope="module")
def lexicon():
    return build_lexicon(wording(Library([shipped_rulesets()]), "any-dog"))


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_the_edition_is_sound(text, lexicon, tmp_path):
    library = Library([shipped_rulesets(), tmp_path])
    path = tmp_path / "moor-hound.toml"
    begin("moor-hound", library.heads(), None, path)
    draft = EditionDraft(path, library)
    read = read_standard(text, lexicon)
    draft.take_all(one for sentence in read.reads for one in sentence.proposals)
    assert draft.tables["rulings"]
    assert draft.problems() == []


def test_a_limit_on_one_sex_says_that_the_other_has_none(lexicon):
    (one,) = [p for r in read_standard(TEXTS["a limit on one sex"], lexicon).reads for p in r.proposals][:1]
    assert one.table["when"] == {"sex": "male"}
    assert one.table["reading"] == "The text names it for males only."


def test_docked_and_natural_tails_have_lengths_of_their_own(lexicon):
    text = "TAIL\nDocked: about 10 cm in adults.\nUndocked: length 15 to 18 cm.\n"
    found = {
        one.key: one.table["asked"]
        for read in read_standard(text, lexicon).reads
        for one in read.proposals
        if one.kind == "limits"
    }
    assert found == {
        "docked-tail-length": {"from": 9.0, "to": 11.0},
        "tail-length": {"from": 15.0, "to": 18.0},
    }


def test_a_table_row_with_bounds_in_words_is_read_by_sex(lexicon):
    text = "SIZE\n\n     dogs      bitches\nLength of docked tail (cm)   not above 20    not above 18\n"
    found = {
        one.key: one.table["asked"]
        for read in read_standard(text, lexicon).reads
        for one in read.proposals
        if one.kind == "limits"
    }
    assert found == {"docked-tail-length-male": {"to": 20.0}, "docked-tail-length-female": {"to": 18.0}}
