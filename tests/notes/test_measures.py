"""Measurements in notes. One foot is twelve inches, one stone fourteen pounds
(exact by definition)."""

import pytest


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("withers 64.5", "general", [("height", 64.5, None)]),
        ('ht 25 1/2"', "general", [("height", 25.5, "in")]),
        ("ht 25½ in", "general", [("height", 25.5, "in")]),
        ("chest depth 31,5 cm", "chest", [("chest-depth", 31.5, "cm")]),
        ("tail about six inches", "croup-tail", [("tail-length", 6.0, "in")]),
        ("weighs 32 kilos", "general", [("weight", 32.0, "kg")]),
        ("2 ft 1 in at the shoulder", "general", [("height", 25.0, "in")]),
        ("sixty-two pounds", "general", [("weight", 62.0, "lb")]),
        ("twenty-four and a half inches at the withers", "general", [("height", 24.5, "in")]),
        ("42 teeth", "mouth", [("teeth-count", 42.0, None)]),
        (
            "stifle 125deg, hock 130 degrees",
            "hindquarters",
            [("stifle-angle", 125.0, "deg"), ("hock-angle", 130.0, "deg")],
        ),
        (
            "upper arm 14 cm against a 17 cm blade",
            "forequarters",
            [("upper-arm-length", 14.0, "cm"), ("blade-length", 17.0, "cm")],
        ),
        ("point of hock to ground 175 mm", "hindquarters", [("hock-height", 175.0, "mm")]),
        ("height 58.5... no, 59.5 cm", "general", [("height", 59.5, "cm")]),
        ("skull 12 cm wide, 13 cm long", "head", [("skull-length", 13.0, "cm"), ("skull-width", 12.0, "cm")]),
        ("five stone two", "general", [("weight", 72.0, "lb")]),
        ("31 kilos 400", "general", [("weight", 31.4, "kg")]),
        ("two foot and half an inch", "general", [("height", 24.5, "in")]),
        ("two foot exactly", "general", [("height", 24.0, "in")]),
        ("half an inch under 25", "general", [("height", 24.5, "in")]),
        ("a centimetre over 60", "general", [("height", 61.0, "cm")]),
        ("wicket 23 and a quarter", "general", [("height", 23.25, None)]),
        ("bang on 62", "general", [("height", 62.0, None)]),
        ("hair on the back 4 cm", "coat-skin", [("coat-length-flank", 4.0, "cm")]),
        ("coat 3 cm long on the back", "coat-skin", [("coat-length-flank", 3.0, "cm")]),
        ("neck girth 41", "neck", []),
        ("girth of the neck 41 cm", "neck", []),
        ("41 of 42", "mouth", [("teeth-count", 41.0, None)]),
        ("Table one, red collar. 58 cm, 24 kg", None, [("height", 58.0, "cm"), ("weight", 24.0, "kg")]),
        ("weight too much, say 3 kilos", "general", []),
        ("two stones down", "reproductive", []),
        ("one foot turned out", "forefeet", []),
        ("the loin measures 21 cm", None, [("loin-length", 21.0, "cm")]),
        ("2 premolars missing", "mouth", []),
        ("5 cm too tall", "general", []),
        ("start 9.40", "general", []),
        ("P1 missing", "mouth", []),
        ("four years old", "general", []),
    ],
)  # fmt: skip
def test_number_unit_and_what_they_belong_to(read, note, region, expected):
    assert sorted((m.id, m.value, m.unit) for m in read(note, region).measures) == sorted(expected)


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("tail seventeen and one half inches", "croup-tail", [("tail-length", 17.5, "in")]),
        ("head eleven inches and one eighth", "head", [("head-length", 11.125, "in")]),
        ("hock to ground five and three eighths", "hindquarters", [("hock-height", 5.375, None)]),
        ("undershot by an eighth of an inch", "mouth", [("undershot-gap", 0.125, "in")]),
        ("weighs twenty-eight kilos three hundred", "general", [("weight", 28.3, "kg")]),
        ("two feet to the withers", "general", [("height", 24.0, "in")]),
        ("two foot one for the length of the body", "general", [("body-length", 25.0, "in")]),
        ("blade 20cm nd well laid back", "forequarters", [("blade-length", 20.0, "cm")]),
        ("dam is undershot, the one in the next crate", "mouth", []),
    ],
)
def test_fractions_feet_and_grams_said_aloud(read, note, region, expected):
    """An eighth of an inch is 0.125, a foot twelve inches, a kilogram a thousand grams (by definition)."""
    assert sorted((m.id, m.value, m.unit) for m in read(note, region).measures) == sorted(expected)


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("girth 71, hold on, he breathed in, girth 70", "chest", [("chest-girth", 70.0, None)]),
        ("hock angle 128, no, he moved, 133 degrees", "hindquarters", [("hock-angle", 133.0, "deg")]),
        ("withers 59.8, 60.2, 60.1, mean 60 cm", "general", [("height", 60.0, "cm")]),
        ("30 for the girth, scrub that, 30 is the depth of chest", "chest", [("chest-depth", 30.0, None)]),
        (
            "depth of chest 28, and the width, hold on, 19",
            "chest",
            [("chest-depth", 28.0, None)],
        ),
        ("height 62, no dewlap, tail 31 cm", None, [("height", 62.0, None), ("tail-length", 31.0, "cm")]),
        ("stifle 118 degrees, the other within a degree", "hindquarters", [("stifle-angle", 118.0, "deg")]),
    ],
)
def test_of_what_is_put_right_aloud_the_later_counts(read, note, region, expected):
    assert sorted((m.id, m.value, m.unit) for m in read(note, region).measures) == sorted(expected)


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("his sister was 57 cm on this table", []),
        ("at nine months he weighed 22 kilos", []),
        ("the standard allows up to 25 inches", []),
        ("66 max, he is 65 at the withers", [("height", 65.0, None)]),
        ("over the limit at 67 cm", [("height", 67.0, "cm")]),
        ("last year he was 58 cm, now 60 cm", [("height", 60.0, "cm")]),
        ("58 cm like his sire, at the withers", [("height", 58.0, "cm")]),
    ],
)
def test_another_dog_another_day_and_the_standard_are_not_measured(read, note, expected):
    assert [(m.id, m.value, m.unit) for m in read(note, "general").measures] == expected


@pytest.mark.parametrize(
    ("note", "region", "expected"),
    [
        ("nose:occiput 23 cm", "head", [("head-length", 23.0, "cm")]),
        ("elbow/wrist 18 cm", "forequarters", [("forearm-length", 18.0, "cm")]),
        ("trochanter → stifle 20 cm", "hindquarters", [("thigh-length", 20.0, "cm")]),
        ("point of hip 55 cm up", "hindquarters", [("hip-height", 55.0, "cm")]),
        ("the stifle joint 33 off the ground", "hindquarters", [("stifle-height", 33.0, None)]),
        ("the ear ends 3 cm short of the nose", "ears", [("ear-tip-to-nose", 3.0, "cm")]),
        ("uppers over lowers by 2 mm", "mouth", [("incisor-overlap", 2.0, "mm")]),
        ("five inches of loin and eighteen inches of tail", None,
         [("loin-length", 5.0, "in"), ("tail-length", 18.0, "in")]),
        ("68 cm for height and 74 cm for length", "general",
         [("body-length", 74.0, "cm"), ("height", 68.0, "cm")]),
        ("croup 27 degrees, and the length of it 20 cm", "croup-tail",
         [("croup-length", 20.0, "cm"), ("croup-slope", 27.0, "deg")]),
        ("blade 46 degrees, upper arm 52", "forequarters", [("blade-slope", 46.0, "deg")]),
        ("The stifle is straight. I read 146 degrees.", "hindquarters", [("stifle-angle", 146.0, "deg")]),
        ("Height. Sixty-four.", "general", [("height", 64.0, None)]),
        ("58. That's the height.", "general", [("height", 58.0, None)]),
        ("20 cm at the widest", "chest", [("chest-width", 20.0, "cm")]),
        ("ears two long", "ears", []),
    ],
)  # fmt: skip
def test_a_number_belongs_to_what_it_is_said_of(read, note, region, expected):
    assert sorted((m.id, m.value, m.unit) for m in read(note, region).measures) == sorted(expected)


def test_a_bare_number_under_a_measurement_is_its_value(read):
    (measure,) = read("64.5", "general", point="height").measures
    assert (measure.id, measure.value, measure.unit) == ("height", 64.5, None)


def test_a_bare_number_elsewhere_is_none(read):
    assert read("64.5", "general").measures == ()


def test_a_height_in_words_is_no_fault(read):
    assert read("64 cm high", "general").faults == ()


def test_span_covers_number_and_unit(read):
    note = "chest depth 31,5 cm today"
    (measure,) = read(note, "chest").measures
    assert note[slice(*measure.span)] == "31,5 cm"
