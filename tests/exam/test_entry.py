"""The dialogue at a point, key by key, from a numeric keypad: what holds at every kind of point."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import dialogue_for
from hands_on.exam.dialogue.teeth import MARKS
from tests.exam.build import RULESET, at, press


def test_nought_says_as_asked_and_goes_on():
    step = press(at("general.hocks"), "0")
    assert (step.follow, step.go_on) == ("record", True)
    assert step.answers.grades[0].as_asked


def test_a_departure_takes_degree_and_side():
    hocks = at("general.hocks")
    step = press(hocks, "111")
    grade = step.answers.grades[0]
    assert (grade.fault, grade.degree, grade.side, grade.status) == (
        "general.cow",
        "slight",
        "left",
        "present",
    )
    assert not step.go_on
    assert hocks.press("enter").follow == "next"


def test_a_fault_waits_at_every_point_and_nought_then_means_nothing_more():
    for point, fault in (("general.skin", "13"), ("general.hocks", "123"), ("condition", "1"),
                         ("general.bite", "23"), ("general.white", "2")):  # fmt: skip
        dialogue = at(point)
        step = press(dialogue, fault)
        assert (step.follow, step.go_on) == ("record", False), point
        before = dialogue.answers
        assert dialogue.press("0").follow == "next", point
        assert dialogue.press("enter").follow == "next", point
        assert dialogue.answers == before, point


@pytest.mark.parametrize(
    "point",
    [
        "height",
        "tip",
        "general.hocks",
        "general.skin",
        "condition",
        "general.bite",
        "general.many",
        "mouth.teeth",
    ],
)
def test_an_open_point_is_passed_by_the_second_enter_only(point):
    dialogue = at(point)
    assert dialogue.press("enter").follow == "stay"
    assert "Nothing is recorded here" in dialogue.prompt().message
    dialogue.press("*")
    assert dialogue.press("enter").follow == "stay", "another key in between begins anew"
    assert dialogue.press("enter").follow == "next"
    assert dialogue.answers == Answers()


def test_nought_and_enter_by_habit_at_a_measurement_are_no_reading():
    height = at("height")
    assert press(height, ["0", "enter"]).follow == "stay"
    assert height.answers == Answers()
    press(height, [*"64", "enter"])
    assert press(height, ["0", "enter"]).follow == "next"
    assert [row.value for row in height.answers.takes] == [64]


def test_nought_where_no_single_answer_is_asked_for_is_told_before_and_after():
    many = at("general.many")
    assert "no single answer is asked for" in many.prompt().hint
    assert many.press("0").follow == "stay"
    assert "No single answer is asked for" in many.prompt().message


def test_nought_is_as_asked_at_shipped_points_of_every_kind():
    from pathlib import Path

    from hands_on.store.library import Library

    shipped = Library([Path("rulesets")]).load("any-dog")

    def nought(point):
        step = dialogue_for(shipped.points[point], shipped, Answers()).press("0")
        assert step.go_on, point
        return step.answers

    assert nought("mouth.bite").choices[0].choice == ("scissors",)
    assert nought("muscle-condition").grades[0].step == 1
    # Steps 4 and 5 of nine are both ideal (WSAVA body condition score): which of them is not said.
    assert nought("body-condition").grades[0].as_asked
    assert nought("mouth.teeth").teeth.missing == ()
    assert nought("head.stop").grades[0].as_asked


def test_a_half_given_answer_is_recorded_as_that():
    hocks = at("general.hocks")
    step = hocks.press("1")
    assert [(row.fault, row.degree, row.side) for row in step.answers.grades] == [("general.cow", None, None)]
    step = hocks.press("2")
    assert [(row.degree, row.side) for row in step.answers.grades] == [("moderate", None)]
    step = hocks.press("1")
    assert [(row.degree, row.side) for row in step.answers.grades] == [("moderate", "left")]


def test_degree_and_side_stay_unsaid_by_nought_or_a_second_enter():
    hocks = at("general.hocks")
    press(hocks, ["1", "enter"])
    assert "leaves it unsaid" in hocks.prompt().message
    press(hocks, ["enter"])
    assert "which side" in hocks.prompt().ask
    press(hocks, ["0"])
    assert [(row.degree, row.side) for row in hocks.answers.grades] == [(None, None)]


def test_no_answer_takes_a_finding_of_another_kind_away():
    for point, keys, refused in (
        ("general.hocks", "120", "2"), ("condition", "1", "2"), ("general.bite", "23", "1"),
        ("general.white", "2", "1"),
    ):  # fmt: skip
        dialogue = at(point)
        press(dialogue, keys)
        before = dialogue.answers
        assert dialogue.press(refused).follow == "stay", point
        assert "takes it back first" in dialogue.prompt().message, point
        assert dialogue.answers == before


def test_each_thing_recorded_is_taken_back_by_itself():
    hocks = at("general.hocks")
    press(hocks, "111132")
    assert [row.words for row in hocks.recorded()] == ["Cow hocks, slight, left", "Cow hocks, marked, right"]
    step = hocks.take_back(0)
    assert [(row.degree, row.side) for row in step.answers.grades] == [("marked", "right")]
    height = at("height")
    press(height, [*"64", "enter", *"46", "enter", *"64.5", "enter"])
    step = height.take_back(1)
    assert [bool(row.struck) for row in step.answers.takes] == [False, True, False]
    assert [row.words for row in height.recorded()] == ["take 1, 64 cm", "take 3, 64.5 cm"]


def test_star_marks_what_follows_as_unsure_once():
    hocks = at("general.hocks")
    step = press(hocks, "*120")
    assert step.answers.grades[0].status == "unsure"
    press(hocks, "1")
    assert "unsure" not in hocks.prompt().ask, "the mark held for one answer"


def test_minus_goes_back_a_question_and_then_a_point():
    hocks = at("general.hocks")
    press(hocks, "12")
    assert "which side" in hocks.prompt().ask
    assert press(hocks, "-").follow == "stay"
    assert "how far" in hocks.prompt().ask
    assert press(hocks, "-").follow == "stay"
    assert "stays recorded" in hocks.prompt().message
    assert press(hocks, "-").follow == "back"
    assert [(row.fault, row.degree) for row in hocks.answers.grades] == [("general.cow", "moderate")]


def test_left_and_right_stand_beside_each_other_and_opposites_do_not():
    hocks = at("general.hocks")
    press(hocks, "111")
    step = press(hocks, "132")
    assert [(row.degree, row.side) for row in step.answers.grades] == [
        ("slight", "left"),
        ("marked", "right"),
    ]
    press(hocks, "223")
    assert "Cow hocks is recorded on that side" in hocks.prompt().message
    assert [row.fault for row in hocks.answers.grades] == ["general.cow", "general.cow", "general.bowed"]
    assert hocks.answers.grades[2].side is None, "the side that cannot be is not recorded"


def test_what_only_the_other_sex_can_be_is_not_offered():
    from pathlib import Path

    from hands_on.store.library import Library

    shipped = Library([Path("rulesets")]).load("hovawart-fci-190")
    point = shipped.points["general.sex-type"]
    shown = {
        sex: dialogue_for(point, shipped, Answers(), None, sex).prompt().lines for sex in ("male", "female")
    }
    assert [line.label for line in shown["male"]] == ["as asked for", "Bitchy dog"]
    assert [line.label for line in shown["female"]] == ["as asked for", "Doggy bitch"]
    step = press(dialogue_for(point, shipped, Answers(), None, "female"), "13")
    assert step.answers.grades[0].fault == "general.doggy-bitch"


def test_arrows_choose_too():
    hocks = at("general.hocks")
    press(hocks, ["down", "down"])
    assert hocks.prompt().lines[hocks.prompt().selected].label == "Cow hocks"
    press(hocks, ["enter", "down", "enter"])
    assert hocks.answers.grades[0].degree == "slight"


def test_a_number_that_is_not_there_is_said_and_nothing_recorded():
    hocks = at("general.hocks")
    assert press(hocks, "7").follow == "stay"
    assert "no 7 here" in hocks.prompt().message


def test_what_the_edition_allows_is_said_beside_the_answer():
    lines = at("general.skin").prompt().lines
    assert lines[1].aside == "no fault in this edition"


def test_a_scale_is_answered_by_its_step():
    dialogue = at("condition")
    step = press(dialogue, "2")
    assert (step.answers.grades[0].step, step.go_on) == (2, False), "a number never leads on"
    assert "Enter: nothing more here" in dialogue.prompt().message
    assert [press(at("condition"), ["2", key]).follow for key in ("0", "enter")] == ["next", "next"]


def test_a_choice_asks_for_a_degree_only_where_the_class_hangs_on_it():
    bite = at("general.bite")
    assert press(bite, "1").answers.choices[0].choice == ("scissors",)
    press(bite, "2")
    assert "how far" in bite.prompt().ask
    assert press(bite, "3").answers.choices[0].degree == "marked"


def test_several_may_hold():
    white = at("general.white")
    press(white, "2")
    step = press(white, "3")
    assert [row.choice for row in step.answers.choices] == [("toes",), ("chest",)]
    assert [row.choice for row in press(white, "2").answers.choices] == [("chest",), ("toes",)]
    assert [row.choice for row in white.take_back(1).answers.choices] == [("chest",)]
    white.take_back()
    assert [row.choice for row in press(white, "1").answers.choices] == [("none",)]
    assert [row.choice for row in press(white, "3").answers.choices] == [("chest",)]


def test_more_than_nine_answers_wait_for_the_whole_number():
    many = at("general.many")
    assert press(many, "12").follow == "stay"
    assert press(many, ["enter"]).answers.choices[0].choice == ("o12",)
    assert press(many, ["4", "enter"]).answers.choices[0].choice == ("o4",)
    assert press(many, "99").follow == "stay"
    assert "no 99 here" in many.prompt().message


def found(point, answers):
    """The faults, marked teeth and readings on record."""
    steps = {step.value: step.fault for step in getattr(point, "steps", ())}
    options = {option.id: option.fault for option in getattr(point, "options", ())}
    faults = {row.fault or steps.get(row.step) for row in answers.grades}
    faults |= {(options[name], name) for row in answers.choices for name in row.choice if options[name]}
    teeth = {(mark, tooth) for mark in MARKS for tooth in getattr(answers.teeth, mark, ())}
    takes = {(n, row.value) for n, row in enumerate(answers.takes) if not row.struck}
    return {row for row in faults if row} | teeth | takes


KEYS = st.sampled_from(
    [*"0123456789+-*/.,cmin\"'½x", "enter", "backspace", "escape", "up", "down", "left", "right"]
)


@given(st.lists(KEYS, max_size=40), st.sampled_from(["height", "tip", "general.hocks", "general.bite",
       "general.white", "general.many", "condition", "mouth.teeth"]))  # fmt: skip
def test_no_keys_break_a_dialogue_nor_take_a_finding_away(keys, point):
    dialogue = at(point)
    findings = set()
    for key in keys:
        step = dialogue.press(key)
        now = found(RULESET.points[point], dialogue.answers)
        assert findings <= now, "a finding went without the key that takes back"
        findings = now
        assert (step.answers is not None) == (step.follow == "record")
        rows = [*dialogue.answers.takes, *dialogue.answers.grades, *dialogue.answers.choices]
        assert all(row.point == point for row in rows)
        dialogue.prompt()
