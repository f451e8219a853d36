"""What seldom stands together, or explains each other, is asked about and never counted.

The pairs are common practice, each with its source in rulesets/common/together.toml; figures by arithmetic.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from hands_on.evaluate import evaluate
from hands_on.exam.session import Session
from hands_on.store.library import Library
from hands_on.wording.alarms import alarm_text
from hands_on.wording.documents.evaluation import evaluation_document

RULESETS = Path(__file__).parents[2] / "rulesets"
LIBRARY = Library([RULESETS])
EDITIONS = sorted(path.stem for path in RULESETS.glob("*.toml"))


def fault(point, name, degree="moderate", **more):
    return {"point": point, "fault": name, "degree": degree, **more}


def right(*points):
    return [{"point": point, "as_asked": True} for point in points]


def judged(*grades, edition="hovawart-fci-190", **answers):
    session = Session.model_validate(
        {
            "ruleset": {"id": edition},
            "dog": {"sex": "male", "born": "2020-01-01"},
            "examination": {"started": "2024-06-01T10:00:00Z"},
            "grades": list(grades),
            **answers,
        }
    )
    return evaluate(LIBRARY.load(edition), session)


def asked(evaluation):
    return {alarm.about.rule: alarm for alarm in evaluation.alarms if alarm.kind == "together"}


STEEP = fault("forequarters.shoulder", "forequarters.shoulder-steep")
OVER = fault("hindquarters.angulation", "hindquarters.over-angulated")
STRAIGHT = fault("hindquarters.angulation", "hindquarters.straight")
PAIRS = [
    ("steep-shoulder-full-reach", [STEEP, *right("movement.reach")]),
    (
        "short-upper-arm-full-reach",
        [fault("forequarters.upper-arm", "forequarters.upper-arm-short"), *right("movement.reach")],
    ),
    ("hind-over-front-in-balance", [OVER, *right("forequarters.shoulder", "general.balance")]),
    ("hind-under-front-in-balance", [STRAIGHT, *right("forequarters.shoulder", "general.balance")]),
    ("front-under-hind-in-balance", [STEEP, *right("hindquarters.angulation", "general.balance")]),
    (
        "steep-croup-high-set-tail",
        [
            fault("croup-tail.croup", "croup-tail.croup-steep", "slight"),
            fault("croup-tail.set", "croup-tail.set-high", "slight"),
        ],
    ),
    ("straight-stifle-long-stride", [STRAIGHT, *right("movement.drive")]),
    (
        "shallow-chest-low-on-leg",
        [fault("chest.depth", "chest.shallow"), fault("general.leg-length", "general.low-on-leg")],
    ),
    (
        "shallow-chest-leggy",
        [fault("chest.depth", "chest.shallow"), fault("general.leg-length", "general.leggy")],
    ),
]


@pytest.mark.parametrize(("rule", "grades"), PAIRS)
@pytest.mark.parametrize("edition", EDITIONS)
def test_a_pair_is_asked_about_in_every_edition_at_each_of_its_points(rule, grades, edition):
    evaluation = judged(*grades, edition=edition)
    alarm = asked(evaluation)[rule]
    assert set(alarm.points) == {grade["point"] for grade in grades}
    text = alarm_text(evaluation, alarm)
    assert "common practice" in text
    labels = [evaluation.classes.ruleset.label(g["fault"]) for g in grades if "fault" in g]
    assert all(label.casefold() in text.casefold() for label in labels)
    rows = evaluation_document(evaluation)["alarms"]
    assert [row["text"] for row in rows if row["kind"] == "together"].count(text) == 1


@pytest.mark.parametrize(("rule", "grades"), PAIRS)
def test_one_sign_alone_asks_nothing(rule, grades):
    for left_out in range(len(grades)):
        assert rule not in asked(judged(*grades[:left_out], *grades[left_out + 1 :]))


@pytest.mark.parametrize(("rule", "grades"), PAIRS)
def test_a_question_is_no_fault_and_changes_no_class(rule, grades):
    together = judged(*grades)
    faults = {grade["fault"] for grade in grades if "fault" in grade}
    assert {one.id for one in (*together.findings, *together.allowed)} == faults
    alone = {name: judged(grade).findings for grade in grades if (name := grade.get("fault"))}
    for one in together.findings:
        assert [(found.cls, found.degree) for found in alone[one.id]] == [(one.cls, one.degree)]


def test_a_slight_degree_less_than_the_rule_asks_nothing():
    slight = fault("forequarters.shoulder", "forequarters.shoulder-steep", "slight")
    assert not asked(judged(slight, *right("movement.reach")))


def test_a_fault_ruled_out_or_unsure_asks_nothing():
    for status in ("absent", "unsure"):
        row = fault("forequarters.shoulder", "forequarters.shoulder-steep", "marked", status=status)
        assert not asked(judged(row, *right("movement.reach")))


def test_a_decision_answers_the_question():
    decision = {"fault": "forequarters.shoulder-steep", "decision": "uphold"}
    assert not asked(judged(STEEP, *right("movement.reach"), decisions=[decision]))


def test_signs_of_different_sides_do_not_stand_together():
    left = fault("forequarters.elbows", "forequarters.elbows-in", side="left")
    other = fault("forefeet.direction", "forefeet.east-west", side="right")
    same = fault("forefeet.direction", "forefeet.east-west", side="left")
    assert "elbows-in-feet-out" not in asked(judged(left, other))
    assert "elbows-in-feet-out" in asked(judged(left, same))


@pytest.mark.parametrize(
    ("depth", "is_asked"),
    # of 65 cm: 0.56 is surely above 0.53, 0.535 not with one take each (u of the ratio is about 0.02)
    [(36.5, True), (34.8, False), (32.0, False)],
)
def test_a_number_speaks_only_where_it_is_surely_beyond_the_figure(depth, is_asked):
    takes = [{"point": "height", "value": 65}, {"point": "chest-depth", "value": depth}]
    found = asked(judged(fault("general.leg-length", "general.leggy"), takes=takes))
    assert ("deep-by-measure-leggy" in found) is is_asked
    if is_asked:
        assert {"chest-depth", "height", "general.leg-length"} == set(found["deep-by-measure-leggy"].points)


def test_fat_under_the_hand_and_a_weight_within_the_range_do_not_contradict_each_other():
    """Common practice: weight says little of fat; the hand decides (WSAVA body condition score)."""
    overweight = {"point": "body-condition", "step": 7}
    # FCI 166 (2010): males 30 to 40 kg
    weighed = judged(
        overweight, edition="german-shepherd-fci-166", takes=[{"point": "weight", "value": 35}] * 3
    )
    assert next(rule.verdict for rule in weighed.rules if "weight" in rule.measures) == "inside"
    assert "general.overweight" in {one.id for one in (*weighed.findings, *weighed.allowed)}
    assert not [alarm for alarm in weighed.alarms if alarm.kind == "contradiction"]


def test_what_the_eye_says_and_a_measurement_denies_is_still_a_contradiction():
    """Only what the hand decides is left alone: FCI 190 (2025), no white asked for on the chest."""
    seen = [{"point": "colour.white-marks", "choice": "chest-large"}]
    found = judged(choices=seen, takes=[{"point": "white-chest-size", "value": 0}] * 3)
    assert [alarm for alarm in found.alarms if alarm.kind == "contradiction"]
