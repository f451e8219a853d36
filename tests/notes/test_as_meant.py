"""Small words written, clipped or said otherwise than meant. Ways of speaking: common practice."""

import pytest

from tests.notes.conftest import findings

LEGS = ("general.low-on-leg", "present")
DRIVE = ("movement.weak-drive", "present")
FORECHEST = ("forequarters.forechest-lacking", "present")
LIGHT = ("eyes.light", "present")
COW = "hindquarters.cow-hocks"


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("way to short in the leg", "general", {LEGS}),
        ("eye to light", "eyes", {LIGHT}),
        ("back slopes to much", "back", {("back.slope-excess", "present")}),
        ("nae drive", None, {DRIVE}),
        ("ain't got no forechest", None, {FORECHEST}),
        ("nowt in the way of forechest", None, {FORECHEST}),
        ("where is the forechest?", None, {FORECHEST}),
        ("eyes lighter'n I'd like", None, {LIGHT}),
        ("shade long in t'back", None, {("back.long", "present")}),
        ("could do wi' more bone", None, {("general.bone-fine", "present")}),
        ("What I'd still like is a darker eye", None, {LIGHT}),
        ("I don't like the steep croup", None, {("croup-tail.croup-steep", "present")}),
        ("If I may be frank, her eyes are lighter than I'd want", None, {LIGHT}),
        ("if anything a little coarse in bone", None, {("general.bone-coarse", "present")}),
        ("a good handful of loose skin under the throat", None, {("neck.throaty", "present")}),
    ],
)
def test_a_fault_said_in_dialect_in_passing_or_with_a_slip_is_found(read, note, region, expected):
    assert findings(read(note, region)) == expected


def test_a_verb_behind_to_keeps_it(read):
    assert findings(read("he is used to light work", "general")) == set()
    assert findings(read("hard to judge in this light", "general")) == set()


@pytest.mark.parametrize(
    "note",
    [
        "His sire carried his tail like a flag",
        "litter brother had a kinked tail",
        "her mother had light eyes",
    ],
)
def test_what_is_said_of_a_relative_is_not_said_of_the_dog(read, note):
    reading = read(note)
    assert reading.faults == ()
    assert reading.affirmed == ()


def test_a_relative_is_heard_behind_another_sentence(read):
    assert findings(read("Cow-hocked. Her sister had light eyes.")) == {(COW, "present")}


@pytest.mark.parametrize(
    ("note", "teeth"),
    [
        ("upr rt p1 missing", (105,)),
        ("P1s missing both sides below", (305, 405)),
        ("first premolar missing lower left", (305,)),
        ("lower l P2 missing", (306,)),
    ],
)
def test_the_tooth_is_known_however_it_is_written(read, note, teeth):
    """Modified Triadan numbers (Floyd 1991; from memory)."""
    (found,) = read(note, "mouth").faults
    assert (found.id, found.status, found.teeth) == ("mouth.teeth-missing", "present", teeth)


def test_no_tooth_missing_is_no_missing_tooth(read):
    assert findings(read("no P1 missing", "mouth")) == {("mouth.teeth-missing", "absent")}
    assert {a.point for a in read("no teeth missing", "mouth").affirmed} == {"mouth.teeth"}
    assert {a.point for a in read("42 teeth", "mouth").affirmed} == {"mouth.teeth"}
    assert read("no premolar missing", "mouth").affirmed == ()


def test_behind_like_a_relative_is_only_compared_with(read):
    assert findings(read("light eyes like her dam")) == {LIGHT}
    assert findings(read("Her sister had the better head, but he is cow-hocked")) == {(COW, "present")}


@pytest.mark.parametrize(
    ("note", "fault"),
    [
        ("he was loose in the elbow then, and that has quite gone", "forequarters.elbows-loose"),
        ("He was cow hocked as a pup. Not cow hocked anymore.", COW),
        ("the weak pasterns described before are no longer present", "forequarters.pasterns-weak"),
    ],
)
def test_what_is_gone_is_ruled_out(read, note, fault):
    assert findings(read(note)) == {(fault, "absent")}


def test_the_dog_moving_names_its_faults_otherwise_than_the_dog_standing(read):
    assert findings(read("going away he's cow-hocked")) == {("movement.cow-hocked", "present")}
    assert findings(read("stands cow-hocked")) == {(COW, "present")}
    assert {a.point for a in read("topline holds on the move").affirmed} == {"movement.topline"}


def test_the_colour_behind_an_eye_is_the_eyes(read):
    assert findings(read("The lids fit well, but the colour is a shade too light")) == {LIGHT}
    assert findings(read("Eyes almond, the colour a shade too light")) == {LIGHT}
    assert {a.point for a in read("eyes: shape right, colour right").affirmed} == {
        "eyes.shape",
        "eyes.colour",
    }
    assert findings(read("eye dark, coat colour too light")) == {("colour.wrong-shade", "present")}


def test_a_tag_question_asks_nothing(read):
    assert findings(read("too long in the loin, isn't he?")) == {("back.loin-long", "present")}
    assert findings(read("is he too long in the loin?")) == {("back.loin-long", "unsure")}


def test_what_a_part_is_measured_by_has_no_fault(read):
    found = findings(read("The upper arm is short in comparison with the blade, and upright", "forequarters"))
    assert ("forequarters.blade-short", "present") not in found
    assert {("forequarters.upper-arm-short", "present"), ("forequarters.upper-arm-steep", "present")} <= found


def test_praise_of_a_length_says_nothing_of_where_a_part_is_set(read):
    reading = read("tail of good length, set high")
    assert ("croup-tail.set-high", "present") in findings(reading)
    assert {a.point for a in reading.affirmed} == {"croup-tail.tail-reach"}


def test_its_own_part_named_a_fault_of_another_region_is_taken(read):
    (found,) = read("loose elbows", "head").faults
    assert (found.id, found.accepted) == ("forequarters.elbows-loose", True)
