"""Slips of thumbs and telephones, and shorthand: read as they are meant. Ways of writing: common practice."""

import pytest

from tests.notes.conftest import findings


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("sty fulls turning out on the move", "hindquarters", "hindquarters.stifles-out"),
        ("both past earns weak", "forequarters", "forequarters.pasterns-weak"),
        ("weak patterns", "forequarters", "forequarters.pasterns-weak"),
        ("soldiers too upright", "forequarters", "forequarters.shoulder-steep"),
        ("upper harm too short", "forequarters", "forequarters.upper-arm-short"),
        ("in tropian of the lower lid", "eyes", "eyes.entropion"),
        ("hoar showing badly", "eyes", "eyes.haw"),
        ("too much hole showing", "eyes", "eyes.haw"),
        ("ice too round for me", "eyes", "eyes.round"),
        ("lower yaw undershot", "mouth", "mouth.undershot"),
        ("the in scissors crowded", "mouth", "mouth.teeth-crowded"),
        ("text sure too soft", "coat-skin", "coat-skin.soft"),
        ("crew p falls away too steep", "croup-tail", "croup-tail.croup-steep"),
        ("slab cider", "chest", "chest.slab-sided"),
        ("no death of chest", "chest", "chest.shallow"),
        ("duel app below the throat", "neck", "neck.throaty"),
        ("yew neck", "neck", "neck.ewe"),
        ("mussel too short", "head", "head.muzzle-short"),
        ("circle hawks", "hindquarters", "hindquarters.sickle-hocks"),
        ("white behind as he goes off", "movement", "movement.wide-behind"),
        ("dips behind the with us", "back", "back.swayed"),
        ("under hide by a good bit", "general", "general.under-height"),
        ("sh'ldr upr, f'chest wtg", "forequarters", "forequarters.shoulder-steep"),
        ("c/hocked behind", "hindquarters", "hindquarters.cow-hocks"),
        ("t-line dips", "back", "back.swayed"),
        ("Bskt shl.", "chest", "chest.shallow"),
        ("hum. too short, scap. fine", "forequarters", "forequarters.upper-arm-short"),
        ("crossg in frt", "movement", "movement.crossing"),
        ("DCs not removed", "hindfeet", "hindfeet.dewclaws"),
        ("undct nrly abs", "coat-skin", "coat-skin.no-undercoat"),
        ("u/coat nil", "coat-skin", "coat-skin.no-undercoat"),
        ("2nd thigh sht", "hindquarters", "hindquarters.second-thigh-short"),
        ("cr stp", "croup-tail", "croup-tail.croup-steep"),
        ("T/line hogged", "back", "back.roached"),
    ],
)
def test_what_was_meant_is_found(read, note, region, fault):
    assert (fault, "present") in findings(read(note, region))


@pytest.mark.parametrize(
    ("note", "degree", "side"),
    [
        ("elbows slighlty out", "slight", None),
        ("elbows vrey loose", "marked", None),
        ("elbows somewhhat loose", "moderate", None),
        ("lfet elbow out", None, "left"),
        ("elbows out on boht sides", None, "both"),
        ("elbows sw. out", "moderate", None),
        ("elbows out ltl", "slight", None),
        ("write elbow out", None, "right"),
        ("N.F. elbow out", None, "left"),
        ("O.F. elbow out", None, "right"),
        ("elb loose. R wrse.", None, "right"),
    ],
)
def test_degree_and_side_are_read_through_a_slip(read, note, degree, side):
    (fault,) = read(note, "forequarters").faults
    assert (fault.degree, fault.side) == (degree, side)


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("nothibg abnormal about the skin", "coat-skin"),
        ("eyes fere of haw", "eyes"),
        ("wihtout dewlap", "neck"),
        ("dewlap nil", "neck"),
    ],
)
def test_a_denial_with_a_slip_denies(read, note, region):
    assert {status for _, status in findings(read(note, region))} == {"absent"}


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("it is too loud in this hall", "eyes"),
        ("he stands like a soldier", "forequarters"),
        ("the patterns on that rug are pretty", "colour"),
        ("her mussel soup was good", "chest"),
        ("ice on the road this morning", "movement"),
        ("moist nose, cold to the hand", "head"),
        ("of course he was here last week", "general"),
    ],
)
def test_ordinary_words_stay_what_they_are(read, note, region):
    assert findings(read(note, region)) == set()


def test_what_was_heard_keeps_its_place(read):
    note = "well, weak past earns I fear"
    (fault,) = read(note, "forequarters").faults
    assert note[slice(*fault.span)] == "weak past earns"
