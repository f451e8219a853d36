"""What counts as right: said so, and nothing else says otherwise."""

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

RULES = Library([shipped_rulesets()]).load("hovawart-fci-190")
STOP = {"point": "head.stop", "as_asked": True}
HOCKS = "hindquarters.hocks"
COW = {"point": HOCKS, "fault": "hindquarters.cow-hocks"}


def right(*grades, born="2021-05-14", **more):
    rows = {
        "ruleset": {"id": RULES.id},
        "dog": {"sex": "male", "born": born},
        "examination": {"started": "2026-05-02T09:30:00+02:00"},
        "grades": list(grades),
    }
    return evaluate(RULES, Session.model_validate(rows | more)).as_asked


def test_points_come_in_the_order_of_the_examination():
    assert right({"point": HOCKS, "as_asked": True}, STOP) == ("head.stop", HOCKS)


@pytest.mark.parametrize(
    "beside",
    [COW, COW | {"status": "unsure"}, COW | {"degree": "slight", "side": "left"}],
    ids=["present", "unsure", "one side"],
)
def test_a_point_with_a_finding_is_not_right_whatever_else_was_said(beside):
    assert right({"point": HOCKS, "as_asked": True}, beside, STOP) == ("head.stop",)


def test_a_finding_ruled_out_takes_nothing_away():
    assert right({"point": HOCKS, "as_asked": True}, COW | {"status": "absent"}) == (HOCKS,)


def test_a_dismissed_finding_is_no_merit():
    decisions = [{"fault": "hindquarters.cow-hocks", "decision": "dismiss"}]
    assert right({"point": HOCKS, "as_asked": True}, COW, decisions=decisions) == ()


def test_right_on_one_side_only_is_not_right():
    one = {"point": HOCKS, "as_asked": True}
    assert right(one | {"side": "left"}) == ()
    assert right(one | {"side": "left"}, one | {"side": "right"}) == (HOCKS,)


def test_what_is_too_young_to_judge_is_not_praised():
    # cow hocks are judged in a large breed from 15 months, the stop from 12 at the latest (common data)
    assert right({"point": HOCKS, "as_asked": True}, born="2025-09-08") == ()


@pytest.mark.parametrize(
    ("teeth", "is_right"),
    [({}, True), ({"missing": [105]}, False), ({"unseen": [311]}, False), (None, False)],
)
def test_teeth_are_right_where_all_were_seen_and_are_sound(teeth, is_right):
    assert right(**({"teeth": teeth} if teeth is not None else {})) == (("mouth.teeth",) if is_right else ())


def test_an_unsure_answer_is_none():
    assert right(STOP | {"status": "unsure"}) == ()


def test_the_natural_tail_is_right_where_it_is_asked_for_and_contradicts_nothing():
    # FCI-Standard N° 190 knows the natural tail alone.
    tail = [{"point": "croup-tail.tail-state", "choice": ["natural"]}]
    rows = {"ruleset": {"id": RULES.id}, "dog": {"sex": "male", "born": "2021-05-14"}, "choices": tail}
    found = evaluate(RULES, Session.model_validate(rows))
    assert "croup-tail.tail-state" in found.as_asked
    assert not [alarm for alarm in found.alarms if alarm.kind == "contradiction"]
    assert not found.findings


def test_a_tail_shortened_after_injury_is_neither_right_nor_wrong():
    assert right(choices=[{"point": "croup-tail.tail-state", "choice": ["injured"]}]) == ()
