"""Rulings: which of them gives a fault its class, and what happens when none does."""

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.wording.alarms import alarm_text
from tests.evaluate.build import edition, finding_of, grade, judge, kinds, session

ODD = "general.odd"


def ruling(rest: str, fault: str = ODD) -> str:
    return f'[[rulings]]\nfaults = ["{fault}"]\n{rest}\nsource = "reading"\n'


def test_the_first_ruling_that_fits_counts() -> None:
    rules = (
        ruling('class = "out"\nwhen = { sex = "female" }')
        + ruling('class = "severe"')
        + ruling('class = "fault"')
    )
    assert judge(rules, grade(ODD)).findings[0].cls == "severe"


@pytest.mark.parametrize(
    ("degree", "cls"), [("slight", "fault"), ("moderate", "fault"), ("marked", "severe"), ("extreme", "out")]
)
def test_each_class_from_its_degree_up(degree: str, cls: str) -> None:
    rules = ruling('by_degree = { marked = "severe", extreme = "out" }')
    assert judge(rules, grade(ODD, degree)).findings[0].cls == cls


def test_without_a_degree_the_lightest_class_is_used_and_the_degree_asked_for() -> None:
    rules = ruling('by_degree = { slight = "severe", marked = "out" }')
    evaluation = judge(rules, grade(ODD))
    assert evaluation.findings[0].cls == "severe"
    assert "degree-needed" in kinds(evaluation)
    assert "degree-needed" not in kinds(judge(rules, grade(ODD, "slight")))


def test_the_general_clause_and_its_absence() -> None:
    answers = session(grade(ODD, "slight"))
    assert evaluate(edition(""), answers).findings[0].cls == "fault"
    without = evaluate(edition("", clause=False), answers)
    assert without.findings[0].cls == "unclassed"
    assert without.totals["unclassed"] == 1


@pytest.mark.parametrize("cls", ["none", "observation"])
def test_no_fault_and_observation_are_shown_and_not_counted(cls: str) -> None:
    evaluation = judge(ruling(f'class = "{cls}"'), grade(ODD, "marked"))
    assert evaluation.findings == ()
    assert (evaluation.allowed[0].cls, evaluation.allowed[0].counts) == (cls, False)
    assert sum(evaluation.totals.values()) == 0


def test_a_word_outside_the_ladder_counts_under_its_own_name() -> None:
    evaluation = judge(ruling('class = "undesirable"'), grade(ODD))
    assert evaluation.totals["undesirable"] == 1
    assert evaluation.totals["fault"] == 0
    # and gives way to any class of the ladder
    heavier = judge(
        '[[combinations]]\nall = ["general.odd", "general.fat"]\nclass = "fault"\nsource = "reading"\n'
        + ruling('class = "undesirable"'),
        grade(ODD) + grade("general.fat"),
    )
    assert finding_of(heavier, ODD).cls == "fault"


def test_place_or_form_decides_the_class() -> None:
    rules = ruling('when = { detail = ["toes", "tail-tip"] }\nclass = "fault"') + ruling('class = "out"')
    assert judge(rules, grade(ODD, more='detail = "toes"')).findings[0].cls == "fault"
    assert judge(rules, grade(ODD, more='detail = "back"')).findings[0].cls == "out"
    unknown = judge(rules, grade(ODD))
    assert unknown.findings[0].cls == "out"
    assert "unknown-attribute" in kinds(unknown)


def test_a_ruling_may_hang_on_other_faults() -> None:
    rules = ruling('when = { with = "general.fat" }\nclass = "out"') + ruling(
        'when = { without = "croup-tail.curled" }\nclass = "severe"'
    )
    assert judge(rules, grade(ODD)).findings[0].cls == "severe"
    assert finding_of(judge(rules, grade(ODD) + grade("general.fat")), ODD).cls == "out"
    assert finding_of(judge(rules, grade(ODD) + grade("croup-tail.curled")), ODD).cls == "fault"
    unsure = grade(ODD) + grade("general.fat", more='status = "unsure"')
    assert finding_of(judge(rules, unsure), ODD).cls == "severe"


COLOURS = """
[attributes.colour]
label = "Colour"
options = { black-and-tan = "Black and tan", blond = "Blond" }
source = "reading"
"""


@pytest.mark.parametrize(
    ("written", "cls", "lacks"),
    [
        ("blond", "out", False),
        ("black-and-tan", "severe", False),
        ("Black and Tan", "severe", False),  # the label serves as well as the id
        ("", "fault", True),
        ("purple", "fault", True),
    ],
)
def test_an_attribute_of_the_dog_decides_the_class(written: str, cls: str, lacks: bool) -> None:
    rules = (
        COLOURS
        + ruling('when = { colour = "blond" }\nclass = "out"')
        + ruling('when = { colour = ["black-and-tan"] }\nclass = "severe"')
    )
    dog = f'sex = "male"\nborn = 2020-01-01\ncolour = "{written}"'
    evaluation = judge(rules, grade(ODD), dog=dog)
    assert evaluation.findings[0].cls == cls
    assert kinds(evaluation).count("unknown-attribute") == (1 if lacks else 0)


def test_country_and_purpose() -> None:
    rules = ruling('when = { country = ["DE", "AT"], purpose = "hunting" }\nclass = "out"')
    here = judge(rules, grade(ODD), examination='country = "de"\npurpose = "hunting"')
    assert here.findings[0].cls == "out"
    elsewhere = judge(rules, grade(ODD), examination='country = "GB"')
    assert elsewhere.findings[0].cls == "fault"
    # the country alone decides it, so nothing is said to be lacking
    assert "unknown-attribute" not in kinds(elsewhere)


SWITCH = """
[switches.docking-judged]
label = "Judge docking"
caution = "Docking is forbidden by law in many places."
"""


def test_a_rule_that_law_may_forbid_is_off_until_chosen() -> None:
    natural = "croup-tail.natural"
    rules = SWITCH + ruling('when = { switch = "docking-judged" }\nclass = "severe"', natural)
    off = judge(rules, grade(natural))
    assert off.findings == ()
    assert off.allowed[0].reasons[0].kind == "off"
    # The point is not passed in silence: it is told what the rule would have made of it.
    assert [alarm_text(off, alarm) for alarm in off.alarms] == [
        'Natural tail is not judged: the rule "Judge docking" was not chosen. By it: Severe. '
        "Docking is forbidden by law in many places."
    ]
    chosen = judge(rules, grade(natural), examination='switches = ["docking-judged"]')
    assert chosen.findings[0].cls == "severe"
    assert [alarm_text(chosen, alarm) for alarm in chosen.alarms if alarm.kind == "conditional"] == [
        "Natural tail: Docking is forbidden by law in many places."
    ]


def test_what_the_standard_is_silent_on_is_not_scored() -> None:
    rules = '[[silent]]\nabout = "hocks"\npoints = ["hindquarters.hocks"]\nsource = "reading"\n'
    evaluation = judge(rules, grade("hindquarters.cow-hocks", point="hindquarters.hocks"))
    assert evaluation.findings == ()
    assert evaluation.allowed[0].cls == "observation"


def test_a_fault_that_nobody_knows_is_shown_without_a_class() -> None:
    evaluation = judge("", grade("general.green", "marked"))
    assert (evaluation.findings[0].id, evaluation.findings[0].cls) == ("general.green", "unclassed")
    assert kinds(evaluation) == ["unknown-point"]


def test_practice_beside_the_standard_gives_no_class() -> None:
    rules = ruling('optional = true\nclass = "out"') + ruling('class = "fault"')
    evaluation = judge(rules, grade(ODD))
    assert evaluation.findings[0].cls == "fault"
    assert any(reason.kind == "practice" for reason in evaluation.findings[0].reasons)
