"""A dog comes back: the plan, the verdicts, the history."""

from __future__ import annotations

import datetime
import math

import pytest

from hands_on.compare.dogs.changed import recheck, rechecked
from hands_on.compare.dogs.history import history
from hands_on.compare.dogs.recheck import new_session_from, plan
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.documents.dogs import plan_document
from hands_on.wording.recheck import plan_words, rechecked_sentence
from tests.compare.build import RULESET, asked, chosen, held
from tests.evaluate.build import grade, take

HOCKS = "hindquarters.hocks"
COW = grade("hindquarters.cow-hocks", "moderate", point=HOCKS)


def _young(answers, **more):
    return held(answers, born="2023-12-01", on="2024-06-01", **more)


def _old(answers, **more):
    return held(answers, born="2023-12-01", on="2025-06-01", **more)


def _reasons(found):
    return {item.point: [reason.kind for reason in item.reasons] for item in found.items}


def test_the_plan_names_what_to_look_at_again_and_why():
    earlier = held(
        take("height", 64.9)
        + take("body-length", 66.0)
        + COW
        + grade("croup-tail.curled", "slight", point="croup-tail.carriage", more='status = "unsure"')
        + '[[skips]]\nregion = "mouth"\nreason = "would not have it"\n'
    )
    found = _reasons(plan(earlier))
    assert found[HOCKS] == ["fault"]
    assert found["croup-tail.carriage"] == ["unsure"]
    assert found["height"] == ["undecided", "growth"]
    assert found["mouth.bite"] == ["gap"]
    assert "body-length" not in found, "surely judged, grown, nothing wrong with it"
    item = next(item for item in plan(earlier).items if item.point == "mouth.bite")
    assert "would not have it" in plan_words(item)


def test_the_plan_gives_no_earlier_answer_away():
    earlier = held(COW + take("height", 64.9))
    for item in plan(earlier).items:
        for earlier_answer in ("cow", "64", "moderate", "over"):
            assert earlier_answer not in plan_words(item).casefold()
        assert "then" not in plan_document(plan(earlier))[0]["reasons"][0]


def test_too_young_then_and_whether_it_is_old_enough_now():
    earlier = _young(take("height", 50.0))
    soon = plan(earlier, on=datetime.date(2024, 8, 1))
    late = plan(earlier, on=datetime.date(2025, 6, 1))
    height = [next(item for item in one.items if item.point == "height") for one in (soon, late)]
    assert "still too young, from 12 months" in plan_words(height[0])
    assert "old enough now" in plan_words(height[1])


def test_points_as_asked_at_too_young_an_age_are_worth_a_look_and_not_first():
    earlier = _young(asked("general.type") + chosen("mouth.bite", "scissors"))
    item = next(item for item in plan(earlier).items if item.point == "general.type")
    assert [reason.kind for reason in item.reasons] == ["as-asked-young"]
    assert not item.first
    assert "general.type" not in plan(earlier).points


def test_a_new_session_takes_over_the_dog_and_no_answer():
    earlier = held(COW + take("height", 62.0)).session
    new = new_session_from(earlier, "ada.toml", RULESET, evaluator="B. Example")
    assert new.dog == earlier.dog
    assert (new.examination.kind, new.examination.baseline) == ("recheck", "ada.toml")
    assert new.examination.evaluator == "B. Example"
    assert new.examination.started is None
    assert (new.takes, new.grades, new.choices, new.teeth, new.notes) == ((), (), (), None, ())
    assert new.ruleset.digest == RULESET.digest


def test_verdicts_with_ages_then_and_now():
    found = recheck(_young(take("height", 56.0) + COW), _old(take("height", 61.0) + asked(HOCKS)))
    height, hocks = found.at("height"), found.at(HOCKS)
    assert height.verdict == "explained-by-growth"
    assert "at 6 months" in rechecked_sentence(height)
    assert "at 18 months" in rechecked_sentence(height)
    # Two grades in one of two points: error alone does it once in thirty, twice that among two.
    assert hocks.verdict == "not-settled"
    assert rechecked_sentence(hocks).startswith(
        "Hocks: cow hocks, moderate at 6 months, as asked at 18 months:"
    )


def test_a_finding_too_young_to_count_then_is_too_young_whatever_has_come_of_it():
    odd = grade("general.odd", "marked")
    found = recheck(_young(odd), _old(asked("general.type"))).at("general.type")
    assert found.verdict == "too-young"
    assert "too young to judge then" in rechecked_sentence(found)


def test_another_length_that_grew_has_no_curve():
    rules = RULESET.points["body-length"]
    assert rules.too_young is None
    found = recheck(_young(take("height", 56.0)), _old(take("height", 61.0), name="Bea"))
    assert "different-dogs" in found.remarks


def test_other_evaluators_are_remarked_on():
    found = recheck(_young(COW), _old(COW, by="B. Example"))
    assert "different-evaluators" in found.remarks
    assert (
        rechecked_sentence(found.at(HOCKS))
        == "Hocks: cow hocks, moderate at 6 months and again at 18 months."
    )


def test_only_then_and_only_now_are_said():
    found = recheck(_young(take("height", 56.0)), _old(COW))
    assert rechecked_sentence(found.at("height")).endswith("not examined at 18 months.")
    assert (
        rechecked_sentence(found.at(HOCKS))
        == "Hocks: not examined at 6 months; cow hocks, moderate at 18 months."
    )
    assert found.at("height").verdict is None


def test_the_history_runs_over_age_and_leaves_other_dogs_out():
    sessions = [
        _old(take("height", 61.0) + COW),
        held(take("height", 70.0), name="Bea"),
        _young(take("height", 56.0)),
        held(take("height", 60.5), born="2023-12-01", on="2024-12-01"),
    ]
    found = history(sessions)
    assert found.dog == "Ada"
    (thread,) = [one for one in found.threads if one.point == "height"]
    assert [value for _, value, _ in thread.drawn] == [56.0, 60.5, 61.0]
    assert [round(age) for age, _, _ in thread.drawn] == [6, 12, 18]
    assert not [one for one in found.threads if one.point == HOCKS], "answered once only"


def test_a_history_of_nothing_is_refused():
    with pytest.raises(ValueError, match="session"):
        history([])


# --- several earlier examinations -----------------------------------------------------------------------


def _grown(value, on, **more):
    return held(take("height", value), born="2018-01-01", on=on, **more)


def test_a_grown_dog_is_held_against_all_earlier_measurements():
    before = [_grown(60.2, "2021-06-01"), _grown(61.0, "2022-06-01", by="B. Example")]
    last, now = _grown(60.6, "2023-06-01", by="B. Example"), _grown(61.9, "2024-06-01")
    alone, found = (recheck(last, now, more).at("height").difference for more in ((), before))
    assert (alone.earlier, found.earlier) == (1, 3)
    assert found.difference == pytest.approx(61.9 - (60.2 + 61.0 + 60.6) / 3)
    # JCGM 100:2008, 5.2.2, by hand: u of a take 0.5, of which 0.64 (by squares) lasts and half is one hand's
    shared = 0.5 * 0.64 * 0.25
    pooled = (3 * 0.25 + 2 * shared) / 9
    with_now = shared / 3
    assert found.sdc / alone.sdc == pytest.approx(
        math.sqrt((pooled + 0.25 - 2 * with_now) / (2 * 0.25)), rel=0.02
    )
    told = rechecked_sentence(recheck(last, now, before).at("height"))
    assert "against 3 earlier examinations together" in told


def _hocks_over_years(*degrees):
    """Cow hocks by year, `none` as asked: the last but one, the last, and those before."""
    *before, last, now = (
        held(
            asked(HOCKS) if degree == "none" else grade("hindquarters.cow-hocks", degree, point=HOCKS),
            born="2015-01-01",
            on=f"{2017 + n}-06-01",
        )
        for n, degree in enumerate(degrees)
    )
    return rechecked(last, now, now.ruleset.points[HOCKS], before)


@pytest.mark.parametrize(
    ("degrees", "verdict", "told"),
    [
        (("none", "slight", "moderate"), "within-hand-error", "one grade"),
        (("none", "none", "none", "slight", "moderate"), "real", "2 grades: probably real"),
        (("moderate", "none", "none", "none", "moderate"), "within-hand-error", "among those given before"),
        (("none", "slight", "none", "slight", "marked"), "real", "2 grades: probably real"),
        (("none", "none", "none", "none"), "within-hand-error", "again"),
    ],
)
def test_a_grade_is_held_against_all_earlier_examinations(degrees, verdict, told):
    found = _hocks_over_years(*degrees)
    assert found.verdict == verdict
    assert told in rechecked_sentence(found)
    assert found.difference.earlier == len(degrees) - 1


def test_a_choice_made_before_is_no_change():
    *before, last, now = (
        held(chosen("mouth.bite", bite), born="2015-01-01", on=f"{2017 + n}-06-01")
        for n, bite in enumerate(("scissors", "level", "scissors"))
    )
    point = now.ruleset.points["mouth.bite"]
    assert rechecked(last, now, point).verdict == "real"
    found = rechecked(last, now, point, before)
    assert found.verdict == "within-hand-error"
    assert "so it was before the last examination too" in rechecked_sentence(found)


def test_another_dog_and_another_unit_are_no_earlier_examination():
    before = [_grown(50.0, "2021-06-01", name="Bea")]
    last, now = _grown(60.6, "2023-06-01"), _grown(61.0, "2024-06-01")
    assert recheck(last, now, before).at("height").difference.earlier == 1


def test_a_young_dog_is_held_against_its_own_timing():
    def at(value, on):
        rules = Library([shipped_rulesets()]).load("hovawart-fci-190")
        return held(take("height", value), born="2024-01-01", on=on, ruleset=rules)

    first, last, now = at(50.0, "2024-05-01"), at(56.0, "2024-07-01"), at(60.0, "2024-12-01")
    alone, found = (recheck(last, now, more).at("height").difference for more in ((), [first]))
    assert (alone.earlier, found.earlier) == (1, 2)
    assert found.grown.u < alone.grown.u
    assert found.grown.expected < alone.grown.expected, "it was early, and has less before it"


def test_the_day_from_which_a_recheck_can_tell_is_told():
    rules = Library([shipped_rulesets()]).load("hovawart-fci-190")
    young = held(take("height", 50.0), born="2024-01-01", on="2024-05-01", ruleset=rules)
    (row,) = [item for item in plan(young).items if item.point == "height"]
    (growth,) = [one for one in young.evaluation.growth if one.id == "height"]
    assert growth.recheck_on > datetime.date(2024, 5, 1)
    assert f"a re-check can tell from {growth.recheck_on:%d %B %Y}" in plan_words(row)
