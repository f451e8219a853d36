"""Words breed people use of forequarters, croup and tail, hindquarters and hind feet (common practice)."""

import pytest

from hands_on.notes import read_note

SAID = [
    ("forequarters", "His shoulder stands to attention", "forequarters.shoulder-steep"),
    ("forequarters", "I wish the blade laid further back", "forequarters.shoulder-steep"),
    ("forequarters", "Shoulders like a bouncer", "forequarters.shoulder-loaded"),
    ("forequarters", "Blade not anchored to the ribs", "forequarters.shoulder-loose"),
    ("forequarters", "Scapula barely fills my hand", "forequarters.blade-short"),
    ("forequarters", "From shoulder to elbow is skimped", "forequarters.upper-arm-short"),
    ("forequarters", "Humerus goes on and on", "forequarters.upper-arm-long"),
    ("forequarters", "Between shoulder and elbow the bone drops plumb", "forequarters.upper-arm-steep"),
    ("forequarters", "Nothing forward of the points of shoulder", "forequarters.forechest-lacking"),
    ("forequarters", "Breastbone juts out like a bumper", "forequarters.forechest-prominent"),
    ("forequarters", "Forelegs planted too far apart", "forequarters.front-wide"),
    ("forequarters", "Elbows trussed up", "forequarters.elbows-in"),
    ("forequarters", "Elbow rattles under my thumb", "forequarters.elbows-loose"),
    ("forequarters", "No shock absorber in the pastern", "forequarters.pasterns-upright"),
    ("forequarters", "Curtseys on the off wrist", "forequarters.knuckling"),
    ("forequarters", "Forelegs slant and don't match", "forequarters.legs-not-parallel"),
    ("forequarters", "Body dangles between the blades", "forequarters.body-slung"),
    ("croup-tail", "Rump plunges behind the hips", "croup-tail.croup-steep"),
    ("croup-tail", "Croup like an ironing board", "croup-tail.croup-flat"),
    ("croup-tail", "Stern hitched on too far down", "croup-tail.set-low"),
    ("croup-tail", "Tail bolted on the roof", "croup-tail.set-high"),
    ("croup-tail", "Tail stops well shy of the hock", "croup-tail.tail-short"),
    ("croup-tail", "Tip overshoots the hock, too much rudder", "croup-tail.tail-long"),
    ("croup-tail", "Stern doesn't fine down", "croup-tail.tail-thick"),
    ("croup-tail", "Tail loops over", "croup-tail.curled"),
    ("croup-tail", "Whelped with a stump", "croup-tail.bobtail"),
    ("croup-tail", "The stern was cut short by the docker, docked to two joints", "croup-tail.docked"),
    ("hindquarters", "Rear folded like a deckchair", "hindquarters.over-angulated"),
    ("hindquarters", "Between stifle and hock she is short", "hindquarters.second-thigh-short"),
    ("hindquarters", "Hock barely bends", "hindquarters.hocks-straight"),
    ("hindquarters", "Stifles point to the sides", "hindquarters.stifles-out"),
    ("hindquarters", "Hocks gossiping", "hindquarters.cow-hocks"),
    ("hindquarters", "Cannons slant under him", "hindquarters.sickle-hocks"),
    ("hindquarters", "Cannon bones run tall", "hindquarters.hocks-long"),
    ("hindquarters", "Hock clicks to the front", "hindquarters.hocks-loose"),
    ("hindfeet", "Rear toes point in different directions", "hindfeet.turned-out"),
    ("hindfeet", "Hind feet are flippers", "hindfeet.flat"),
    ("hindfeet", "Back claws clatter on the floor", "hindfeet.nails-long"),
    ("hindfeet", "Milky claws behind", "hindfeet.nails-light"),
]


@pytest.mark.parametrize(("region", "note", "fault"), SAID)
def test_words_of_the_trade_are_read_as_their_fault(region, note, fault, lexicon):
    found = {f.id for f in read_note(note, lexicon, region=region).faults if f.status == "present"}
    assert fault in found


@pytest.mark.parametrize(
    ("note", "side"),
    [
        ("Loose shoulder, off side", "right"),
        ("Loose shoulder, off fore", "right"),
        ("Straight in the stifle, off hind", "right"),
        ("Tail swings to the left", "left"),
    ],
)
def test_the_side_may_stand_behind_the_comma_or_in_the_fault_itself(note, side, lexicon):
    assert [f.side for f in read_note(note, lexicon, region=None).faults] == [side]


def test_what_is_noted_is_not_denied(lexicon):
    (docked,) = read_note("Noted, tail docked", lexicon, region="croup-tail").faults
    assert (docked.id, docked.status) == ("croup-tail.docked", "present")


@pytest.mark.parametrize(
    ("region", "note"),
    [
        ("croup-tail", "Tail a continuation of the topline"),
        ("croup-tail", "Tail swings from side to side as he goes"),
        ("hindquarters", "Hind pasterns stand at a right angle to the table"),
        ("forequarters", "Shoulders flat over the blade, elbow stays against the rib when pushed"),
        ("hindfeet", "Hind toes lie close and knuckled"),
        ("croup-tail", "shut the gate, somebody"),
    ],
)
def test_what_is_right_and_what_is_chatter_is_no_fault(region, note, lexicon):
    assert not read_note(note, lexicon, region=region).faults
