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
