"""What is said of another dog or another day is no finding of this one. Ways of speaking: common practice."""

import pytest

from tests.notes.conftest import findings

COW = "hindquarters.cow-hocks"


@pytest.mark.parametrize(
    "note",
    [
        "was cow-hocked as a pup",
        "cow-hocked as a puppy",
        "at six months he was cow-hocked",
        "last year he was cow-hocked, now he is right",
        "my own dog is cow-hocked",
        "half the entry was cow-hocked",
        "the dog before him was cow-hocked",
    ],
)
def test_another_dog_or_another_day_gives_no_finding(read, note):
    assert (COW, "present") not in findings(read(note, "hindquarters"))


@pytest.mark.parametrize(
    "note",
    [
        "cow-hocked since last year",
        "still cow-hocked, as he was a year ago",
        "more cow-hocked than the last dog",
        "the last dog was sound, this one is cow-hocked",
        "he is cow-hocked, last year I did not see it",
    ],
)
def test_what_is_so_today_is_found_beside_another_day_or_dog(read, note):
    assert (COW, "present") in findings(read(note, "hindquarters"))


@pytest.mark.parametrize(
    ("note", "region", "degree", "side"),
    [
        ("right elbow, moderate, standing off the chest", "forequarters", "moderate", "right"),
        ("near eye runs, the lid's turned in", "eyes", None, "left"),
        ("left elbow good, pasterns weak", "forequarters", None, None),
    ],
)
def test_side_and_degree_said_before_the_finding_belong_to_it(read, note, region, degree, side):
    found = read(note, region).faults
    assert [(f.degree, f.side) for f in found] == [(degree, side)]


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("a kink in the tail I could not find", "croup-tail", {("croup-tail.tail-kinked", "absent")}),
        ("I looked in vain for a dewlap", "neck", {("neck.throaty", "absent")}),
        ("one cannot say he is roached", "back", {("back.roached", "absent")}),
        ("nobody could call her shy", "temperament", {("temperament.shy", "absent")}),
        ("undershot? Not really.", "mouth", {("mouth.undershot", "absent")}),
        ("tail not carried gay", "croup-tail", {("croup-tail.carried-high", "absent")}),
    ],
)
def test_a_denial_is_heard_wherever_it_stands(read, note, region, expected):
    assert findings(read(note, region)) == expected


def test_the_loin_behind_it_keeps_its_own_quality(read):
    note = "well ribbed, but the loin behind it is weak and narrow"
    assert findings(read(note, "back")) == {("back.loin-narrow", "present")}


def test_for_a_working_dog_is_only_what_the_coat_is_measured_by(read):
    note = "coat too soft and too long for a working dog"
    assert findings(read(note, "coat-skin")) == {("coat-skin.soft", "present"), ("coat-skin.long", "present")}


@pytest.mark.parametrize(
    ("note", "fault"),
    [
        ("straight in stifle, feet right", "hindquarters.straight"),
        ("straight in stifle, tail set maybe ok", "hindquarters.straight"),
        ("steep shoulder, ears might be all right", "forequarters.shoulder-steep"),
    ],
)
def test_a_remark_on_another_part_gives_a_finding_no_side_and_no_doubt(read, note, fault):
    (found,) = read(note).faults
    assert (found.id, found.status, found.side) == (fault, "present", None)


def test_a_remark_on_the_same_part_still_gives_a_side_and_a_doubt(read):
    (found,) = read("cow-hocked, the left hock only").faults
    assert found.side == "left"
    (found,) = read("steep shoulder, shoulder maybe").faults
    assert found.status == "unsure"
