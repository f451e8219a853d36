"""Clauses without marks, denied praise, states named behind their part. Ways of writing: common practice."""

import pytest

from tests.notes.conftest import findings


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("jacket is woolly it will not turn the wet", "coat-skin", "coat-skin.woolly"),
        ("elbows out and will not gallop true", "forequarters", "forequarters.elbows-out"),
        ("hocks turned in and can not move true", "hindquarters", "hindquarters.cow-hocks"),
        ("Loin short, withers flat", "back", "back.loin-short"),
        ("Sound, but she is going short", "movement", "movement.short-reach"),
        ("Drives well, yet the topline dances", "movement", "movement.topline-bouncing"),
        ("Good pace, but trots crooked", "movement", "movement.crabbing"),
        ("Stern ringed", "croup-tail", "croup-tail.curled"),
        ("Back firm, croup above the shoulder", "back", "back.croup-high"),
        ("Good colour, but sunk in her head", "eyes", "eyes.deep-set"),
        ("she would not stop fidgeting", "temperament", "temperament.nervous"),
        ("claws on the back feet too long", "hindfeet", "hindfeet.nails-long"),
        ("Spare skin all over", "coat-skin", "coat-skin.loose-skin"),
        ("Weakly angulated behind", "hindquarters", "hindquarters.straight"),
    ],
)
def test_what_is_amiss_is_found(read, note, region, fault):
    assert (fault, "present") in findings(read(note, region))


@pytest.mark.parametrize(
    "note", ["short broad loin", "Loin short and strong", "short coupled", "a short strong loin"]
)
def test_a_loin_praised_as_short_is_no_fault(read, note):
    assert "back.loin-short" not in {fault for fault, _ in findings(read(note, "back"))}


@pytest.mark.parametrize("note", ["palpated both, no retained testicle", "nothing retained, both are down"])
def test_both_that_are_there_are_no_side_of_what_is_not(read, note):
    found = {f.id: (f.status, f.side) for f in read(note, "reproductive").faults}
    assert found["reproductive.retained-testicle"] == ("absent", None)


@pytest.mark.parametrize(
    ("note", "degree"),
    [("Fierce long the neck is", "marked"), ("a small biteen long in the neck", "slight")],
)
def test_degrees_of_the_country(read, note, degree):
    (fault,) = read(note, "neck").faults
    assert (fault.id, fault.degree) == ("neck.long", degree)


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("Expressive head", "head"),
        ("Thank you missus", "reproductive"),
        ("when he has stood it is quiet", "general"),
    ],
)
def test_chatter_stays_chatter(read, note, region):
    assert findings(read(note, region)) == set()
