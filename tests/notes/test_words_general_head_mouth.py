"""Words, likenesses and constructions for the whole dog, its temper, head and mouth. All: common practice."""

import pytest

from tests.notes.conftest import findings


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("He measures out, withers lift the hoop.", "general", "general.over-height"),
        ("Hoop drops right over her.", "general", "general.under-height"),
        ("She is carrying lard, no waist.", "general", "general.overweight"),
        ("Toast rack, he needs feeding up.", "general", "general.underweight"),
        ("Made by the yard, like a stretch limo.", "general", "general.body-long"),
        ("Pushed together at both ends.", "general", "general.body-short"),
        ("Jacked up, more air than body.", "general", "general.leggy"),
        ("Sawn off legs, low stationed.", "general", "general.low-on-leg"),
        ("Legs like drainpipes.", "general", "general.bone-coarse"),
        ("Legs like chopsticks.", "general", "general.bone-fine"),
        ("Could pass for a bitch.", "general", "general.bitchy-dog"),
        ("I took her for a dog, nothing feminine about her.", "general", "general.doggy-bitch"),
        ("Muscle like dough, needs roadwork.", "general", "general.soft-condition"),
        ("The two ends do not match.", "general", "general.unbalanced"),
        ("Tape hangs loose, it reads small.", "general", "general.under-girth"),
        ("He bolted at the bang.", "temperament", "temperament.gun-shy"),
        ("Bundle of nerves, strung tight.", "temperament", "temperament.nervous"),
        ("Tried to take my hand off.", "temperament", "temperament.aggressive"),
        ("Skull like a dinner plate.", "head", "head.broad-skull"),
        ("Skull like a knife blade.", "head", "head.narrow-skull"),
        ("Muzzle peters out.", "head", "head.snipy"),
        ("No step between the eyes.", "head", "head.stop-lacking"),
        ("A ledge in front of the eyes.", "head", "head.stop-heavy"),
        ("Hamster cheeks.", "head", "head.cheeky"),
        ("Bump halfway down the nose.", "head", "head.roman-nose"),
        ("Foxhound expression.", "head", "head.hound-like"),
        ("Uppers overhang.", "mouth", "mouth.overshot"),
        ("Chin leads the way.", "mouth", "mouth.undershot"),
        ("A gap where the premolar should be.", "mouth", "mouth.teeth-missing"),
        ("Seven lowers instead of six.", "mouth", "mouth.teeth-extra"),
        ("Front teeth flat across the front.", "mouth", "mouth.incisors-straight-row"),
        ("All six pairs edge to edge.", "mouth", "mouth.level-bite-all"),
        ("The top fang points ahead.", "mouth", "mouth.canine-lance"),
    ],
)
def test_a_fault_said_in_the_evaluators_own_figure_is_found(read, note, region, fault):
    assert (fault, "present") in findings(read(note, region))


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("All legs straight and parallel.", "general"),
        ("He heard the shot, looked up and went on working.", "temperament"),
        ("No break for lunch today.", "head"),
        ("All teeth present, uppers just over lowers.", "mouth"),
        ("Pass me the nail clippers.", "mouth"),
        ("We are one short on the stewards.", "general"),
    ],
)
def test_the_same_words_in_praise_or_small_talk_are_no_fault(read, note, region):
    assert findings(read(note, region)) == set()
