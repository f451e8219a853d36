"""What an evaluator says of a point that is right, in words and constructions of many kinds."""

import pytest

RIGHT = (
    # a heading, then the verdict
    ("croup-tail", "tail placement: ideal", "croup-tail.set"),
    ("ears", "length of leather, correct", "ears.length"),
    ("neck", "reach of neck - just right", "neck.length"),
    ("general", "breed type: very good", "general.type"),
    ("mouth", "Bite right.", "mouth.bite"),
    # where and how it should be
    ("ears", "Ears put on just where I like them.", "ears.set"),
    ("croup-tail", "Tail set on where it ought to be.", "croup-tail.set"),
    ("croup-tail", "She carries her tail as she should.", "croup-tail.carriage"),
    ("movement", "Reach is all one could ask for.", "movement.reach"),
    ("back", "I would not change his topline.", "back.topline"),
    ("head", "Stop exactly as the book wants it.", "head.stop"),
    # states of single points
    ("back", "Back holds to pressure.", "back.firmness"),
    ("back", "Withers easy to find and run nicely into the back.", "back.withers"),
    ("back", "Belly line rises gently.", "back.underline"),
    ("chest", "Ribbing goes right back.", "chest.rib-cage"),
    ("chest", "Brisket meets the elbow.", "chest.depth"),
    ("coat-skin", "Jacket hugs her body.", "coat-skin.lie"),
    ("coat-skin", "Plenty of wool beneath.", "coat-skin.undercoat"),
    ("colour", "Markings crisp and where they belong.", "colour.markings"),
    ("croup-tail", "Generous croup.", "croup-tail.croup-size"),
    ("eyes", "Lids hug the eye.", "eyes.lids"),
    ("forefeet", "Round and compact front feet.", "forefeet.form"),
    ("forequarters", "Elbows tucked in neatly.", "forequarters.elbows"),
    ("forequarters", "Shoulder blades held tight to the ribs.", "forequarters.blade-hold"),
    ("general", "She is every inch a lady.", "general.sex-type"),
    ("hindquarters", "Rear pasterns plumb to the ground.", "hindquarters.rear-pastern"),
    ("mouth", "Teeth clean and white.", "mouth.wear"),
    ("movement", "Sound as a bell.", "movement.soundness"),
    ("movement", "Backline steady in motion.", "movement.topline"),
    ("movement", "Goes away like a train.", "movement.going-away"),
    ("neck", "Neck blends into the shoulder.", "neck.set"),
    ("neck", "There is power in that neck.", "neck.strength"),
    ("hindquarters", "Well bent behind without exaggeration.", "hindquarters.angulation"),
    ("back", "A tidy lower line from brisket to stifle, correct underline.", "back.underline"),
    ("general", "Bone carried right down to the toes.", "general.bone"),
    ("temperament", "Never turned a hair.", "temperament.steadiness"),
    # a quality of the part on screen alone, a question answered, an inverted order
    ("neck", "Good length.", "neck.length"),
    ("forequarters", "Shoulder? Lovely.", "forequarters.shoulder"),
    ("forequarters", "Blade good.", "forequarters.shoulder"),
    ("movement", "Reach I cannot fault.", "movement.reach"),
    ("forequarters", "I have no argument with the shoulder.", "forequarters.shoulder"),
    ("croup-tail", "Croup is fine.", "croup-tail.croup"),
    # pictures and paraphrases
    ("forefeet", "Pads like boot leather.", "forefeet.pads"),
    ("temperament", "Approached me confidently.", "temperament.approach"),
    ("temperament", "Like a lamb on the table.", "temperament.steadiness"),
    ("movement", "Coming towards me she moves true.", "movement.coming-on"),
    ("neck", "Neck emerges well from the shoulder.", "neck.set"),
    ("hindquarters", "Firm hocks.", "hindquarters.hocks"),
    ("mouth", "A fair scissor.", "mouth.bite"),
    # as somebody wants it
    ("back", "Withers just where we want them.", "back.withers"),
    ("chest", "Spring of rib exactly where I'd want it.", "chest.spring"),
    ("croup-tail", "Tail set on where it's supposed to be.", "croup-tail.set"),
    ("coat-skin", "Coat the length we want.", "coat-skin.length"),
    # points by what they do, or beside what they are measured by
    ("back", "Topline falls gently to the rear.", "back.slope"),
    ("back", "Back takes my weight.", "back.firmness"),
    ("back", "Length of back in keeping with his height.", "back.back-proportion"),
    ("chest", "Keel down to the elbow.", "chest.depth"),
    ("chest", "Her breastbone runs smoothly into the belly.", "chest.rib-cage"),
    ("chest", "I can span her.", "chest-span"),
    ("coat-skin", "Jacket of the right sort.", "coat-skin.kind"),
    ("coat-skin", "Cannot find the skin for hair.", "coat-skin.density"),
)
"""Region, note, the point called right; common practice."""

BESIDE = (
    ("head", "Stop is right, skull too broad", "head.stop", "head.broad-skull"),
    ("ears", "Ear form is right, set too low", "ears.form", "ears.low-set"),
    ("coat-skin", "Right crisp texture, but thin of hair", "coat-skin.texture", "coat-skin.sparse"),
    ("croup-tail", "Croup is fine. Tail kinked.", "croup-tail.croup", "croup-tail.tail-kinked"),
    ("coat-skin", "Heaps of undercoat, top coat too soft", "coat-skin.undercoat", "coat-skin.soft"),
    ("movement", "Straight coming, wide going away", "movement.coming-on", "movement.wide-behind"),
    ("movement", "Ample drive, but close behind", "movement.drive", "movement.close-behind"),
)
"""Region, note, what it calls right, what it finds amiss beside it; common practice."""

NOT_RIGHT = (
    ("ears", "Leather reaches just where it should.", "movement.reach"),
    ("croup-tail", "Tail reaches the hock just as wanted.", "hindquarters.hocks"),
    ("croup-tail", "Plenty of rump there to push with.", "movement.drive"),
    ("croup-tail", "Good broad croup.", "croup-tail.croup"),
    ("hindfeet", "Dewclaws still on the hind feet, they ought to be gone.", "hindfeet.toes"),
    ("eyes", "A speck on the right lower lid.", "eyes.lids"),
    ("coat-skin", "Quality coat, correct harsh texture.", "coat-skin.kind"),
    ("chest", "Goes down too far, past where I want it to stop.", "head.stop"),
    ("hindquarters", "Firm hocks.", "hindquarters.hock-joint"),
    ("movement", "Coming towards me she moves true.", "movement.going-away"),
    ("back", "Back good and firm.", "back.topline"),
    ("neck", "Strong dewlap.", "neck.strength"),
    ("forequarters", "Right page of the form.", "forequarters.shoulder"),
    ("forequarters", "Fine bone.", "general.bone"),
    ("eyes", "No haw, checked both.", "reproductive.testicles"),
    ("movement", "Ok coming round the front now.", "movement.coming-on"),
    ("temperament", "Come here, sweetheart.", "temperament.approach"),
    ("movement", "Rolls along like a jolly sailor.", "temperament.approach"),
    ("movement", "Daylight enough to drive a cart through.", "movement.drive"),
    ("general", "Bitch, two and a half, blue collar.", "general.sex-type"),
    ("colour", "Good ink round the eyes and on the pads.", "forefeet.pads"),
)
"""Region, note, a point that the note says nothing of; common practice."""

NOT_PLAINLY = (
    # a degree beside the state; what should be; what goes past what is asked
    ("back", "Loin rather short.", "back.loin"),
    ("coat-skin", "Topcoat a shade harsh.", "coat-skin.texture"),
    ("forequarters", "Elbows somewhat tight.", "forequarters.elbows"),
    ("coat-skin", "texture: too harsh", "coat-skin.texture"),
    ("back", "The loin should be broad and muscular.", "back.loin"),
    ("coat-skin", "Dense jacket, should be thin.", "coat-skin.density"),
    ("coat-skin", "The coat is meant to be harsh.", "coat-skin.texture"),
    ("chest", "Deep beyond what is asked.", "chest.depth"),
    ("croup-tail", "Tail set on well below where I want it.", "croup-tail.set"),
    ("forefeet", "A flat foot where I want a tight one.", "forefeet.toes"),
    ("hindquarters", "He hasn't got enough width of thigh.", "hindquarters.muscle"),
    ("head", "She hasn't got enough breadth of skull.", "head.skull-width"),
    ("head", "Topskull round where I want it flat.", "head.skull-top"),
    ("croup-tail", "A pity that he carries his tail so well and has no coat.", "croup-tail.carriage"),
    # a side, not praise; a description that nobody calls right
    ("forequarters", "Long in the right humerus.", "forequarters.upper-arm"),
    ("back", "Short loin.", "back.loin"),
    ("forequarters", "upper arm long", "forequarters.upper-arm"),
)
"""Region, note, a point whose state is named and not called right; common practice."""


@pytest.mark.parametrize(("region", "note", "point"), RIGHT, ids=[note for _, note, _ in RIGHT])
def test_what_is_called_right_is_heard_and_is_no_fault(read, region, note, point):
    reading = read(note, region=region)
    assert point in {a.point for a in reading.affirmed}
    assert not [f for f in reading.faults if f.status != "absent"]


@pytest.mark.parametrize(("region", "note", "point"), NOT_RIGHT, ids=[note for _, note, _ in NOT_RIGHT])
def test_a_landmark_or_another_side_of_the_part_is_not_praised(read, region, note, point):
    assert point not in {a.point for a in read(note, region=region).affirmed}


@pytest.mark.parametrize(("region", "note", "point"), NOT_PLAINLY, ids=[note for _, note, _ in NOT_PLAINLY])
def test_a_state_with_a_degree_a_wish_or_nobodys_praise_is_not_called_right(read, region, note, point):
    assert point not in {a.point for a in read(note, region=region).affirmed}


@pytest.mark.parametrize(
    "note", ["Nails short.", "Loin short, just as I like it.", "Rather nice short loin."]
)
def test_the_same_words_are_praise_where_that_is_asked_or_somebody_says_so(read, note):
    assert {a.point for a in read(note, region=None).affirmed} & {"forefeet.nails", "back.loin"}


@pytest.mark.parametrize(("region", "note", "point", "fault"), BESIDE, ids=[note for _, note, *_ in BESIDE])
def test_praise_and_fault_of_two_parts_are_both_heard(read, region, note, point, fault):
    reading = read(note, region=region)
    assert point in {a.point for a in reading.affirmed}
    assert {(f.id, f.side) for f in reading.faults if f.status == "present"} == {(fault, None)}
