"""Evaluators held against one of them and against themselves; copies of one examination; who lacks what."""

from __future__ import annotations

import pytest

from hands_on.compare.agreement.by_point import agreement
from hands_on.compare.agreement.reference import against_reference, own_repeats
from hands_on.wording.agreement import remark_words
from hands_on.wording.agreement_grid import grid_of, initials
from tests.compare.build import asked, held
from tests.evaluate.build import grade, take

HOCKS = "hindquarters.hocks"
COW = "hindquarters.cow-hocks"


def hocks(degree):
    return grade(COW, degree, point=HOCKS) if degree else asked(HOCKS)


def point(found, name):
    return next(one for one in found.points if one.id == name)


def test_grades_one_step_from_the_reference_are_near_and_two_are_apart():
    degrees = {"Ref": "slight", "Same": "slight", "Near": None, "Apart": "marked"}
    sessions = [held(hocks(degree), by=who) for who, degree in degrees.items()]
    found = agreement(sessions)
    rows = {one.evaluator: one for one in against_reference(found.board, found.points, 0)}
    assert {who: (row.same, row.near, row.apart) for who, row in rows.items()} == {
        "Same": (1, 0, 0),
        "Near": (0, 1, 0),
        "Apart": (0, 0, 1),
    }


def test_readings_are_near_within_the_smallest_detectable_change():
    # 1.96 sqrt(2) 0.5 cm = 1.386 cm (JCGM 100, 5.1.2; Bland and Altman 1986: 95 % limits of a difference).
    heights = {"Ref": 62.0, "Same": 62.1, "Near": 63.3, "Apart": 63.5}
    sessions = [held(take("height", value), by=who) for who, value in heights.items()]
    found = agreement(sessions)
    rows = {one.evaluator: one for one in against_reference(found.board, found.points, 0)}
    assert [(rows[who].same, rows[who].near, rows[who].apart) for who in ("Same", "Near", "Apart")] == [
        (1, 0, 0),
        (0, 1, 0),
        (0, 0, 1),
    ]


def test_the_tally_under_a_dog_counts_every_answer_as_asked_first():
    answers = [None, "slight", "slight", "slight", "marked", None]
    sessions = [held(hocks(degree), by=f"E{n}") for n, degree in enumerate(answers)]
    found = agreement(sessions)
    grid = grid_of(found.board, point(found, HOCKS))
    assert grid.rows[0].tally == "2 as asked, 3 slight -, 1 marked -"
    assert [cell.rstrip("*") for cell in grid.rows[0].cells[:2]] == ["as asked", "slight -"]


def test_copies_of_one_examination_count_once_and_the_fuller_one_counts():
    whole = held(take("height", 62) + hocks("slight"), by="A", name="Ada")
    part = held(take("height", 70), by="A", name="Ada")
    other = held(take("height", 62.5), by="B", name="Ada")
    found = agreement([part, whole, other])
    assert found.board.cells[0, 0] is whole
    assert found.board.again[0, 0] == (whole,), "a copy is no repeat"
    (copies,) = [remark for remark in found.remarks if remark.kind == "copies"]
    assert "one with 1 answers more" in remark_words(copies)


def test_who_has_not_examined_which_dog_is_named():
    sessions = [held(hocks(None), name=dog, by=by) for dog, by in (("Ada", "A"), ("Ada", "B"), ("Bo", "B"))]
    (missing,) = [one for one in agreement(sessions).remarks if one.kind == "missing"]
    assert missing.named == (("Bo", "A"),)
    assert "Bo by A" in remark_words(missing)


def test_a_hand_that_went_over_a_dog_twice_is_held_against_itself():
    first = held(take("height", 62) + hocks("slight"), by="A", on="2024-06-01")
    again = held(take("height", 65) + hocks("slight"), by="A", on="2024-06-02")
    other = held(take("height", 62) + hocks(None), by="B", on="2024-06-01")
    found = agreement([first, again, other])
    (own,) = own_repeats(found.board, found.points)
    assert (own.evaluator, own.compared, own.same, own.apart) == ("A", 2, 1, 1)
    assert own.most[0][0] == point(found, "height").label


@pytest.mark.parametrize(
    ("names", "short"),
    [
        (["M. Quill", "A. Thornby"], ("MQ", "AT")),
        (["M. Quill", "M. Quinn"], ("MQuil", "MQuin")),
        (["", "Plato"], ("?", "P")),
        (["A. Same", "A. Same"], ("ASame 1", "ASame 2")),
    ],
)
def test_initials_are_short_and_no_two_alike(names, short):
    assert initials(names) == short
