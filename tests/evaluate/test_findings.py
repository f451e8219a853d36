"""Findings: answers put together, and the age from which they count."""

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.reasons import Reason
from tests.evaluate.answers import COW, HEIGHT, ODD, PUPPY, cow, note
from tests.evaluate.build import edition, finding_of, grade, judge, kinds, session, take


@pytest.mark.parametrize(
    ("answers", "expected"),
    [
        (cow("slight", "left"), [("left", "slight")]),
        (cow("slight", "left") + cow("slight", "right"), [("both", "slight")]),
        (cow("slight", "left") + cow("marked", "right"), [("left", "slight"), ("right", "marked")]),
        (cow("slight", "both") + cow("marked", "right"), [("left", "slight"), ("right", "marked")]),
        (cow("slight", "left") + note(COW), [("left", "slight")]),
        (cow("slight", "left") + note(COW, 'degree = "marked"'), [("left", "marked")]),
        (cow("slight") + note(COW, 'side = "right"'), [("right", "slight")]),
        (cow("slight") + cow("slight"), [(None, "slight")]),
        (cow("slight", "left") + cow("slight", "right", 'status = "unsure"'),
         [("left", "slight"), ("right", "slight")]),
    ],
)  # fmt: skip
def test_answers_to_the_same_fault_and_side_make_one_finding(
    answers: str, expected: list[tuple[str | None, str]]
) -> None:
    assert [(one.side, one.degree) for one in judge("", answers).findings] == expected


def test_differing_degrees_are_told_and_all_origins_kept() -> None:
    (found,) = judge("", cow("slight", "left") + note(COW, 'degree = "marked"')).findings
    assert found.origins == ("grade", "note")
    assert [one.degrees for one in found.reasons if one.degrees] == [
        (("grade", "slight"), ("note", "marked"))
    ]


def test_a_measured_and_a_graded_finding_make_one_of_the_heavier_class() -> None:
    evaluation = judge(HEIGHT, take("height", 74) + grade("general.over-height", "slight"))
    (found,) = evaluation.findings
    assert (found.origins, found.cls, found.degree) == (("take", "grade"), "severe", "slight")


def test_the_eye_may_give_a_heavier_class_than_a_sure_measurement() -> None:
    rules = HEIGHT.replace('class = "severe"', 'class = "fault"') + (
        '[[rulings]]\nfaults = ["general.over-height"]\nclass = "out"\nsource = "reading"\n'
    )
    assert judge(rules, take("height", 74)).disqualifying == ()
    seen = judge(rules, take("height", 74) + grade("general.over-height"))
    assert seen.disqualifying == ("general.over-height",)


def test_a_finding_tells_what_is_known_of_its_fault() -> None:
    (found,) = judge("", grade(ODD, "marked")).findings
    assert (found.function, found.veterinary, found.region) == ("f", "see a veterinarian", "general")
    (plain,) = judge("", cow("slight")).findings
    assert (plain.veterinary, plain.region) == ("", "hindquarters")
    (absent,) = judge("", note(COW, 'status = "absent"')).allowed
    assert (absent.function, absent.region) == ("f", "hindquarters")


def test_what_the_vocabulary_does_not_know_lies_in_the_region_that_its_point_or_its_id_names() -> None:
    (stretch,) = judge(HEIGHT.replace('fault = "general.over-height", ', ""), take("height", 75)).findings
    assert (stretch.id, stretch.region) == ("height", "general")
    (unknown,) = judge("", note("ears.unheard-of")).findings
    assert (unknown.region, unknown.function) == ("ears", "")


def test_an_unsure_answer_is_counted_apart() -> None:
    evaluation = judge("", cow("slight", more='status = "unsure"'))
    assert (evaluation.totals["fault"], evaluation.unsure["fault"]) == (0, 1)


def test_what_was_ruled_out_is_shown_as_such() -> None:
    evaluation = judge("", note(COW, 'status = "absent"'))
    assert evaluation.findings == ()
    assert [(one.id, one.status) for one in evaluation.allowed] == [(COW, "absent")]


def test_scale_and_choice_give_fault_degree_and_detail() -> None:
    step = '[[grades]]\npoint = "body-condition"\nstep = 8\n'
    evaluation = judge("", step + '[[choices]]\npoint = "mouth.bite"\nchoice = "level"\n')
    fat = finding_of(evaluation, "general.fat")
    assert (fat.degree, fat.origin) == ("marked", "grade")
    assert finding_of(evaluation, "mouth.level-bite").detail == "whole-row"


@pytest.mark.parametrize(
    "answers",
    [
        '[[grades]]\npoint = "body-condition"\nstep = 77\n',
        '[[grades]]\npoint = "general.type"\nstep = 5\n',
        '[[choices]]\npoint = "mouth.bite"\nchoice = "upside-down"\n',
        '[[choices]]\npoint = "general.type"\nchoice = "level"\n',
        '[[grades]]\npoint = "no.such-point"\nas_asked = true\n',
        '[[takes]]\npoint = "no-such-measure"\nvalue = 3\n',
    ],
)
def test_an_answer_that_the_edition_cannot_read_is_told(answers: str) -> None:
    evaluation = judge("", answers)
    assert kinds(evaluation) == ["unknown-point"]
    assert evaluation.findings == ()


# --- age ---------------------------------------------------------------------------------------------


def test_a_detail_left_empty_is_none() -> None:
    both = note(COW, 'detail = "close"') + note(COW, 'detail = ""')
    assert finding_of(judge("", both), COW).detail == "close"
    assert not finding_of(judge("", note(COW, 'detail = ""')), COW).detail


def test_too_young_is_flagged_and_not_counted() -> None:
    evaluation = judge("", grade(ODD, "marked"), dog=PUPPY)
    (found,) = evaluation.findings
    assert (found.too_young, found.counts) == (True, False)
    assert evaluation.totals["fault"] == 0
    assert Reason("said", "at any age") in found.reasons
    assert judge("", grade(ODD, "marked")).totals["fault"] == 1


def test_a_young_dog_already_over_the_limit_counts_and_one_under_it_does_not() -> None:
    over = judge(HEIGHT, take("height", 75), dog=PUPPY)
    assert (over.findings[0].too_young, over.totals["severe"]) == (False, 1)
    assert Reason("counted-young", "it will not shrink") in over.findings[0].reasons
    assert over.measures[0].too_young
    (grown,) = judge(HEIGHT, take("height", 75)).findings
    assert all(reason.kind != "counted-young" for reason in grown.reasons), (
        "of a grown dog nothing is to be said"
    )
    under = judge(HEIGHT, take("height", 50), dog=PUPPY)
    assert (under.findings[0].too_young, under.totals["out"], under.disqualifying) == (True, 0, ())


def test_a_measurement_too_young_makes_its_finding_too_young_unless_the_eye_sees_it_too() -> None:
    """The fault itself can be judged at any age; the height cannot before 12 months."""
    rules = HEIGHT.replace("general.over-height", "general.body-long")
    (taped,) = judge(rules, take("height", 75), dog=PUPPY).findings
    assert (taped.too_young, taped.judged_from, taped.counts) == (True, 12, False)
    (seen,) = judge(rules, take("height", 75) + grade("general.body-long"), dog=PUPPY).findings
    assert (seen.too_young, seen.judged_from, seen.counts) == (False, None, True)


def test_what_will_not_shrink_counts_also_where_the_eye_agrees() -> None:
    both = judge(HEIGHT, take("height", 75) + grade("general.over-height"), dog=PUPPY)
    assert (both.findings[0].too_young, both.totals["severe"]) == (False, 1)


def test_what_was_ruled_out_too_young_is_said_to_be_so() -> None:
    young, grown = (
        judge("", note(ODD, 'status = "absent"'), **dog).allowed[0] for dog in ({"dog": PUPPY}, {})
    )
    assert (young.too_young, young.judged_from, young.counts) == (True, 12, False)
    assert (grown.too_young, grown.judged_from) == (False, None)


def test_nothing_is_too_young_when_the_age_is_not_known() -> None:
    assert judge(HEIGHT, take("height", 50), dog='sex = "male"').totals["out"] == 1


@pytest.mark.parametrize(
    ("size", "dog", "weight", "too_young"),
    [
        ('size_class = "small"\n', "born = 2023-05-15", "", False),  # 12.5 months; small: from 9
        ("", "born = 2023-05-15", "", True),  # size not known: the latest age counts, 15
        ("", "born = 2023-05-15", take("weight", 8), False),  # nearly grown at 8 kg: small
        ("", "born = 2023-10-15", take("weight", 8), True),  # at 7.5 months the weight tells nothing yet
        ("", 'born = 2023-05-15\nattributes = { size-class = "medium" }', "", False),
    ],
)
def test_size_class_by_edition_by_the_dog_or_by_weight(
    size: str, dog: str, weight: str, too_young: bool
) -> None:
    head = f'format = 1\nid = "test"\nbuilds_on = "common"\nbreed = "T"\ntitle = "T"\nedition = "1"\n{size}'
    evaluation = evaluate(edition("", head=head), session(weight + grade(ODD), dog=dog))
    assert evaluation.findings[0].too_young == too_young


def test_a_date_of_birth_after_the_examination_is_told() -> None:
    evaluation = judge("", grade(ODD), dog="born = 2030-01-01")
    assert evaluation.age_months is None
    assert kinds(evaluation) == ["unknown-attribute", "veterinary"]
