"""Lists, classes in a text's own words, own measurements, laws: invented sentences, read by plain English."""

import pytest

from hands_on.standard_text import read_standard
from hands_on.standard_text.own_ladder import own_ladder
from hands_on.standard_text.printed_twice import in_unit
from tests.standard_text.test_read import lexicon


def proposals(text, kind, unit=""):
    reads = read_standard(text, lexicon(), unit).reads
    return {p.key: p.table for one in reads for p in one.proposals if p.kind == kind}


def rulings(text):
    return {key: table.get("class") for key, table in proposals(text, "rulings").items()}


LISTS = {
    # each departure with the part that it shares, or that the heading names
    "SERIOUS FAULTS\nEars: Placed low, too short.\n": {"ears.low-set": "serious", "ears.short": "serious"},
    "FAULTS\n- Elbows turned in or out.\n": {
        "forequarters.elbows-in": "fault",
        "forequarters.elbows-out": "fault",
    },
    "FAULTS\n- Neck that is short, or plainly thick.\n": {"neck.short": "fault", "neck.thick": "fault"},
    # a class of its own for each, whatever the list is called
    "FAULTS\nWeak loin is a serious fault, light eyes a fault.\n": {
        "back.loin-narrow": "serious",
        "eyes.light": "fault",
    },
    "COAT\nSoft coat undesirable. Curly coat highly undesirable.\n": {
        "coat-skin.soft": "undesirable",
        "coat-skin.curly": "highly-undesirable",
    },
    "TEMPERAMENT\nAggressive dogs must not be given any award.\n": {"temperament.aggressive": "no-award"},
    "NECK\nShort neck should be penalised. Throaty neck likewise.\n": {
        "neck.short": "fault",
        "neck.throaty": "fault",
    },
}


@pytest.mark.parametrize("text", LISTS)
def test_each_departure_of_a_list_has_its_class(text):
    found = rulings(text)
    assert {name: found.get(name) for name in LISTS[text]} == LISTS[text]


def test_what_is_not_to_be_removed_is_no_fault():
    text = "HINDQUARTERS\nDewclaws on the hind legs shall not be removed.\n"
    assert rulings(text).get("hindfeet.dewclaws", "none") in ("none", "observation")


LIMITS = {
    # one of a pair told by `its`, by `that of`, by the heading
    "HEAD\nThe width of the skull between the ears is two thirds of its length.\n": (
        "skull-width-to-skull-length",
        0.667,
    ),
    "ELBOW: Its height 55 % of that of the withers.\n": ("elbow-height-to-height", 0.55),
    "LOIN: Not more than one quarter of the trunk's length.\n": ("loin-length-to-body-length", 0.25),
    "CHEST: The chest in depth makes one half of the height.\n": ("chest-depth-to-height", 0.5),
    "PROPORTIONS\nThe girth of the chest is at least 1.2 times the height.\n": ("chest-girth-to-height", 1.2),
}


@pytest.mark.parametrize("text", LIMITS)
def test_a_proportion_finds_both_its_lengths(text):
    name, share = LIMITS[text]
    asked = proposals(text, "limits")[name]["asked"]
    ends = [asked[key] for key in ("from", "to") if key in asked]
    assert sum(ends) / len(ends) == pytest.approx(share, abs=0.002)


def test_a_range_beside_a_rough_share_says_the_share():
    text = "PROPORTIONS\nThe depth of the chest is slightly more than half the height, 51 to 53 %.\n"
    assert proposals(text, "limits")["chest-depth-to-height"]["asked"] == {"from": 0.51, "to": 0.53}


def test_the_upper_end_of_one_sex():
    text = (
        "PROPORTIONS\nThe body is 4 to 7 % longer than the height at the withers; in bitches up to 9 % is "
        "allowed.\n"
    )
    found = proposals(text, "limits")
    assert found["body-length-to-height"]["asked"] == {"from": 1.04, "to": 1.07}
    assert found["body-length-to-height-female"]["asked"] == {"from": 1.04, "to": 1.09}
    assert found["body-length-to-height-female"]["when"] == {"sex": "female"}


def test_classes_figure_by_figure():
    text = (
        "SIZE\nHeight, dogs 50 to 55 cm. Up to 1 cm outside these heights is a minor fault, from 1 to 3 cm a "
        "serious one, and more than 3 cm over or under a disqualification.\n"
    )
    bands = proposals(text, "limits")["height-male"]["bands"]
    assert [
        (band.get("above"), band.get("class")) for band in bands if "above" in band and band["above"] >= 55
    ] == [
        (55, "minor"),
        (56, "serious"),
        (58, "disqualifying"),
    ]


def test_two_varieties_by_name():
    text = (
        "GENERAL\nBred in two varieties, the Plain and the Rough.\n\nCOAT\nPlain: flat, 2 to 3 cm in length. "
        "Rough: dry, 6 to 8 cm in length over the back.\n"
    )
    found = proposals(text, "limits")
    assert found["coat-length-flank-plain"]["when"] == {"variety": "plain"}
    assert found["coat-length-flank-rough"]["asked"] == {"from": 6, "to": 8}


OWN = {
    # what common has no point for: the coat of one place, the stop, shares of white
    "COAT\nHair on the neck up to 9 cm.\n": ("coat-skin.coat-length-neck", {"to": 9}),
    "STOP: An angle of 130 to 140 degrees.\n": ("head.stop-angle", {"from": 130, "to": 140}),
    "DISQUALIFYING FAULTS\nWhite on more than one third of the body.\n": (
        "colour.white-share",
        {"to": 0.333},
    ),
}


@pytest.mark.parametrize("text", OWN)
def test_a_measurement_of_the_breeds_own_is_proposed_with_its_limit(text):
    name, asked = OWN[text]
    assert proposals(text, "points")[name]["kind"] == "measure"
    (limit,) = proposals(text, "limits").values()
    assert (limit["measure"], limit["asked"]) == (name, asked)


def test_what_only_the_law_of_some_places_allows_is_off_until_chosen():
    text = "FEET\nDewclaws on the hind legs must be removed, except in countries where the law forbids it.\n"
    reads = [p for one in read_standard(text, lexicon()).reads for p in one.proposals]
    judged = [p.table for p in reads if p.kind == "rulings" and p.table.get("when")]
    assert [row["when"] for row in judged] == [{"switch": "dewclaws-judged"}]
    assert proposals(text, "rulings")["hindfeet.dewclaws"]["class"] == "observation"
    assert "law" in proposals(text, "switches")["dewclaws-judged"]["caution"]


def test_classes_in_words_of_the_texts_own_are_ranked_by_the_word_and_by_what_they_lead_to():
    parts = ("Eyes", "Ears", "Neck", "Tail")
    lines = ['"Barring" errors keep the dog out: it cannot be shown.', ""]
    for part in parts:
        lines += [
            part,
            "Of good form.",
            "Slight: too long.",
            "Weighty: too short.",
            "Barring: of no use.",
            "",
        ]
    ladder = own_ladder(lines)
    assert ladder.classes == {"slight": "minor", "weighty": "serious", "barring": "disqualifying"}
    found = {
        p.key: p.table
        for one in read_standard("\n".join(lines), lexicon()).reads
        for p in one.proposals
        if p.kind == "classes"
    }
    assert found["serious"]["label"] == "Weighty"
    assert found["disqualifying"]["disqualifies"]
    assert rulings("\n".join(lines))["neck.short"] == "serious"


def test_sexes_and_sizes_of_the_breed_are_no_classes():
    lines = [
        line
        for part in ("Height", "Weight", "Girth")
        for line in (part, "Large: much.", "Small: little.", "")
    ]
    assert not own_ladder(lines).classes
    lines = [
        line
        for part in ("Height", "Weight", "Girth")
        for line in (part, "Dogs: much.", "Bitches: little.", "")
    ]
    assert not own_ladder(lines).classes


def test_a_word_that_the_text_explains_in_quotes_is_a_class():
    text = (
        'READING\nA "mote" is noted and forgotten; a "grave matter" lowers it to Good; "sent home": '
        "the dog leaves the ring.\n\nEYES\nLight eyes are a mote. Round eyes are a grave matter.\n"
    )
    found = rulings(text)
    assert (found["eyes.light"], found["eyes.round"]) == ("minor", "serious")


PRINTED = {
    ("12 in (30 cm)", "cm"): "30 cm",
    ("30 cm (12 in)", "in"): "12 in",
    ("6 1/2 to 7 ins (16 to 18 cm)", "cm"): "16 to 18 cm",
    ("12 in (30 cm)", ""): "12 in (30 cm)",
    ("12 in (30 to 31 cm)", "cm"): "12 in (30 to 31 cm)",
}


@pytest.mark.parametrize(("text", "unit"), PRINTED)
def test_of_a_figure_in_two_units_the_editions_is_taken(text, unit):
    assert in_unit(text, unit) == PRINTED[text, unit]


def test_a_table_that_a_page_broke_into_pieces_is_read_whole():
    text = (
        "SIZE AND WEIGHT\n\n   MALES\n          FEMALES\nHeight at\n withers     60 - 66 cm    56 - 62 cm\n"
        "Weight      40 -\n 50 kg      34 - 42 kg\n\nBoth are given for the adult.\n"
    )
    asked = {name: table["asked"] for name, table in proposals(text, "limits").items()}
    assert asked == {
        "height-male": {"from": 60, "to": 66},
        "height-female": {"from": 56, "to": 62},
        "weight-male": {"from": 40, "to": 50},
        "weight-female": {"from": 34, "to": 42},
    }


def test_longer_by_up_to_a_share_has_both_ends():
    text = "HEAD\nThe muzzle is as long as the skull, or longer by up to a tenth.\n"
    assert proposals(text, "limits")["muzzle-length-to-skull-length"]["asked"] == {"from": 1, "to": 1.1}


def test_one_bound_holds_for_both_sexes():
    text = "SIZE\nThe circumference of the pastern is not less than 15 cm in males and 13 cm in females.\n"
    asked = {name: table["asked"] for name, table in proposals(text, "limits").items()}
    assert asked == {"foreleg-girth-male": {"from": 15}, "foreleg-girth-female": {"from": 13}}


def test_a_band_without_a_fault_of_its_own_says_which_side_it_is():
    text = "PROPORTIONS\nThe ratio of the length of the tail to the length of the head is 2 : 1.\n"
    bands = proposals(text, "limits")["tail-length-to-head-length"]["bands"]
    assert [band["label"] for band in bands] == ["less than asked", "more than asked"]


def test_what_no_dog_is_tall_is_no_height():
    assert "height" not in proposals("SIZE\nThe height of the step is 5 to 8 cm.\n", "limits")
