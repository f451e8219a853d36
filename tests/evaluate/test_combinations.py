"""Faults that count otherwise together, and faults that follow from what is known of the dog."""

import pytest

from tests.evaluate.answers import COW, ODD, PUPPY, cow, decision
from tests.evaluate.build import finding_of, grade, judge, kinds

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


def test_how_the_combination_is_read_stands_where_it_was_said_else_how_the_fault_is() -> None:
    both = grade("general.fat") + grade(ODD, "marked")
    read = TOGETHER.replace('label = "both together"', 'label = "both together"\nreading = "read as one"')
    alone = TOGETHER.replace('class = "none"', 'class = "none"\nreading = "read alone"')
    assert finding_of(judge(read, both), ODD).reading == "read as one"
    assert finding_of(judge(alone, both), ODD).reading == "read alone"


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


def test_what_is_too_young_to_judge_makes_no_combination() -> None:
    answers = grade("general.fat") + grade(ODD, "marked")
    assert judge(TOGETHER, answers, dog=PUPPY).totals["out"] == 0
    assert judge(TOGETHER, answers, dog=PUPPY.replace("2023", "2020")).totals["out"] == 2


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
