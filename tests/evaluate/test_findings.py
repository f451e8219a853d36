"""Findings: answers put together, age, decisions, combinations, contradictions."""

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.reasons import Reason
from hands_on.wording.alarms import alarm_text
from hands_on.wording.documents.evaluation import evaluation_document
from tests.evaluate.build import edition, finding_of, grade, judge, kinds, session, take

COW, BOWED, HOCKS = "hindquarters.cow-hocks", "hindquarters.bowed-hocks", "hindquarters.hocks"
ODD = "general.odd"
PUPPY = 'sex = "male"\nborn = 2023-10-01'
"""Eight months old at the examination; the tests' faults are judged from 12 in a large breed."""

HEIGHT = """
[[limits]]
id = "height"
measure = "height"
asked = { from = 63, to = 70 }
bands = [
    { below = 63, fault = "general.under-height", class = "out" },
    { above = 70, fault = "general.over-height", class = "severe" },
]
source = "reading"
"""


def cow(degree: str = "", side: str = "", more: str = "") -> str:
    return grade(COW, degree, side, HOCKS, more)


def note(fault: str, rest: str = "") -> str:
    more = f", {rest}" if rest else ""
    return f'[[notes]]\ntext = "as typed"\nfindings = [{{ fault = "{fault}"{more} }}]\n'


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


# --- decisions -----------------------------------------------------------------------------------------


def decision(what: str, fault: str = COW, more: str = "") -> str:
    return f'[[decisions]]\nfault = "{fault}"\ndecision = "{what}"\nreason = "stood badly"\n{more}'


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


# --- combinations --------------------------------------------------------------------------------------

TOGETHER = """
[[combinations]]
all = ["general.fat", { fault = "general.odd", from_degree = "marked" }]
class = "out"
label = "both together"
source = "reading"
[[rulings]]
faults = ["general.odd"]
class = "none"
source = "reading"
"""


@pytest.mark.parametrize(
    ("answers", "out"),
    [
        (grade("general.fat") + grade(ODD, "marked"), 2),
        (grade("general.fat") + grade(ODD, "slight"), 0),
        (grade("general.fat") + grade(ODD), 0),
        (grade(ODD, "marked"), 0),
        (grade("general.fat", more='status = "unsure"') + grade(ODD, "marked"), 0),
        (grade("general.fat") + decision("dismiss", "general.fat") + grade(ODD, "marked"), 0),
    ],
)
def test_faults_that_count_otherwise_together(answers: str, out: int) -> None:
    evaluation = judge(TOGETHER, answers)
    assert evaluation.totals["out"] == out
    if out:
        assert "combination" in finding_of(evaluation, ODD).origins
    else:
        assert finding_of(evaluation, ODD).cls == "none"


def test_a_combination_makes_nothing_lighter() -> None:
    rules = TOGETHER.replace('class = "out"', 'class = "fault"').replace('class = "none"', 'class = "severe"')
    evaluation = judge(rules, grade("general.fat") + grade(ODD, "marked"))
    found = finding_of(evaluation, ODD)
    assert (found.cls, found.origins) == ("severe", ("grade",))


@pytest.mark.parametrize(
    ("decided", "there"),
    [
        ("", True),
        (decision("dismiss"), False),
        (decision("dismiss", more='side = "left"\n'), True),
        (decision("uphold"), True),
        (decision("dismiss", "general.fat"), True),
    ],
)
def test_a_fault_dismissed_on_both_sides_is_no_longer_there_for_other_rules(
    decided: str, there: bool
) -> None:
    rules = f'''
[[rulings]]
faults = ["{ODD}"]
when = {{ with = ["{COW}"] }}
class = "severe"
source = "reading"
'''
    evaluation = judge(rules, cow("marked", "left") + cow("marked", "right") + grade(ODD) + decided)
    assert (finding_of(evaluation, ODD).cls == "severe") is there


# --- what follows from the dog alone ---------------------------------------------------------------------

FOLLOWS = """
[attributes.coat]
label = "Coat"
options = { short = "Short", long = "Long" }
source = "reading"
[[follows]]
fault = "general.fat"
when = { coat = "long" }
source = "reading"
[[follows]]
fault = "general.thin"
when = { coat = "short", sex = "female" }
class = "out"
text = "Not allowed."
source = "reading"
[[rulings]]
faults = ["general.fat"]
class = "severe"
source = "reading"
"""


@pytest.mark.parametrize(
    ("coat", "sex", "expected"),
    [
        ("long", "male", [("general.fat", "severe")]),
        ("short", "female", [("general.thin", "out")]),
        ("short", "male", []),
    ],
)
def test_a_fault_that_follows_from_the_dog_needs_no_answer(
    coat: str, sex: str, expected: list[tuple[str, str]]
) -> None:
    dog = f'sex = "{sex}"\nborn = 2020-01-01\nattributes = {{ coat = "{coat}" }}'
    evaluation = judge(FOLLOWS, "", dog=dog)
    assert [(one.id, one.cls) for one in evaluation.findings] == expected
    assert all(one.origin == "dog" for one in evaluation.findings)
    assert evaluation.alarms == ()


def test_what_is_seen_and_follows_as_well_is_one_finding() -> None:
    dog = 'sex = "male"\nborn = 2020-01-01\nattributes = { coat = "long" }'
    (found,) = judge(FOLLOWS, grade("general.fat", "slight"), dog=dog).findings
    assert (found.origins, found.degree) == (("grade", "dog"), "slight")


def test_nothing_follows_from_what_is_not_known() -> None:
    evaluation = judge(FOLLOWS, "")
    assert evaluation.findings == ()
    assert kinds(evaluation) == ["unknown-attribute"]


# --- contradictions --------------------------------------------------------------------------------------


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
