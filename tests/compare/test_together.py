"""What is called real holds for the whole table: over several dogs, and over all rows."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from hands_on.compare.dogs.side_by_side import side_by_side
from hands_on.compare.dogs.together import LEVEL, range_upper_tail, steps_upper_tail
from hands_on.store.library import Library
from hands_on.wording.differences import difference_sentence
from hands_on.wording.dogs import difference_mark, remark_sentences
from tests.compare.build import asked, chosen, held
from tests.evaluate.build import grade, take

ROOT = Path(__file__).parents[2]
HOCKS = "hindquarters.hocks"


def _row(compared, name):
    return next(row for row in (*compared.rows, *compared.proportions) if row.id == name)


def _steps(place):
    return grade(
        "hindquarters.cow-hocks", ("slight", "moderate", "marked", "extreme")[place - 1], point=HOCKS
    )


@pytest.mark.parametrize("k", [2, 3, 4, 6])
def test_the_range_of_several_values_is_that_of_scipy(k):
    stats = pytest.importorskip("scipy.stats")
    for q in (0.3, 1.0, 2.5, 3.63, 5.0, 8.0):
        wanted = float(stats.studentized_range.sf(q, k, 1e8))
        assert range_upper_tail(q, k) == pytest.approx(wanted, rel=1e-4, abs=1e-10)


@pytest.mark.parametrize(("k", "dof"), [(3, 8), (3, 15), (6, 8), (6, 30)])
def test_the_range_with_few_degrees_of_freedom_is_that_of_scipy(k, dof):
    stats = pytest.importorskip("scipy.stats")
    for q in (1.0, 2.5, 3.63, 5.0, 7.0):
        wanted = float(stats.studentized_range.sf(q, k, dof))
        assert range_upper_tail(q, k, dof) == pytest.approx(wanted, rel=0.08, abs=0.002)


def test_one_dog_has_no_range():
    with pytest.raises(ValueError, match="two"):
        range_upper_tail(1.0, 1)


@pytest.mark.parametrize("k", [2, 6])
def test_steps_that_error_alone_sets_apart(k):
    # The same by drawing: right 8 times in 10, a step either way 0.0975, each further forty times rarer.
    chance, n = random.Random(5), 40_000
    errors, shares = (0, -1, 1, -2, 2), (0.8, 0.0975, 0.0975, 0.0025, 0.0025)
    ranges = [max(row) - min(row) for row in (chance.choices(errors, shares, k=k) for _ in range(n))]
    for steps in (1, 2, 3):
        assert steps_upper_tail(steps, k) == pytest.approx(sum(x >= steps for x in ranges) / n, abs=0.008)
    assert (steps_upper_tail(0, k), steps_upper_tail(9, k) < 1e-9) == (1.0, True)


def test_of_many_dogs_a_wider_difference_is_needed():
    # 1.5 cm between the same two: beyond their own error of 1.14 cm; of six dogs error alone sets the widest
    # two as far apart far more often than one time in twenty.
    two = side_by_side([held(take("height", x), name=f"Dog {x}") for x in (62.0, 63.5)])
    heights = (62.0, 63.5, 62.7, 62.8, 62.9, 63.0)
    six = side_by_side([held(take("height", x), name=f"Dog {x}") for x in heights])
    assert _row(two, "height").headline.verdict == "real"
    head = _row(six, "height").headline
    assert (head.verdict, head.alone_only, head.difference) == ("within-hand-error", True, 1.5)
    assert head.p_error > LEVEL
    assert difference_mark(_row(six, "height")).startswith("not settled")
    assert "which error alone may do among so many points" in difference_sentence(head)


def test_over_many_rows_more_is_asked_of_each():
    # At many further points graded alike two steps at one of them are no longer more than error gives.
    few = side_by_side([held(asked(HOCKS)), held(_steps(2), name="Bea")])
    rules = Library([ROOT / "rulesets"]).load("hovawart-fci-190")
    points = [point.id for point in rules.walk_points if point.kind == "grade" and (point.less or point.more)]
    others = "".join(asked(name) for name in points if name != HOCKS)
    many = side_by_side(
        [held(asked(HOCKS) + others, ruleset=rules), held(_steps(2) + others, name="Bea", ruleset=rules)]
    )
    assert _row(few, HOCKS).headline.verdict == "real"
    assert (few.table.rows, few.table.real) == (1, 1)
    assert many.table.rows == len(points)
    assert (_row(many, HOCKS).headline.verdict, many.table.real) == ("within-hand-error", 0)


def test_what_is_expected_to_be_false_is_told():
    found = side_by_side([held(take("height", 60.0) + _steps(4)), held(take("height", 65.0), name="Bea")])
    assert (found.table.real, found.table.expected_false) == (1, pytest.approx(0.05))
    told = list(remark_sentences(found))
    assert any("Benjamini and Hochberg over 1 row, level 5 %" in text for text in told)
    assert any("of 1 called real 0.05 may be false" in text for text in told)
    assert any("one hand" in text and "taken to be common" in text for text in told)


def test_choices_are_different_and_have_no_error_figure():
    found = side_by_side(
        [held(chosen("mouth.bite", "level")), held(chosen("mouth.bite", "scissors"), name="Bea")]
    )
    row = _row(found, "mouth.bite")
    assert (row.headline.verdict, row.headline.p_error, row.real) == ("different", None, False)
    assert found.table.rows == 0


def test_evaluators_on_one_dog_disagree():
    found = side_by_side([held(take("height", 62.0)), held(take("height", 66.0), by="B. Example")])
    assert _row(found, "height").headline.verdict == "disagree"
    assert difference_mark(_row(found, "height")).startswith("they disagree")


def test_what_cannot_be_compared_is_told_with_the_reason() -> None:
    """Takes 6 cm apart give no verdict; a choice alone has no figure of error."""
    odd, sound = take("height", 62.0) + take("height", 68.0), take("height", 62.0)
    found = side_by_side([held(odd, by="A"), held(sound, name="Bea", by="B")])
    assert difference_mark(_row(found, "height")) == "takes contradict"
    alone = side_by_side([held(sound, by="A"), held("", name="Bea", by="B")])
    assert difference_mark(_row(alone, "height")) == ""
    assert any("No row here has a figure" in text for text in remark_sentences(found))
