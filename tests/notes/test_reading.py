"""What a note means: the trade's ways of saying it. Meanings of terms: common practice."""

import pytest

from tests.notes.conftest import findings

STEEP = "forequarters.shoulder-steep"
ARM_SHORT = "forequarters.upper-arm-short"
COW = "hindquarters.cow-hocks"
LONG_HOCKS = "hindquarters.hocks-long"


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        (
            "blade not steep but short in upper arm",
            "forequarters",
            {(STEEP, "absent"), (ARM_SHORT, "present")},
        ),
        ("hocks long and cow-hocked", "hindquarters", {(LONG_HOCKS, "present"), (COW, "present")}),
        ("neither roached nor swayed", "back", {("back.roached", "absent"), ("back.swayed", "absent")}),
        (
            "elbows and feet both turning out",
            "forequarters",
            {("forequarters.elbows-out", "present"), ("forefeet.east-west", "present")},
        ),
        (
            "steep in shoulder and upper arm",
            "forequarters",
            {(STEEP, "present"), ("forequarters.upper-arm-steep", "present")},
        ),
        ("short, thick neck", "neck", {("neck.short", "present"), ("neck.thick", "present")}),
        (
            "no haw, entropion or bulging",
            "eyes",
            {
                ("eyes.haw", "absent"),
                ("eyes.entropion", "absent"),
                ("eyes.protruding", "absent"),
            },
        ),
        ("free of dewlap", "neck", {("neck.throaty", "absent")}),
        ("cow hocks ruled out", "hindquarters", {(COW, "absent")}),
        ("no longer cow-hocked", "hindquarters", {(COW, "absent")}),
        ("would not call it roached", "back", {("back.roached", "absent")}),
        ("roached? hard to say", "back", {("back.roached", "unsure")}),
        ("maybe cow-hocked", "hindquarters", {(COW, "unsure")}),
        ("cow hocks, I'd want to see it again", "hindquarters", {(COW, "unsure")}),
        ("not free of haw", "eyes", {("eyes.haw", "present")}),
        ("nothing wrong apart from a steep croup", "croup-tail", {("croup-tail.croup-steep", "present")}),
        (
            "neither over nor undershot",
            "mouth",
            {("mouth.overshot", "absent"), ("mouth.undershot", "absent")},
        ),
        ("no forechest", "forequarters", {("forequarters.forechest-lacking", "present")}),
        ("no kink", "croup-tail", {("croup-tail.tail-kinked", "absent")}),
    ],
)
def test_clauses_share_words_and_bind_negation_and_doubt(read, note, region, expected):
    assert findings(read(note, region)) == expected


@pytest.mark.parametrize(
    ("note", "region", "fault", "degree", "side"),
    [
        ("a touch steep in shoulder", "forequarters", STEEP, "slight", None),
        ("shoulder rather steep", "forequarters", STEEP, "moderate", None),
        ("v steep shoulder", "forequarters", STEEP, "marked", None),
        ("shoulder steep +++", "forequarters", STEEP, "extreme", None),
        ("shoulder too steep", "forequarters", STEEP, None, None),
        ("far too steep in shoulder", "forequarters", STEEP, "marked", None),
        ("left elbow out", "forequarters", "forequarters.elbows-out", None, "left"),
        ("elbow out n/s", "forequarters", "forequarters.elbows-out", None, "left"),
        ("off hind turns out", "hindfeet", "hindfeet.turned-out", None, "right"),
        ("LF turns out", "forefeet", "forefeet.east-west", None, "left"),
        ("bilateral cow hocks", "hindquarters", COW, None, "both"),
        ("left to stand he is cow-hocked", "hindquarters", COW, None, None),
    ],
)
def test_degree_and_side(read, note, region, fault, degree, side):
    (found,) = read(note, region).faults
    assert (found.id, found.degree, found.side, found.status) == (fault, degree, side, "present")


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("tail set high, correction, set low", "croup-tail", ("croup-tail.set-low", None, None)),
        ("slightly cow hocked... no, make that moderate", "hindquarters", (COW, "moderate", None)),
        ("left elbow out, no wait, right", "forequarters", ("forequarters.elbows-out", None, "right")),
        ("chest shallow, sorry, I mean narrow", "chest", ("chest.narrow", None, None)),
        ("back a bit roached, no, very", "back", ("back.roached", "marked", None)),
    ],
)  # fmt: skip
def test_the_later_word_of_a_spoken_correction_counts(read, note, region, expected):
    (found,) = read(note, region).faults
    assert ((found.id, found.degree, found.side), found.status) == (expected, "present")


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("steep in shoulder, upper arm likewise", "forequarters", {STEEP, "forequarters.upper-arm-steep"}),
        ("hocks turn out, feet too", "hindquarters", {"hindquarters.bowed-hocks", "hindfeet.turned-out"}),
        (
            "neither blade nor upper arm is short, but both are too upright",
            "forequarters",
            {"forequarters.blade-short", ARM_SHORT, STEEP, "forequarters.upper-arm-steep"},
        ),
    ],
)  # fmt: skip
def test_what_is_said_of_one_part_may_hold_for_the_next(read, note, region, expected):
    assert {f.id for f in read(note, region).faults} == expected


@pytest.mark.parametrize(
    ("praise", "fault_said", "region", "fault"),
    [
        ("loin slightly arched", "loin arched too much", "back", "back.roached"),
        ("long upper arm", "upper arm too long", "forequarters", "forequarters.upper-arm-long"),
        ("moderate tuck up", "far too much tuck up", "back", "back.tuck-up-excess"),
        ("long coat, as it should be", "coat too long", "coat-skin", "coat-skin.long"),
        ("ears high set, hanging close", "ears too high set", "ears", "ears.high-set"),
    ],
)
def test_what_is_asked_is_a_fault_only_in_excess(read, praise, fault_said, region, fault):
    assert read(praise, region).faults == ()
    assert fault in {f.id for f in read(fault_said, region).faults}


def test_a_mark_of_doubt_before_a_word_reaches_that_word_alone(read):
    assert findings(read("shallow, ? narrow", "chest")) == {
        ("chest.shallow", "present"),
        ("chest.narrow", "unsure"),
    }


def test_the_good_state_doubted_or_denied_is_the_fault(read):
    retained = "reproductive.retained-testicle"
    assert findings(read("not sure the right one is fully down", "reproductive")) == {(retained, "unsure")}
    assert findings(read("neither testicle has descended", "reproductive")) == {(retained, "present")}
    assert read("both testicles fully down", "reproductive").faults == ()


def test_degree_and_side_go_to_their_own_finding(read):
    by_id = {f.id: f for f in read("right elbow very loose, left one a bit out", "forequarters").faults}
    loose, out = by_id["forequarters.elbows-loose"], by_id["forequarters.elbows-out"]
    assert (loose.degree, loose.side) == ("marked", "right")
    assert (out.degree, out.side) == ("slight", "left")


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("shoudler stepe", "forequarters", STEEP),
        ("cow hawked", "hindquarters", COW),
        ("cowhocks", "hindquarters", COW),
        ("shldr stp", "forequarters", STEEP),
        ("week pass turns", "forequarters", "forequarters.pasterns-weak"),
        ("scapula upright", "forequarters", STEEP),
        ("tarsus turned inward", "hindquarters", COW),
        ("undreshot", "mouth", "mouth.undershot"),
        ("oversot", "mouth", "mouth.overshot"),
    ],
)
def test_slips_of_keyboard_ear_and_shorthand(read, note, region, fault):
    assert findings(read(note, region)) == {(fault, "present")}


@pytest.mark.parametrize(
    ("region", "fault"),
    [
        ("ears", "ears.long"),
        ("neck", "neck.long"),
        ("croup-tail", "croup-tail.tail-long"),
        ("coat-skin", "coat-skin.long"),
    ],
)
def test_a_bare_quality_speaks_of_the_screen(read, region, fault):
    assert findings(read("too long", region)) == {(fault, "present")}


def test_a_note_may_speak_of_another_region_than_the_screen(read):
    assert findings(read("neck too short", "ears")) == {("neck.short", "present")}


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("Lovely shoulder, well laid back", "forequarters"),
        ("beautiful dark almond eye", "eyes"),
        ("Correct scissor bite, full mouth of strong teeth", "mouth"),
        ("well-sprung ribs and a good depth of chest", "chest"),
        ("short break for coffee", None),
        ("narrow doorway, put the table outside", "hindquarters"),
        ("light rain, carried on", "eyes"),
        ("owner nervous, dog calm", "temperament"),
        ("the steep path up to the ring was slippery", "croup-tail"),
        ("", None),
        ("   \n\t", "back"),
    ],
)
def test_praise_and_chatter_give_no_fault(read, note, region):
    assert read(note, region).faults == ()


def test_two_faults_that_fit_are_both_offered_and_neither_taken(read):
    (found,) = read("feet flat").faults
    assert {found.id, *found.alternatives} == {"forefeet.flat", "hindfeet.flat"}
    assert not found.accepted


def test_a_fault_said_twice_is_one_finding(read):
    assert len(read("cow hocks, definitely cow-hocked", "hindquarters").faults) == 1


def test_what_was_not_understood_is_told(read):
    note = "cow-hocked, zorbly quux"
    spans = read(note, "hindquarters").unread
    assert [note[a:b] for a, b in spans] == ["zorbly quux"]


def test_json_has_the_fields_of_the_contract(read):
    data = read("a touch cow-hocked on the left, withers 64.5 cm", "hindquarters").as_json()
    (fault,) = data["faults"]
    assert set(fault) >= {"id", "degree", "side", "status", "confidence", "span", "accepted"}
    assert data["note"] == "a touch cow-hocked on the left, withers 64.5 cm"
    (measure,) = data["measures"]
    assert measure["id"] == "height"
    assert (measure["value"], measure["unit"]) == (64.5, "cm")


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        (
            "Was told he fears shots. Three fired, not gun-shy.",
            "temperament",
            {("temperament.gun-shy", "absent")},
        ),
        ("I suspected cow hocks, but no, they stand parallel", "hindquarters", {(COW, "absent")}),
        ("ft splyd f & r", "forefeet", {("forefeet.splayed", "present"), ("hindfeet.splayed", "present")}),
        ("Splyaed toes in frnt", "forefeet", {("forefeet.splayed", "present")}),
        ("White sock, not permitted", "colour", {("colour.white", "present")}),
        ("too long in my opinion", "ears", {("ears.long", "present")}),
        ("l bows out", "forequarters", {("forequarters.elbows-out", "present")}),
        ("Short, thick and harsh hair, with dense undercoat", "coat-skin", set()),
    ],
)
def test_hearsay_places_verdicts_and_plain_description(read, note, region, expected):
    assert findings(read(note, region)) == expected


def test_a_full_stop_behind_an_abbreviation_ends_no_sentence(read):
    degrees = {f.id: f.degree for f in read("Sl. cow hocks, v. long hocks", "hindquarters").faults}
    assert degrees == {COW: "slight", LONG_HOCKS: "marked"}


def test_small_words_alone_are_not_told_as_unread(read):
    note = "steep croup and about a low set tail"
    assert [note[a:b] for a, b in read(note, "croup-tail").unread] == []


@pytest.mark.parametrize(
    ("note", "teeth"),
    [
        ("P1 missing upper right", (105,)),
        ("upper right P1 and lower left M3 missing", (105, 311)),
        ("lower P2 absent on the left", (306,)),
        ("missing P1 and P2, lower, both sides", (305, 405, 306, 406)),
        ("P1 missing", ()),
    ],
)
def test_missing_teeth_are_named_by_jaw_and_side(read, note, teeth):
    """Numbers of the modified Triadan system: upper right 1, upper left 2, lower left 3, lower right 4."""
    (found,) = read(note, "mouth").faults
    assert (found.id, set(found.teeth)) == ("mouth.teeth-missing", set(teeth))


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("a longer neck would add elegance", "neck", "neck.short"),
        (
            "were her pasterns a trifle stronger I should be content",
            "forequarters",
            "forequarters.pasterns-weak",
        ),
        ("neck: too long", "neck", "neck.long"),
    ],
)
def test_what_is_only_wished_for_is_missing(read, note, region, fault):
    assert {(f.id, f.status) for f in read(note, region).faults} == {(fault, "present")}


def test_in_a_critique_each_sentence_is_read_under_its_own_region(read):
    note = "Good neck. Croup a little steep. Feet could be tighter. Shoulder upright. Moves close behind."
    assert {f.id for f in read(note, "head").faults if f.accepted} == {
        "croup-tail.croup-steep", "forefeet.splayed", "forequarters.shoulder-steep", "movement.close-behind",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("note", "fault", "worse"),
    [
        ("east west in front, left foot more than the right", "forefeet.east-west", "left"),
        ("elbows loose, the right less than the left", "forequarters.elbows-loose", "left"),
        ("elbows loose left and right", "forequarters.elbows-loose", None),
    ],
)
def test_of_both_sides_the_worse_is_told(read, note, fault, worse):
    reading = read(note)
    (found,) = reading.faults
    assert (found.id, found.side, found.worse) == (fault, "both", worse)
    assert reading.unread == ()
    assert reading.as_json()["faults"][0]["worse"] == worse
