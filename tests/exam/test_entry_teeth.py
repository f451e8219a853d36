"""The tooth chart, key by key."""

import pytest

from hands_on.exam.dialogue.teeth import MARKS, ROWS
from hands_on.ruleset.dentition import TEETH
from tests.exam.build import at, press


def test_teeth_are_marked_by_number():
    teeth = at("mouth.teeth")
    press(teeth, [*"105", "enter"])
    step = press(teeth, [*"405", "enter"])
    assert step.answers.teeth.missing == (105, 405)
    assert press(teeth, [*"105", "enter"]).follow == "stay", "a mark is not taken off by its own key"
    assert "marked missing already" in teeth.prompt().message
    step = press(teeth, ["*", *"411", "enter"])
    assert (step.answers.teeth.missing, step.answers.teeth.unseen) == ((105, 405), (411,))
    assert teeth.take_back(0).answers.teeth.missing == (405,)


def test_a_missing_tooth_is_neither_worn_nor_unseen():
    teeth = at("mouth.teeth")
    press(teeth, ["*", *"311", "enter"])
    for _ in range(len(MARKS) - 1):
        teeth.press("*")
    assert press(teeth, [*"311", "enter"]).follow == "stay"
    assert "marked unseen" in teeth.prompt().message
    assert (teeth.answers.teeth.missing, teeth.answers.teeth.unseen) == ((), (311,))


def test_nought_says_that_all_teeth_were_seen_and_wipes_no_mark():
    teeth = at("mouth.teeth")
    step = press(teeth, ["0"])
    assert step.go_on
    assert step.answers.teeth.missing == ()
    press(teeth, [*"105", "enter"])
    assert press(teeth, ["0"]).follow == "next"
    assert teeth.answers.teeth.missing == (105,)


@pytest.mark.parametrize("number", ["111", "211", "312", "999", "5"])
def test_a_number_that_is_no_tooth_is_said(number):
    teeth = at("mouth.teeth")
    press(teeth, [*number, "enter"])
    assert teeth.answers.teeth is None
    assert number in teeth.prompt().message


def test_the_chart_holds_each_tooth_once():
    # Modified Triadan numbering; 42 teeth, as veterinary colleges teach it.
    assert sorted(number for row in ROWS for number in row) == sorted(TEETH)
    assert len(TEETH) == 42


def test_the_chart_is_walked_with_arrows():
    teeth = at("mouth.teeth")
    press(teeth, ["up", "right"])
    assert teeth.at == 201
    step = press(teeth, ["enter"])
    assert step.answers.teeth.missing == (201,)
    press(teeth, ["down"])
    assert teeth.at in (301, 302)
