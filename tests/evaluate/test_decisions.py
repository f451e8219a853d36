"""What the evaluator decides of a finding, and answers that cannot all be right."""

import pytest

from hands_on.evaluate.reasons import Reason
from hands_on.wording.alarms import alarm_text
from hands_on.wording.documents.evaluation import evaluation_document
from tests.evaluate.answers import BOWED, COW, HEIGHT, HOCKS, ODD, cow, decision, note
from tests.evaluate.build import finding_of, grade, judge, kinds, take
from tests.evaluate.test_combinations import TOGETHER


def test_a_dismissed_finding_stays_and_does_not_count() -> None:
    evaluation = judge("", cow("marked") + decision("dismiss"))
    (found,) = evaluation.findings
    assert (found.decision, found.counts, evaluation.totals["fault"]) == ("dismiss", False, 0)
    assert Reason("dismissed", "stood badly") in found.reasons


def test_a_decision_for_one_side_leaves_the_other() -> None:
    answers = cow("slight", "left") + cow("marked", "right") + decision("dismiss", more='side = "left"\n')
    evaluation = judge("", answers)
    assert [(one.side, one.decision) for one in evaluation.findings] == [("right", ""), ("left", "dismiss")]
    assert evaluation.totals["fault"] == 1


def test_upholding_an_unsure_finding_counts_it_in_the_light_class() -> None:
    answers = take("height", 62.8) + decision("uphold", "general.under-height")
    evaluation = judge(HEIGHT, answers)
    assert (evaluation.totals["fault"], evaluation.totals["out"]) == (1, 0)


WEIGHED = 'class = "{}"\n'


def test_the_evaluator_may_give_another_class_and_both_are_shown() -> None:
    for given in ("severe", "undesirable", "out"):
        evaluation = judge("", cow("marked") + decision("uphold", more=WEIGHED.format(given)))
        (found,) = evaluation.findings
        assert (found.cls, found.computed_cls, found.counts) == (given, "fault", True)
        assert (evaluation.totals[given], evaluation.totals["fault"]) == (1, 0)
        assert (evaluation.disqualifying == (COW,)) == (given == "out")
        assert Reason("class-given", cls=given, computed="fault") in found.reasons
        row = evaluation_document(evaluation)["findings"][0]
        assert (row["class"], row["computed_class"]) == (given, "fault")


def test_a_class_given_to_one_finding_leaves_the_others() -> None:
    decided = decision("uphold", ODD, WEIGHED.format("severe")) + decision("uphold", COW)
    evaluation = judge("", grade(ODD, "marked") + cow("marked") + decided)
    assert (finding_of(evaluation, ODD).cls, finding_of(evaluation, COW).cls) == ("severe", "fault")


def test_a_class_of_another_edition_is_told_and_not_applied() -> None:
    (found,) = judge("", cow("marked") + decision("uphold", more=WEIGHED.format("major"))).findings
    assert (found.cls, found.computed_cls) == ("fault", None)
    assert Reason("class-unknown", cls="major") in found.reasons


@pytest.mark.parametrize("value", [62.8, 61.0, 70.5, 73.0])
def test_no_measured_value_is_disqualified_by_decision(value: float) -> None:
    """Below 63 disqualifies: 62.8 and 61 as the figure says, sure or not; above 70 is another fault."""
    fault = "general.under-height" if value < 63 else "general.over-height"
    plain = judge(HEIGHT, take("height", value) + decision("uphold", fault))
    weighed = judge(HEIGHT, take("height", value) + decision("uphold", fault, WEIGHED.format("out")))
    assert weighed.disqualifying == plain.disqualifying
    assert weighed.totals == plain.totals


def test_a_measured_fault_may_be_weighed_below_disqualifying() -> None:
    answers = take("height", 73) + decision("uphold", "general.over-height", WEIGHED.format("fault"))
    evaluation = judge(HEIGHT, answers)
    assert (evaluation.totals["fault"], evaluation.totals["severe"]) == (1, 0)


def test_the_evaluators_class_stands_over_a_combination() -> None:
    answers = grade("general.fat") + grade(ODD, "marked") + decision("uphold", ODD, WEIGHED.format("severe"))
    found = finding_of(judge(TOGETHER, answers), ODD)
    assert (found.cls, found.computed_cls) == ("severe", "out")


def test_what_the_tape_cannot_tell_the_eye_does_not_disqualify() -> None:
    rules = HEIGHT + '[[rulings]]\nfaults = ["general.under-height"]\nclass = "out"\nsource = "reading"\n'
    seen = grade("general.under-height")
    assert judge(rules, seen).disqualifying == ("general.under-height",)
    assert judge(rules, take("height", 62.8) + seen).disqualifying == ()
    assert judge(rules, take("height", 60.0) + seen).disqualifying == ("general.under-height",)


@pytest.mark.parametrize(
    ("answers", "clash"),
    [
        (cow("slight", "left") + grade(BOWED, "slight", "left", HOCKS), True),
        (cow("slight", "left") + grade(BOWED, "slight", "right", HOCKS), False),
        (cow("slight") + grade(BOWED, "slight", "right", HOCKS), True),
        (cow("slight") + note(COW, 'status = "absent"'), True),
        (cow("slight", "left") + note(COW, 'status = "absent", side = "right"'), False),
        (f'[[grades]]\npoint = "{HOCKS}"\nas_asked = true\n' + note(COW), True),
        (f'[[grades]]\npoint = "{HOCKS}"\nas_asked = true\n' + note(ODD), False),
        ('[[choices]]\npoint = "mouth.bite"\nchoice = ["scissors", "overshot"]\n', True),
    ],
)
def test_answers_that_cannot_all_be_right(answers: str, clash: bool) -> None:
    assert ("contradiction" in kinds(judge("", answers))) == clash


def test_a_grade_against_a_measurement() -> None:
    seen = judge(HEIGHT, take("height", 66, 66, 66) + grade("general.over-height"))
    (alarm,) = [alarm for alarm in seen.alarms if alarm.kind == "contradiction"]
    assert "Over height" in alarm_text(seen, alarm)
    assert "66.0" in alarm_text(seen, alarm)
    # an undecided measurement contradicts nothing
    near = judge(HEIGHT, take("height", 69.8) + grade("general.over-height"))
    assert "contradiction" not in kinds(near)


def test_a_decided_contradiction_is_no_longer_open() -> None:
    answers = cow("slight", "left") + grade(BOWED, "slight", "left", HOCKS) + decision("dismiss")
    assert "contradiction" not in kinds(judge("", answers))
