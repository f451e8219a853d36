"""Sides, amounts and relatives said apart from the fault they belong to. All common practice."""

import pytest

from tests.notes.conftest import findings


@pytest.mark.parametrize(
    ("note", "region", "fault", "side"),
    [
        ("Ambles, both legs of a side going together.", "movement", "movement.pacing", None),
        ("muzzle is right, skull far too broad", "head", "head.broad-skull", None),
        ("the leather's shape right, set too low", "ears", "ears.low-set", None),
        ("Right, she is coming too close in front.", "movement", "movement.close-in-front", None),
        ("no trace of ectropion in either eye", "eyes", "eyes.ectropion", "both"),
        ("elbow out, the left one", "forequarters", "forequarters.elbows-out", "left"),
    ],
)
def test_a_side_is_told_only_where_one_is_meant(read, note, region, fault, side):
    assert [f.side for f in read(note, region).faults if f.id == fault] == [side]


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("would like a good inch more neck", "neck", "neck.short"),
        ("could do with a good bit more bone", "general", "general.bone-fine"),
        ("Short, steep croup", "croup-tail", "croup-tail.croup-short"),
        ("skull narrow, domed on top", "head", "head.domed-skull"),
        ("Firm back, but the tuck-up, it is not there.", "back", "back.tuck-up-lacking"),
        ("coat much too soft for rough cover", "coat-skin", "coat-skin.soft"),
        ("His sire was light in the eye. So is he.", "eyes", "eyes.light"),
        ("loin 14 cm, too long tbh", "back", "back.loin-long"),
        ("Neck of good length, but set on rather abruptly.", "neck", "neck.set-high"),
        ("Pig jaw, I fear.", "mouth", "mouth.overshot"),
        ("pasterns upright, zero spring", "forequarters", "forequarters.pasterns-upright"),
    ],
)
def test_what_is_said_apart_is_put_together(read, note, region, fault):
    assert (fault, "present") in findings(read(note, region))


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("she isn't carrying her tail too gaily", "croup-tail", "croup-tail.carried-high"),
        ("thought cow hocks, nope", "hindquarters", "hindquarters.cow-hocks"),
        ("low on the leg, I thought; not so on a second look", "general", "general.low-on-leg"),
    ],
)
def test_a_denial_reaches_its_fault(read, note, region, fault):
    assert findings(read(note, region)) == {(fault, "absent")}


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("He used to be shy of strangers, I am told.", "temperament"),
        ("You see, I have to begin somewhere.", "neck"),
        ("can you see how deep the chest is", "coat-skin"),
        ("topline firm and she doesn't give an inch", "back"),
        ("sound as a bell, poor lamb, and tired of waiting", "mouth"),
        ("breathe out, good boy", "chest"),
    ],
)
def test_chatter_and_what_was_once_is_no_fault(read, note, region):
    assert findings(read(note, region)) == set()
