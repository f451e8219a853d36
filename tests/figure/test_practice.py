"""Practice: a series is the same for the same seed, truths are what is drawn, statistics are right."""

from __future__ import annotations

import json
import math
import statistics
from functools import cache

import pytest

from hands_on.figure.drawn import departing, ideal
from hands_on.figure.practice import GRADED, MEASURED, Answered, learned, repeatability, series
from hands_on.figure.skeleton import skeleton
from hands_on.store.errors import StoreError
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.store.practice_file import add_answer, read_answers
from hands_on.wording.practice import learned_rows, nearness, question, read_answer

RULES = Library((shipped_rulesets(),)).load("hovawart-fci-190")


@cache
def drawn():
    """Twelve series of twelve figures."""
    return [one for seed in range(12) for one in series(RULES, seed, 12)]


def test_the_same_seed_shows_the_same_dogs_and_another_seed_others():
    first, again, other = (
        [(one.about, one.truth, dict(one.figure.shape)) for one in series(RULES, seed)] for seed in (7, 7, 8)
    )
    assert first == again
    assert first != other


def test_everything_practised_is_there_and_can_be_drawn():
    assert set(GRADED) <= set(RULES.figure.seen)
    assert {name for names in MEASURED.values() for name in names} <= set(RULES.points)
    assert {one.about for one in drawn()} & set(GRADED)
    assert {one.about for one in drawn()} & set(MEASURED)


def test_some_figures_come_again_unannounced_and_later():
    repeats = [one for one in drawn() if one.repeat_of is not None]
    assert 0.15 <= len(repeats) / len(drawn()) <= 0.4
    for seed in range(12):
        made = series(RULES, seed)
        assert [one.number for one in made] == list(range(1, 13))
        for one in made:
            if one.repeat_of is not None:
                old = made[one.repeat_of - 1]
                assert one.number - old.number >= 2
                assert (one.about, one.truth, one.figure.shape) == (old.about, old.truth, old.figure.shape)
                assert question(RULES, one) == question(RULES, old)


def test_the_truth_of_an_estimate_is_what_a_goniometer_on_the_drawing_reads():
    for one in drawn():
        at = skeleton(one.figure.shape)
        if one.about == "croup-slope":
            (x0, z0), (x1, z1) = at["point-of-hip"], at["point-of-buttock"]
            assert math.degrees(math.atan2(z0 - z1, x0 - x1)) == pytest.approx(one.truth, rel=1e-6)
        if one.about == "body-length/height":
            length = at["point-of-shoulder"][0] - at["point-of-buttock"][0]
            assert length / at["withers"][1] == pytest.approx(one.truth, rel=1e-6)


def test_the_degree_asked_for_is_the_degree_drawn():
    from hands_on.figure.drawn import Departure
    from hands_on.ruleset.base import DEGREES

    graded = [one for one in drawn() if one.kind == "grade" and one.truth]
    assert len(graded) > 20
    for one in graded:
        own, same = ideal(RULES), departing(RULES, [Departure(one.about, DEGREES[int(one.truth) - 1])])
        name, sizes = next(iter(RULES.figure.seen[one.about].moves.items()))
        assert same.shape[name] != own.shape[name]
        assert one.figure.shape[name] == pytest.approx(same.shape[name], abs=1e-6), (one.about, name, sizes)


def test_nothing_in_the_lines_gives_the_answer_away():
    assert all(not one.figure.styles and not one.figure.departures for one in drawn())


def answer(number, truth, given, about="back.roached", repeat_of=None, at="2026-04-02T10:00:00+02:00"):
    return Answered(at, RULES.id, 5, number, "grade", about, truth, given, repeat_of)


def test_bias_spread_and_curve_are_those_of_the_errors():
    errors = [1, 0, 2, 1, 1, 0, 0, -1, 0, 1]
    (row,) = learned([answer(n, 1.0, 1.0 + error) for n, error in enumerate(errors, 1)])
    assert row.bias == pytest.approx(statistics.mean(errors))
    assert row.spread == pytest.approx(statistics.stdev(errors))
    assert row.blocks == pytest.approx((1.0, 0.4))
    assert row.repeatability is None


def test_the_eyes_own_repeatability_comes_from_figures_shown_twice():
    """Pairs 1, 2 and 3 apart: sqrt((1 + 4 + 9) / 6), ISO 5725-2:2019 for two results a cell."""
    assert repeatability([(0, 1), (3, 1), (0, 3)]) == pytest.approx(math.sqrt(14 / 6))
    rows = [answer(1, 2, 2), answer(2, 1, 1), answer(3, 2, 3, repeat_of=1)]
    other_day = answer(1, 2, 0, at="2026-05-02T10:00:00+02:00")
    (row,) = learned([*rows, other_day])
    assert row.repeatability == pytest.approx(math.sqrt(1 / 2))


def test_answers_are_kept_a_line_each_and_strange_lines_are_passed_over(tmp_path):
    path = tmp_path / "deep" / "practice.jsonl"
    assert read_answers(path) == ()
    first, second = answer(1, 2, 3), answer(2, 1, 1, repeat_of=1)
    add_answer(path, first)
    with open(path, "a", encoding="utf-8") as out:
        out.write('not json\n[1]\n{"at": 3}\n')
    add_answer(path, second)
    assert read_answers(path) == (first, second)
    assert json.loads(path.read_text(encoding="utf-8").splitlines()[0])["about"] == "back.roached"


def test_a_folder_that_cannot_be_written_is_told(tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(StoreError):
        add_answer(tmp_path / "file" / "practice.jsonl", answer(1, 2, 3))


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("2", 2.0),
        ("0", 0.0),
        ("4", None),
        ("1.5", None),
        ("", None),
        ("nan", None),
        ("inf", None),
        ("x", None),
    ],
)
def test_a_grade_is_one_of_four(text, right):
    graded = next(one for one in drawn() if one.kind == "grade")
    given = read_answer(graded, text)
    assert given == right if right is not None else isinstance(given, str)


def test_an_estimate_takes_a_comma_and_a_degree_sign_and_no_nonsense():
    angle = next(one for one in drawn() if one.about in ("croup-slope", "stifle-angle", "shoulder-angle"))
    assert read_answer(angle, "112,5°") == 112.5
    assert isinstance(read_answer(angle, "nan"), str)
    assert isinstance(read_answer(angle, "1e9"), str)


def test_how_near_it_was_is_said():
    assert nearness(answer(1, 2.0, 2.0)) == "Right: drawn moderate."
    assert nearness(answer(1, 2.0, 3.0)) == "Drawn moderate; you said marked: one step too strong."
    far = Answered("2026-04-02", RULES.id, 5, 1, "estimate", "croup-slope", 30.2, 22.0)
    assert nearness(far) == "Drawn 30 degrees; you said 8 degrees too little."
    (told,) = learned_rows(RULES, learned([far]))
    assert "1 answer: bias -8 degrees; mean error: 8" in told
