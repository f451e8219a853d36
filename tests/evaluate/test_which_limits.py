"""Which limits hold of this dog: by sex and age, by what is lacking, by what another limit sorts it into."""

import pytest

from hands_on.wording.rules import rule_sentence
from tests.evaluate.build import judge, kinds, rule_of, take
from tests.evaluate.test_limits import TIERS


def test_another_sex_and_an_unknown_sex() -> None:
    assert judge(TIERS, take("height", 75), dog='sex = "female"\nborn = 2020-01-01').rules == ()
    unknown = judge(TIERS, take("height", 75), dog="born = 2020-01-01")
    assert unknown.rules == ()
    assert kinds(unknown) == ["unknown-attribute"]


def test_what_was_not_measured_names_what_is_lacking() -> None:
    rules = """
[[limits]]
id = "ratio"
ratio = ["body-length", "height"]
asked = { from = 1.0, to = 1.2 }
source = "reading"
"""
    rule = rule_of(judge(rules, take("height", 66)), "ratio")
    assert (rule.verdict, rule.missing, rule.value) == ("not-measured", ("body-length",), None)


@pytest.mark.parametrize(("born", "verdict"), [("2023-09-01", "not-yet"), ("2022-09-01", "outside")])
def test_a_rule_that_waits_for_an_age_gives_no_verdict_before(born: str, verdict: str) -> None:
    rules = TIERS.replace('unit = "cm"', 'unit = "cm"\nfrom_age = 15')
    evaluation = judge(rules, take("height", 76), dog=f'sex = "male"\nborn = {born}')
    assert rule_of(evaluation, "height-male").verdict == verdict
    assert bool(evaluation.findings) == (verdict == "outside")


SORTS = """
[attributes.size]
label = "Size"
options = { standard = "Standard", miniature = "Miniature" }
derived = true
source = "reading"
[[limits]]
id = "coat-of-the-small"
measure = "height"
when = { size = "miniature" }
asked = { to = 30 }
bands = [{ above = 30, fault = "general.over-height", class = "severe" }]
source = "reading"
[[limits]]
id = "size"
measure = "girth"
classifies = "size"
bands = [
    { above = 32, to = 37, value = "miniature" },
    { above = 37, to = 47, value = "standard" },
    { above = 47, fault = "general.fat", class = "fault" },
]
source = "reading"
"""


@pytest.mark.parametrize(
    ("girth", "word", "verdict", "applies"),
    [
        (35.0, "Miniature", "inside", True),
        (42.0, "Standard", "inside", False),
        (36.9, "Miniature", "inside", False),  # within the two sizes, but which of them cannot be told
        (60.0, "Fat", "outside", False),
        (25.0, "", "outside", False),
    ],
)
def test_a_measurement_that_sorts_decides_which_rules_apply(
    girth: float, word: str, verdict: str, applies: bool
) -> None:
    evaluation = judge(SORTS, take("girth", girth) + take("height", 35))
    rule = rule_of(evaluation, "size")
    assert (rule.band, rule.verdict) == (word, verdict)
    assert (word or "none of those named") in rule_sentence(evaluation, rule)
    assert any(rule.id == "coat-of-the-small" for rule in evaluation.rules) == applies
    assert ("unknown-attribute" in kinds(evaluation)) == (not applies and word != "Standard")


def test_a_sort_that_no_rule_hangs_on_is_only_shown() -> None:
    alone = SORTS.replace('when = { size = "miniature" }', "")
    evaluation = judge(alone, take("girth", 37))
    assert rule_sentence(evaluation, rule_of(evaluation, "size")).startswith(
        "37.0 ± 0.5 cm: size undecided, by the figure Mini"
    )
    assert kinds(evaluation) == []
    assert "near-limit" in kinds(judge(SORTS, take("girth", 37)))


def test_a_size_entered_and_another_measured_are_both_shown() -> None:
    dog = 'sex = "male"\nborn = 2020-01-01\nattributes = { size = "miniature" }'
    evaluation = judge(SORTS, take("girth", 42) + take("height", 35), dog=dog)
    assert kinds(evaluation) == ["contradiction"]
    assert not any(rule.id == "coat-of-the-small" for rule in evaluation.rules)


def test_a_class_given_under_a_chosen_switch_warns() -> None:
    rules = """
[switches.docking]
label = "Docking"
caution = "Docking is forbidden by law in many places."
[[limits]]
id = "tail"
measure = "tail-end"
when = { switch = "docking" }
asked = { to = 0 }
bands = [{ above = 0, fault = "croup-tail.natural", class = "severe" }]
source = "reading"
"""
    assert judge(rules, take("tail-end", 5)).rules == ()
    chosen = judge(rules, take("tail-end", 5), examination='switches = ["docking"]')
    assert chosen.totals["severe"] == 1
    assert kinds(chosen) == ["conditional"]
