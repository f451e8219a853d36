"""Missing teeth by name and number, as four published standards count them.

Dental formula of the dog: 42 teeth (modified Triadan numbering as veterinary colleges teach it).
"""

import pytest

from hands_on.evaluate.evaluation import evaluate
from tests.evaluate.build import edition, finding_of, grade, judge, kinds, session


def rule(rest: str) -> str:
    return f'[[teeth.rules]]\n{rest}\nsource = "reading"\n'


TEETH = '[teeth]\nsource = "reading"\n'

HOVAWART = TEETH + rule('of = ["P1", "M3"]\nclass = "fault"') + rule('not_of = ["P1", "M3"]\nclass = "out"')
"""FCI 190, 2025: P1 and M3 may be missing without disqualifying, any other tooth disqualifies."""

SHEPHERD = (
    TEETH
    + rule('of = ["C", "P4", "M1", "M2"]\nclass = "out"')
    + rule('of = ["P3"]\nothers_at_least = 1\nclass = "out"')
    + rule('at_least = 3\nclass = "out"')
    + rule('at_most = 2\nclass = "severe"')
)
"""FCI 166, 2010: one canine, P4, M1 or M2; one P3 and another; three of any: disqualifying, else serious."""

DACHSHUND = (
    '[teeth]\nexempt = ["M3"]\nsource = "reading"\n'
    + rule('of = ["I", "C", "P3", "P4", "M"]\nclass = "out"')
    + rule('of = ["P2"]\nat_least = 2\nclass = "out"')
    + rule('of = ["P1"]\nat_least = 3\nclass = "out"')
    + rule('of = ["P2"]\nat_most = 1\nothers_at_most = 0\nclass = "fault"')
    + rule('of = ["P2"]\nat_most = 1\nothers_at_least = 1\nclass = "unclassed"')
    + rule('of = ["P1"]\nat_most = 2\nclass = "none"')
)
"""FCI 148, 2022: M3 not considered, up to two P1 not penalised, one P2 a fault, others disqualify."""

AMERICAN = TEETH + rule('at_least = 5\nclass = "severe"')
"""American Weimaraner standard, 1971: more than four missing is major; no general clause."""


@pytest.mark.parametrize(
    ("rules", "missing", "cls"),
    [
        (HOVAWART, [105], "fault"),
        (HOVAWART, [105, 205, 305, 405, 311, 411], "fault"),
        (HOVAWART, [106], "out"),
        (HOVAWART, [105, 301], "out"),
        (SHEPHERD, [104], "out"),
        (SHEPHERD, [309], "out"),
        (SHEPHERD, [107], "severe"),
        (SHEPHERD, [107, 105], "out"),
        (SHEPHERD, [107, 207], "out"),
        (SHEPHERD, [105, 311], "severe"),
        (SHEPHERD, [105, 205, 311], "out"),
        (DACHSHUND, [311, 411], "none"),
        (DACHSHUND, [105, 205], "none"),
        (DACHSHUND, [105, 205, 305], "out"),
        (DACHSHUND, [106], "fault"),
        (DACHSHUND, [106, 206], "out"),
        (DACHSHUND, [106, 311], "fault"),
        (DACHSHUND, [105, 106], "unclassed"),
        (DACHSHUND, [301], "out"),
        (AMERICAN, [105, 205, 305, 405, 311], "severe"),
        (AMERICAN, [105, 205, 305, 405], "unclassed"),
    ],
)
def test_class_of_missing_teeth(rules: str, missing: list[int], cls: str) -> None:
    ruleset = edition(rules, clause=rules is not AMERICAN)
    found = finding_of(evaluate(ruleset, session(f"[teeth]\nmissing = {missing}\n")), "mouth.teeth-missing")
    assert found.cls == cls
    assert found.teeth == tuple(sorted(missing))


def test_a_full_chart_finds_nothing_and_counts_the_teeth() -> None:
    evaluation = judge(HOVAWART, "[teeth]\n")
    assert evaluation.findings == evaluation.allowed == ()
    (count,) = [one for one in evaluation.measures if one.id == "teeth-count"]
    assert (count.value, count.u, count.unit) == (42, 0, "teeth")
    assert not {"mouth.teeth", "teeth-count"} & {gap.point for gap in evaluation.gaps}


def test_unseen_teeth_are_neither_there_nor_missing() -> None:
    evaluation = judge(HOVAWART, "[teeth]\nmissing = [105]\nunseen = [311, 411]\n")
    found = finding_of(evaluation, "mouth.teeth-missing")
    assert found.teeth == (105,)
    assert [one.count for one in found.reasons if one.kind == "at-least-missing"] == [1]
    assert kinds(evaluation) == ["unseen"]
    assert not any(one.id == "teeth-count" for one in evaluation.measures)


def test_an_edition_may_count_an_unseen_tooth_as_missing() -> None:
    rules = HOVAWART.replace("[teeth]\n", "[teeth]\nunseen_is_missing = true\n")
    evaluation = judge(rules, "[teeth]\nunseen = [106]\n")
    assert finding_of(evaluation, "mouth.teeth-missing").cls == "out"


def test_a_count_of_teeth_and_the_chart_give_one_finding() -> None:
    rules = (
        HOVAWART
        + """
[[limits]]
id = "count"
measure = "teeth-count"
asked = { from = 42 }
bands = [{ below = 42, fault = "mouth.teeth-missing", class = "severe" }]
source = "reading"
"""
    )
    evaluation = judge(rules, "[teeth]\nmissing = [105]\n")
    found = finding_of(evaluation, "mouth.teeth-missing")
    assert found.origins == ("take", "teeth")
    assert found.cls == "fault"  # which teeth they are decides, not how many


def test_worn_broken_and_extra_teeth() -> None:
    evaluation = judge(HOVAWART, "[teeth]\nworn = [101]\nbroken = [104]\nextra = [105]\n")
    assert finding_of(evaluation, "mouth.teeth-worn").teeth == (101, 104)
    assert finding_of(evaluation, "mouth.teeth-extra").teeth == (105,)


def test_a_tooth_may_not_be_there_yet_in_a_puppy() -> None:
    # change of teeth ends at about 7 months (common practice)
    evaluation = judge(HOVAWART, "[teeth]\nmissing = [106]\n", dog='sex = "male"\nborn = 2024-01-15')
    (found,) = evaluation.findings
    assert (found.too_young, found.counts) == (True, False)
    assert evaluation.totals["out"] == 0
    assert evaluation.disqualifying == ()


@pytest.mark.parametrize(("born", "told"), [("2020-01-01", True), ("2024-01-15", False)])
def test_milk_teeth_that_stay_are_for_a_veterinarian(born: str, told: bool) -> None:
    # the change of teeth ends at about 7 months (common practice)
    evaluation = judge(HOVAWART, "[teeth]\nmilk = [104]\n", dog=f"born = {born}")
    assert ("veterinary" in kinds(evaluation)) == told
    assert evaluation.findings == ()


def test_teeth_said_to_be_missing_against_a_full_chart() -> None:
    evaluation = judge(HOVAWART, "[teeth]\n" + grade("mouth.teeth-missing"))
    assert "contradiction" in kinds(evaluation)
