"""Limits that sort: into which named stretch a measurement puts a dog, and how surely.

The rule is that of verdicts (JCGM 106:2012); one take of the girth has u = 0.5 cm here, and probabilities are
recomputed with scipy.
"""

import pytest

from hands_on.evaluate.alarms.judged import SortedOtherwise, SortedUnsure
from hands_on.evaluate.result import Evaluation
from tests.evaluate.build import LAW, grade, judge, kinds, rule_of, take

U = 0.5

SIZES = """
[attributes.size]
label = "Size"
options = { standard = "Standard", miniature = "Miniature" }
derived = true
source = "reading"
[[limits]]
id = "size"
measure = "girth"
classifies = "size"
OPTIONAL
bands = [
    { above = 32, to = 37, value = "miniature" },
    { above = 37, to = 47, value = "standard" },
    { above = 47, fault = "general.fat", class = "out" },
]
source = "reading"
"""
RULED = """
[[rulings]]
faults = ["general.odd"]
when = { size = "miniature" }
class = "out"
source = "reading"
"""
TEETH = """
[teeth]
source = "reading"
[[teeth.rules]]
when = { size = "miniature" }
class = "fault"
source = "reading"
"""


def sizes(girth: float, more: str = "", *, optional: bool = False, entered: str = "") -> Evaluation:
    dog = 'sex = "male"\nborn = 2020-01-01' + (f'\nattributes = {{ size = "{entered}" }}' if entered else "")
    rules = more + SIZES.replace("OPTIONAL", "optional = true" if optional else "")
    return judge(rules, take("girth", girth), dog=dog)


@pytest.mark.parametrize(
    ("girth", "band", "sure", "likelier", "verdict"),
    [
        (25.0, "", True, "", "outside"),  # surely none that is named
        (31.7, "", False, "", "undecided"),  # below all with 0.73
        (32.4, "Miniature", False, "inside", "undecided"),
        (35.0, "Miniature", True, "inside", "inside"),
        (36.9, "Miniature", False, "inside", "inside"),
        (47.2, "Fat", False, "", "undecided"),
        (60.0, "Fat", True, "", "outside"),
    ],
)
def test_where_a_measurement_sorts_a_dog(
    girth: float, band: str, sure: bool, likelier: str, verdict: str
) -> None:
    rule = rule_of(sizes(girth), "size")
    named = LAW.cdf((47 - girth) / U) - LAW.cdf((32 - girth) / U)
    assert rule.p_inside == pytest.approx(named, abs=1e-12)
    assert (rule.band, rule.sorted_surely, rule.likelier, rule.verdict) == (band, sure, likelier, verdict)
    assert (rule.low, rule.high, rule.sorts) == (None, None, "size")


@pytest.mark.parametrize("girth", [47.2, 47.7, 47.9, 60.0])
def test_a_stretch_that_judges_in_a_limit_that_sorts_is_called_only_where_it_is_sure(girth: float) -> None:
    sure = LAW.sf((47 - girth) / U) >= 0.95
    evaluation = sizes(girth)
    (found,) = evaluation.findings
    assert (found.id, found.cls) == ("general.fat", "out" if sure else "fault")
    assert found.status == ("present" if sure else "unsure")
    assert evaluation.disqualifying == (("general.fat",) if sure else ())


def test_a_lighter_class_keeps_its_name_where_a_sort_is_unsure() -> None:
    rules = SIZES.replace("OPTIONAL", "").replace('class = "out"', 'class = "severe"')
    (found,) = judge(rules, take("girth", 47.2)).findings
    assert (found.cls, found.status) == ("severe", "unsure")


def test_a_dog_sorted_into_a_named_size_has_no_finding_and_contradicts_none() -> None:
    assert sizes(35.0).findings == ()
    rules = SIZES.replace("OPTIONAL", "")
    seen = judge(rules, take("girth", 35) + grade("general.fat"))
    assert "contradiction" not in kinds(seen)


@pytest.mark.parametrize(("entered", "told"), [("", False), ("standard", False), ("miniature", True)])
def test_a_size_entered_is_held_against_the_one_measured(entered: str, told: bool) -> None:
    evaluation = sizes(42, RULED, entered=entered)
    about = [alarm.about for alarm in evaluation.alarms if alarm.kind == "contradiction"]
    assert about == ([SortedOtherwise("size", "miniature", "standard")] if told else [])


@pytest.mark.parametrize(
    ("girth", "more", "optional", "told"),
    [
        (37.1, RULED, False, True),
        (37.1, TEETH, False, True),  # a rule for teeth depends on the size as well
        (37.1, "", False, False),  # nothing depends on it
        (37.1, RULED, True, False),  # practice beside the standard
        (42.0, RULED, False, False),  # sure
        (31.7, RULED, False, True),  # perhaps none of them
    ],
)
def test_an_unsure_size_is_told_where_a_rule_depends_on_it(
    girth: float, more: str, optional: bool, told: bool
) -> None:
    evaluation = sizes(girth, more, optional=optional)
    about = [alarm.about for alarm in evaluation.alarms if alarm.kind == "near-limit"]
    assert about == ([SortedUnsure(rule_of(evaluation, "size"))] if told else [])
