"""A measurement typed on a numeric keypad: units, odd readings, takes."""

import pytest

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.measure import MeasureDialogue
from hands_on.exam.session import Take
from tests.exam.build import at, press


@pytest.mark.parametrize(
    ("typed", "value", "unit", "kept"),
    [
        ("64.5", 64.5, "cm", ""),
        ("64,5", 64.5, "cm", "64,5"),
        ("25 3/8 in", 25.375, "in", "25 3/8 in"),
        ('25"', 25.0, "in", '25"'),
        ("25+3/8in", 25.375, "in", "25+3/8in"),
        ("64+", 64.5, "cm", ""),
    ],
)
def test_readings_are_kept_in_the_unit_they_were_entered_in(typed, value, unit, kept):
    step = press(at("height"), [*typed, "enter"])
    take = step.answers.takes[0]
    assert (take.value, take.unit, take.typed) == (value, unit, kept)


def test_star_changes_to_inches_and_plus_the_side():
    height = at("height")
    take = press(height, [*"*+25-3/8", "enter"]).answers.takes[0]
    assert (take.value, take.unit, take.side) == (25.375, "in", "left")


def test_star_behind_a_reading_takes_it_and_leads_on():
    step = press(at("height"), [*"64.5*"])
    assert step.go_on
    assert [take.value for take in step.answers.takes] == [64.5]


def test_plus_behind_a_whole_number_is_and_a_half():
    height = at("height")
    press(height, [*"64"])
    assert "+ and a half" in height.prompt().hint
    step = press(height, [*"+*"])
    assert step.go_on
    assert [(take.value, take.typed) for take in step.answers.takes] == [(64.5, "")]
    press(height, [*"64.5"])
    assert "half" not in height.prompt().hint
    assert press(height, ["+", "enter"]).follow == "stay", "64.5 and a half is no reading"


def test_star_behind_an_odd_reading_asks_about_it_all_the_same():
    height = at("height")
    assert press(height, [*"645*"]).follow == "stay"
    assert "cannot be right" in height.prompt().message
    assert height.answers.takes == ()


def test_an_odd_reading_is_asked_about_and_not_recorded():
    height = at("height")
    assert press(height, [*"645", "enter"]).follow == "stay"
    assert "cannot be right" in height.prompt().message
    assert height.prompt().lines[0].label == "64.5 cm"
    assert height.answers.takes == ()
    assert press(height, ["enter"]).answers.takes[0].value == 64.5


def test_an_odd_reading_can_be_typed_again():
    height = at("height")
    press(height, [*"645", "enter"])
    assert press(height, [*"63", "enter"]).answers.takes[0].value == 63


def test_what_is_no_reading_makes_way_for_the_next_figure_as_a_keypad_cannot_delete():
    height = at("height")
    assert press(height, [*"6..4", "enter"]).follow == "stay"
    assert height.answers.takes == ()
    assert press(height, [*"64", "enter"]).answers.takes[0].value == 64


def test_takes_add_up_and_the_newest_is_struck_on_record():
    height = at("height")
    press(height, [*"64", "enter", *"65", "enter"])
    step = height.take_back()
    assert [(row.value, row.struck) for row in step.answers.takes] == [(64.0, ""), (65.0, "taken back")]
    assert press(height, ["enter"]).follow == "next"


def test_a_reading_below_nought_where_there_can_be_one():
    tip = at("tip")
    assert press(tip, [*"-6,5", "enter"]).answers.takes[0].value == -6.5
    assert press(tip, "-").follow == "stay"
    assert press(tip, "-").follow == "back"


def test_commands_at_a_measurement_only_while_nothing_is_typed():
    height = at("height")
    assert press(height, ".").follow == "skip"
    assert press(height, "/").follow == "jump"
    assert press(height, "-").follow == "back"
    press(height, "6")
    assert press(height, "/").follow == "stay"
    assert height.prompt().typed == "6/"


def test_readings_after_the_dog_was_stood_anew_are_told_apart():
    height = at("height")
    assert press(height, [*"64", "enter"]).answers.takes[0].stand == 1
    height.answers = Answers(takes=(Take(point="height", value=64.0),))
    height.stand_anew()
    assert "stands anew" in height.prompt().message
    second = press(height, [*"64.4", "enter"]).answers
    assert [take.stand for take in second.takes] == [1, 2]
    again = MeasureDialogue(height.point, second)  # the walk comes back to the point
    assert again.prompt().lines[1].aside == "stand 2"
    assert press(again, [*"64.2", "enter"]).answers.takes[2].stand == 2
