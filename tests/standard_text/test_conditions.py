"""What a sentence allows under a condition, denies, or says of another part gives no rule for all dogs."""

from functools import cache
from pathlib import Path

import pytest

from hands_on.notes import build_lexicon
from hands_on.standard_text import read_standard
from hands_on.store.library import Library
from hands_on.store.wording import wording

ROOT = Path(__file__).parents[2]


@cache
def lexicon():
    return build_lexicon(wording(Library([ROOT / "rulesets"]), "any-dog"))


def rulings(text):
    """Fault, what it hangs on, and its class or classes, as the sentences of `text` propose them."""
    out = {}
    for one in read_standard(text, lexicon()).reads:
        for proposal in one.proposals:
            if proposal.kind == "rulings":
                table = proposal.table
                where = tuple(value for kept in table.get("when", {}).values() for value in kept)
                out[(table["faults"][0], *where)] = table.get("class") or table["by_degree"]
    return out


# Sentences as standards write them; what follows is the plain reading of the English.
SAID = {
    "COLOUR\nBlack or blue, with or without tan markings.\n": {},
    "EYES\nDark. Wall eyes permitted in merles only.\n": {
        ("eyes.wall", "merle"): "none",
        ("eyes.wall",): "fault",
    },
    "FAULTS\nWall eyes in colours other than merle.\n": {
        ("eyes.wall", "merle"): "none",
        ("eyes.wall",): "fault",
    },
    "NOSE\nFlesh nose disqualifies except in liver dogs.\n": {
        ("head.nose-pigment", "liver"): "none",
        ("head.nose-pigment",): "disqualifying",
    },
    "COAT\nHarsh outer coat with a dense woolly undercoat.\n": {},
    "FAULTS\nWoolly coat.\n": {("coat-skin.woolly",): "fault"},
    "COLOUR\nLiver. White permitted on chest and toes only.\n": {
        ("colour.white", "chest-small", "chest-large", "toes"): "none",
        ("colour.white",): "fault",
    },
    "COLOUR\nWhite tips of the toes are tolerated.\n": {("colour.white", "toes"): "none"},
    "LIPS\nLips well developed without being pendulous.\n": {("head.lips-loose",): "fault"},
    "TAIL\nNever carried above the level of the back.\n": {("croup-tail.carried-high",): "fault"},
    "CROUP\nSlightly sloping.\n": {},
    "PASTERNS\nSlightly sloping seen from the side.\n": {},
}


@pytest.mark.parametrize("text", SAID)
def test_a_sentence_rules_what_it_says_and_no_more(text):
    assert rulings(text) == SAID[text]


def limits(text):
    return {
        p.key: p.table
        for one in read_standard(text, lexicon()).reads
        for p in one.proposals
        if p.kind == "limits"
    }


def test_a_gap_said_of_both_bites_bounds_both_and_a_bite_seen_without_a_measure_is_judged_by_degree():
    text = "MOUTH\nUndershot or overshot more than 2 mm is a serious fault.\n"
    found = limits(text)
    for gap, fault in (("undershot-gap", "mouth.undershot"), ("overshot-gap", "mouth.overshot")):
        assert found[gap]["asked"] == {"to": 2.0}
        assert found[gap]["bands"] == [{"above": 2.0, "fault": fault, "class": "serious"}]
        assert rulings(text)[(fault,)] == {"slight": "fault", "marked": "serious"}


def test_a_second_margin_goes_on_with_the_words_of_the_first():
    text = (
        "SIZE\nHeight at withers: males 62-68 cm.\nFAULTS\nToo light bone.\n"
        "DISQUALIFYING FAULTS\nWry jaw.\nOver- or undersize of more than 2 cm: serious; of more than 4 cm: "
        "disqualifying.\n"
    )
    bands = limits(text)["height-male"]["bands"]
    ends = {(band.get("from"), band.get("to"), band.get("class")) for band in bands}
    assert {(60.0, None, None), (None, 70.0, None), (58.0, None, "serious"), (None, 72.0, "serious")} <= ends


@pytest.mark.parametrize(
    ("said", "name", "asked"),
    [
        (
            "The muzzle is a little shorter than half the total length of the head.",
            "muzzle-length-to-head-length",
            {"below": 0.5},
        ),
        (
            "The leg to the elbow should not be less than half the height at the withers.",
            "elbow-height-to-height",
            {"from": 0.5},
        ),
        (
            "The body is square or very slightly longer than high.",
            "body-length-to-height",
            {"from": 1.0, "to": 1.12},
        ),
        (
            "Skull with the width across the top about equaling its length from stop to occiput.",
            "skull-width-to-skull-length",
            {"from": 0.9, "to": 1.1},
        ),
    ],
)
def test_ends_of_a_proportion_are_those_that_the_words_give(said, name, asked):
    assert limits(f"IMPORTANT PROPORTIONS\n{said}\n")[name]["asked"] == asked


def test_two_ends_of_one_proportion_make_one_stretch_and_two_proportions_stay_two():
    text = (
        "IMPORTANT PROPORTIONS\nLength of body to height at withers 10 : 9 to 10 : 8.5.\n"
        "The muzzle is to the skull as 1:1 and the depth of chest is to the height as 1:2.\n"
    )
    found = limits(text)
    assert found["body-length-to-height"]["asked"] == {"from": 1.111, "to": 1.176}
    assert found["muzzle-length-to-skull-length"]["asked"] == {"from": 0.9, "to": 1.1}
    assert found["chest-depth-to-height"]["asked"] == {"from": 0.48, "to": 0.52}


def test_a_blade_and_the_joint_below_it_each_get_their_own_angle():
    text = (
        "FOREQUARTERS\nShoulder blades sloping well back at 45 degrees and joining the upper arm in an angle "
        "of approximately 90 degrees.\n"
    )
    found = limits(text)
    assert found["blade-slope"]["asked"] == {"from": 35, "to": 55}
    assert found["shoulder-angle"]["asked"] == {"from": 80, "to": 100}


def test_a_square_muzzle_is_no_square_dog_and_hair_that_measures_is_no_height():
    assert not limits("MUZZLE\nModerately deep, nearly square at end.\n")
    assert set(limits("COAT\nThe hair of the body measures 7-10 cm.\n")) == {"coat-length-flank"}


def test_a_table_of_sexes_under_sizes_and_of_cells_that_hold_for_both_sexes():
    text = (
        "SIZE AND WEIGHT\n\n"
        "                 Large variety            Small variety\n"
        "              Males      Females        Males      Females\n"
        "Height       56-64 cm    52-60 cm      44-50 cm    40-46 cm\n"
        "Weight            22-30 kg                  13-18 kg\n\n"
        "Ideal height: large males 60 cm, large females 56 cm.\n"
        "FAULTS\nHeight outside the limits.\n"
    )
    found = limits(text)
    asked = {name: (table["asked"]["from"], table["asked"]["to"]) for name, table in found.items()}
    assert asked == {
        "height-male-large": (56, 64),
        "height-female-large": (52, 60),
        "height-male-small": (44, 50),
        "height-female-small": (40, 46),
        "weight-large": (22, 30),
        "weight-small": (13, 18),
        "height-ideal-male-large": (59, 61),
        "height-ideal-female-large": (55, 57),
    }
    assert {band["class"] for band in found["height-male-small"]["bands"]} == {"fault"}
