"""Totals, gaps, outcomes, amendments: what an evaluation says of the whole session."""

from dataclasses import replace

import pytest

from hands_on.evaluate.evaluation import evaluate
from tests.evaluate.answers import BOWED, COW, HEIGHT, HOCKS, ODD, cow, decision
from tests.evaluate.build import edition, grade, judge, kinds, session, take


def test_findings_stand_heaviest_first_and_what_does_not_count_last() -> None:
    rules = """
[[rulings]]
faults = ["general.fat"]
class = "out"
source = "reading"
[[rulings]]
faults = ["croup-tail.curled"]
class = "severe"
source = "reading"
"""
    answers = (
        cow() + grade("croup-tail.curled") + grade("general.fat") + grade(BOWED, more='status = "unsure"')
        + decision("dismiss")
    )  # fmt: skip
    found = [one.id for one in judge(rules, answers).findings]
    assert found == ["general.fat", "croup-tail.curled", BOWED, COW]


def test_gaps_name_open_and_skipped_points() -> None:
    answers = '[[skips]]\nregion = "hindquarters"\nreason = "lame"\n' + take("height", 66)
    gaps = {gap.point: gap for gap in judge("", answers).gaps}
    assert "height" not in gaps
    assert (gaps["hindquarters.hocks"].skipped, gaps["hindquarters.hocks"].reason) == (True, "lame")
    assert not gaps["mouth.bite"].skipped


OUTCOMES = "".join(
    f'[[outcomes]]\nid = "{name}"\nlabel = "{name.capitalize()}"\nsource = "reading"\n'
    for name in ("excellent", "good", "disqualified")
)


@pytest.mark.parametrize(
    ("answers", "best"),
    [
        ("", "excellent"),
        (grade(ODD), "excellent"),
        (grade(COW), "good"),
        (take("height", 75), "good"),
        (take("height", 70.2), "excellent"),
        (grade("general.fat"), "disqualified"),
        (grade("general.fat", more='status = "unsure"'), "excellent"),
    ],
)
def test_caps_rule_outcomes_out(answers: str, best: str) -> None:
    rules = (
        OUTCOMES
        + HEIGHT.replace('class = "severe"', 'class = "fault"')
        + f"""
[[rulings]]
faults = ["general.fat"]
class = "out"
source = "reading"
[[caps]]
faults = ["{COW}"]
at_most = "good"
source = "reading"
[[caps]]
limit = "height"
at_most = "good"
source = "reading"
[[caps]]
class = "severe"
at_most = "disqualified"
source = "reading"
[[caps]]
class = "fault"
at_most = "disqualified"
optional = true
source = "reading"
"""
    )
    evaluation = judge(rules, answers)
    assert evaluation.outcome_at_most == best


@pytest.mark.parametrize(
    ("answers", "best"),
    [
        (grade(ODD, "slight"), "excellent"),
        (grade(ODD, "moderate"), "good"),
        (grade(ODD, "extreme"), "good"),
        (grade(ODD), "excellent"),  # no degree: nothing is held against a guess
        (grade("general.thin", "slight"), "good"),  # a heavier class caps at any degree
        (grade("general.fat", "moderate"), "excellent"),
        (grade("general.fat", "marked"), "disqualified"),
    ],
)
def test_a_cap_may_hold_from_a_degree_up(answers: str, best: str) -> None:
    """As the FCI show rules have it for excellent: small imperfections may be passed over."""
    rules = (
        OUTCOMES
        + """
[[rulings]]
faults = ["general.thin"]
class = "severe"
source = "reading"
[[rulings]]
faults = ["general.fat"]
class = "undesirable"
source = "reading"
[[caps]]
class = "fault"
from_degree = "moderate"
at_most = "good"
source = "reading"
[[caps]]
faults = ["general.fat"]
from_degree = "marked"
at_most = "disqualified"
source = "reading"
"""
    )
    evaluation = judge(rules, answers)
    assert evaluation.outcome_at_most == best
    unsaid = [one for one in evaluation.outcome_reasons if one.kind == "degree-not-said"]
    assert bool(unsaid) == (answers == grade(ODD))


def test_a_changed_edition_is_told() -> None:
    ruleset = edition("")
    for digest, told in ((ruleset.digest, False), ("sha256:0", True), ("", False)):
        held = session("")
        held = held.model_copy(update={"ruleset": held.ruleset.model_copy(update={"digest": digest})})
        assert ("digest" in kinds(evaluate(ruleset, held))) == told


def test_an_amendment_takes_the_place_of_what_it_amends() -> None:
    amendment = f'[[amendments]]\nreason = "seen again"\npoint = "{HOCKS}"\ngrades = []\n'
    assert judge("", cow("marked") + amendment).findings == ()


@pytest.mark.parametrize(("degree", "told"), [("extreme", True), ("marked", False), ("", False)])
def test_what_is_for_a_veterinarian_in_its_extreme_degree_alone(degree: str, told: bool) -> None:
    rules = edition("")
    odd = rules.faults[ODD].model_copy(update={"always": ""})
    rules = replace(rules, faults={**rules.faults, ODD: odd})
    assert ("veterinary" in kinds(evaluate(rules, session(grade(ODD, degree))))) == told


def test_veterinary_findings_raise_an_alarm() -> None:
    assert "veterinary" in kinds(judge("", grade(ODD)))
