"""Notes spoken without a pause: where a remark ends, and remarks that find nothing.

The notes are invented; what they mean is common practice.
"""

import pytest


def faults(reading) -> set[tuple[str, str]]:
    return {(f.id, f.status) for f in reading.faults}


def points(reading) -> set[str]:
    return {a.point for a in reading.affirmed}


@pytest.mark.parametrize(
    ("note", "region", "point"),
    [
        ("loin is strong it don't give when he turns, feet tight", "back", "back.loin"),
        ("back is firm I could not push it down, loin short and strong", "back", "back.firmness"),
    ],
)
def test_a_subject_behind_a_judgement_opens_a_new_remark(read, note, region, point):
    assert point in points(read(note, region=region))


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("good broad croup only it falls off steep", "croup-tail", "croup-tail.croup-steep"),
        ("back is firm, still it dips a little behind the withers", "back", "back.swayed"),
        ("feet tight and round, only they point east and west", "forefeet", "forefeet.east-west"),
    ],
)
def test_only_and_still_before_a_subject_mean_but(read, note, region, fault):
    assert (fault, "present") in faults(read(note, region=region))


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("a deep chest is what holds the wind", "chest"),
        ("the standard says the foot ought to be tight and the toes arched up", "forefeet"),
        ("you take a flat footed dog on frozen ground", "forefeet"),
        ("so he can reach a long way", "movement"),
        ("a front like that stays together in a stubble field", "forequarters"),
        ("that takes the drive right out of him", "movement"),
    ],
)
def test_what_a_part_is_for_is_neither_fault_nor_praise(read, note, region):
    reading = read(note, region=region)
    assert not reading.faults
    assert not reading.affirmed


def test_what_is_wanted_of_a_purpose_is_still_praise(read):
    assert "chest.depth" in points(read("deep to the elbow, that's what I want", region="chest"))


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("that's where he falls down, straight in shoulder", "forequarters", "forequarters.shoulder-steep"),
        ("that's why he moves close behind", "movement", "movement.close-behind"),
        ("the standard asks for a level back but his is roached", "back", "back.roached"),
    ],
)
def test_a_fault_told_with_its_reason_is_read(read, note, region, fault):
    assert (fault, "present") in faults(read(note, region=region))


def test_no_white_behind_praise_of_colour_is_ruled_out(read):
    reading = read("colour is right, good shade and no white on her", region="colour")
    assert faults(reading) == {("colour.white", "absent")}


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("upper arm every bit as long as the blade", "forequarters"),
        ("stands just as wide as her hips", "hindquarters"),
    ],
)
def test_like_another_part_of_the_dog_is_no_fault(read, note, region):
    assert not read(note, region=region).faults


def test_a_likeness_from_elsewhere_leaves_the_fault(read):
    found = faults(read("shoulder as straight as a post", region="forequarters"))
    assert ("forequarters.shoulder-steep", "present") in found


@pytest.mark.parametrize(
    ("note", "region", "fault", "degree"),
    [
        ("muzzle snipy and I'd say moderately so", "head", "head.snipy", "moderate"),
        (
            "down in the pasterns and I mean considerable",
            "forequarters",
            "forequarters.pasterns-weak",
            "marked",
        ),
        ("fine in the bone, markedly so for a male dog", "general", "general.bone-fine", "marked"),
        ("shy, moderately I'd call it", "temperament", "temperament.shy", "moderate"),
    ],
)
def test_a_degree_said_afterwards_is_of_the_fault_before(read, note, region, fault, degree):
    assert (fault, degree) in {(f.id, f.degree) for f in read(note, region=region).faults}


@pytest.mark.parametrize(
    ("note", "region", "fault", "other"),
    [
        ("lids tight and the eye well set but they're too light", "head", "eyes.light", "head.fine"),
        ("ears set right where they should be but too long", "head", "ears.long", "head.muzzle-long"),
    ],
)
def test_they_go_on_with_what_was_named_whatever_is_on_screen(read, note, region, fault, other):
    found = {f.id for f in read(note, region=region).faults}
    assert fault in found
    assert other not in found


@pytest.mark.parametrize(
    ("note", "region", "only"),
    [
        ("it's thin like a goose", "neck", "neck.thin"),
        ("toes open, splayed like a duck", "hindfeet", "hindfeet.splayed"),
    ],
)
def test_a_picture_of_what_was_just_said_adds_nothing(read, note, region, only):
    assert {f.id for f in read(note, region=region).faults} == {only}


def test_hind_foot_that_drops_right_in_the_track_praises_no_toes(read):
    assert not points(read("hind foot drops right in the track of the front foot", region="movement"))


def test_pink_spots_on_the_nose_are_no_praise(read):
    found = faults(read("the nose has pink spots on it", region="head"))
    assert ("head.nose-pigment", "present") in found


def test_white_where_it_is_not_allowed_is_found(read):
    assert ("colour.white", "present") in faults(
        read("left hind foot white where it's not allowed", region="colour")
    )


def test_the_elbow_the_depth_reaches_is_not_praised(read):
    assert "forequarters.elbows" not in points(
        read("deep right down to the elbow where it belongs", region="chest")
    )


def test_right_there_is_no_side(read):
    (found,) = read("level bite right there in the middle", region="mouth").faults
    assert (found.id, found.side) == ("mouth.level-bite", None)
