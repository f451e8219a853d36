"""What is stated, what is left open, and what only sounds like it. Ways of speaking: common practice."""

import pytest

from tests.notes.conftest import findings

STEEP = "forequarters.shoulder-steep"
SHORT = "ears.short"
STRAIGHT = "hindquarters.straight"


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("her shoulder is upright?", "forequarters", {(STEEP, "present")}),
        ("they're short? compared with the muzzle anyway", "ears", {(SHORT, "present")}),
        ("the shoulder is a bit steep I think", "forequarters", {(STEEP, "present")}),
        ("the shoulder seems a little steep", "forequarters", {(STEEP, "present")}),
        ("are they short?", "ears", {(SHORT, "unsure")}),
        ("steep shoulder?", "forequarters", {(STEEP, "unsure")}),
        ("the shoulder is steep, or not?", "forequarters", {(STEEP, "unsure")}),
        ("perhaps the shoulder is steep", "forequarters", {(STEEP, "unsure")}),
    ],
)
def test_only_what_is_left_open_is_in_doubt(read, note, region, expected):
    assert findings(read(note, region)) == expected


def test_a_question_is_never_taken_unasked(read):
    assert [f.accepted for f in read("is the shoulder steep?", "forequarters").faults] == [False]


def test_what_could_not_be_found_is_ruled_out(read):
    reading = read("Neither cow hocks nor bowed hocks could be found, whether standing or moving.")
    assert findings(reading) == {
        ("hindquarters.cow-hocks", "absent"),
        ("hindquarters.bowed-hocks", "absent"),
    }


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("it's the width I'm missing", "chest", "chest.narrow"),
        ("it is the depth I am missing", "chest", "chest.shallow"),
        ("where is the bend of stifle? There isn't one.", "hindquarters", STRAIGHT),
        ("the back gives when I press", "back", "back.soft"),
        ("elbow pops out when she walks", "movement", "movement.elbows-out"),
        ("the tail curls itself over the back", "croup-tail", "croup-tail.curled"),
        ("he can't keep still", "temperament", "temperament.nervous"),
    ],
)
def test_a_fault_is_found_however_it_is_put(read, note, region, fault):
    assert findings(read(note, region)) == {(fault, "present")}


@pytest.mark.parametrize(
    ("note", "region", "degree"),
    [
        ("I'd want a good deal more bone", "general", "marked"),
        ("I'd want rather more bone", "general", None),
        ("cow hocks, not bad ones", "hindquarters", "slight"),
        ("a dewclaw on the left hind, gross", "hindfeet", None),
    ],
)
def test_only_what_tells_a_degree_gives_one(read, note, region, degree):
    assert [f.degree for f in read(note, region).faults] == [degree]


@pytest.mark.parametrize(
    ("note", "region", "points"),
    [
        ("croup only lightly inclined, so must it be", "croup-tail", {"croup-tail.croup"}),
        ("hocks low and straight as posts from behind", "hindquarters", {"hindquarters.hocks"}),
        ("hocks straight from the back", "hindquarters", {"hindquarters.hocks"}),
        ("the markings are exactly where they should be", "colour", {"colour.markings"}),
        ("came up to me, not a care in the world", "temperament", {"temperament.approach"}),
    ],
)
def test_a_state_as_asked_is_right_and_no_fault(read, note, region, points):
    reading = read(note, region)
    assert findings(reading) == set()
    assert points <= {a.point for a in reading.affirmed}


def test_what_one_sex_should_be_is_no_fault(read):
    assert findings(read("very feminine", "general")) == set()
    assert findings(read("too feminine for a dog", "general")) == {("general.bitchy-dog", "present")}


def test_praise_behind_and_speaks_of_its_own_part(read):
    reading = read("the crest line sinks before the withers and good dark eye", "neck")
    assert findings(reading) == {("neck.ewe", "present")}
    assert [a.point for a in reading.affirmed] == ["eyes.colour"]
    more = read("the crest line sinks before the withers and dense undercoat, as it should be", "neck")
    assert findings(more) == {("neck.ewe", "present")}


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("his sire had a gay tail, moves close behind", {("movement.close-behind", "present")}),
        ("the dam was steep in shoulder, is straight behind herself", {(STRAIGHT, "present")}),
        ("her mother had light eyes, cow hocks and a steep croup", set()),
        ("his sire moves close behind, stands out at the elbows", set()),
    ],
)
def test_behind_a_relative_that_was_so_a_verb_of_now_speaks_of_the_dog_again(read, note, expected):
    assert findings(read(note)) == expected
