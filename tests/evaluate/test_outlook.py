"""What is left open: probabilities by scipy's normal distribution, the outcome at best and at worst."""

from __future__ import annotations

import pytest

from hands_on.evaluate.result import Evaluation
from hands_on.wording.outlook import finding_class_words, outlook_lines
from tests.evaluate.build import LAW, grade, judge, take
from tests.evaluate.test_whole import OUTCOMES

CAPS = """
[[caps]]
class = "out"
at_most = "disqualified"
source = "reading"
[[caps]]
class = "fault"
at_most = "good"
source = "reading"
"""

BESIDE = """
[[limits]]
id = "height"
measure = "height"
unit = "cm"
asked = { from = 63, to = 70 }
bands = [
    { below = 63, fault = "general.under-height", class = "out" },
    { above = 70, to = 73, fault = "general.over-height", class = "fault" },
    { above = 73, fault = "general.over-height", class = "out" },
]
source = "reading"
"""
"""Nothing between what is asked for and what disqualifies below; u of one take is 0.5 cm."""

LENGTH = """
[[limits]]
id = "length"
measure = "body-length"
unit = "cm"
asked = { from = 70 }
bands = [{ below = 70, fault = "general.body-short", class = "fault" }]
source = "reading"
"""

HUNG = """
[[rulings]]
faults = ["general.fat"]
by_degree = { slight = "fault", extreme = "out" }
source = "reading"
"""


def ends(found: Evaluation) -> tuple[str | None, str | None]:
    return found.outlook.best.outcome, found.outlook.worst.outcome


def test_a_heavier_class_that_is_likelier_than_not_is_told() -> None:
    """62.3 cm for 63 at least, with u = 0.5: disqualifying with 0.91, and nothing may be called."""
    found = judge(OUTCOMES + CAPS + BESIDE, take("height", 62.3))
    p = LAW.cdf((63 - 62.3) / 0.5)
    assert found.outlook.chances["out"] == pytest.approx(p)
    assert found.outlook.chances["none"] == pytest.approx(1 - p)
    assert found.disqualifying == ()
    assert found.findings[0].status == "unsure"
    assert ends(found) == ("excellent", "disqualified")
    assert found.outlook.worst.disqualified
    assert finding_class_words(found, found.findings[0]).startswith("Disqualifying 90.9 %, no fault 9.1 %")
    assert outlook_lines(found)[0] == "Left open: at best Excellent; at worst Disqualified (90.9 %)."


def test_what_is_open_though_nothing_was_found_is_told_too() -> None:
    """63.2 cm lies within by the figure, and disqualifies with 0.34."""
    found = judge(OUTCOMES + CAPS + BESIDE, take("height", 63.2))
    assert not found.findings
    assert found.outlook.chances["out"] == pytest.approx(LAW.cdf((63 - 63.2) / 0.5))
    assert ends(found) == ("excellent", "disqualified")


@pytest.mark.parametrize("value", [66.5, 61.0, 75.0])
def test_what_is_sure_leaves_nothing_open(value: float) -> None:
    found = judge(OUTCOMES + CAPS + BESIDE, take("height", value))
    assert not found.outlook.open
    assert outlook_lines(found) == ()
    assert found.outlook.best == found.outlook.worst


def test_between_two_classes_the_lighter_is_the_best_left() -> None:
    """72.8 cm is over height for sure; whether it disqualifies is not."""
    found = judge(OUTCOMES + CAPS + BESIDE, take("height", 72.8))
    assert ends(found) == ("good", "disqualified")
    assert found.outlook.best.cls == "fault"
    assert found.outlook.chances["out"] == pytest.approx(LAW.sf((73 - 72.8) / 0.5))


def test_what_a_class_less_likely_than_the_edition_cares_for_is_ruled_out() -> None:
    """62.0 cm: within with 0.023, under 0.05; the edition's confidence is 0.95."""
    found = judge(OUTCOMES + CAPS + BESIDE, take("height", 62.0))
    assert found.disqualifying
    assert not found.outlook.open


def test_two_open_measurements_together() -> None:
    """Independent: the heaviest class is light only where both are."""
    found = judge(OUTCOMES + CAPS + BESIDE + LENGTH, take("height", 63.2) + take("body-length", 70.1))
    p_out, p_fault = LAW.cdf((63 - 63.2) / 0.5), LAW.cdf((70 - 70.1) / 0.5)
    assert found.outlook.chances["none"] == pytest.approx((1 - p_out) * (1 - p_fault))
    assert found.outlook.chances["fault"] == pytest.approx((1 - p_out) * p_fault)
    assert found.outlook.chances["out"] == pytest.approx(p_out)
    assert len(outlook_lines(found)) == 5


def test_a_sure_fault_bounds_what_is_open_from_below() -> None:
    found = judge(OUTCOMES + CAPS + BESIDE + HUNG, take("height", 63.2) + grade("general.fat", "slight"))
    assert ends(found) == ("good", "disqualified")
    assert set(found.outlook.chances) == {"fault", "out"}
    assert sum(found.outlook.chances.values()) == pytest.approx(1)


def test_unsure_and_without_a_degree_is_open_without_a_figure() -> None:
    unsure = judge(OUTCOMES + CAPS + HUNG, grade("general.fat", "extreme", more='status = "unsure"'))
    assert ends(unsure) == ("excellent", "disqualified")
    assert unsure.outlook.chances == {}
    unsaid = judge(OUTCOMES + CAPS + HUNG, grade("general.fat"))
    assert ends(unsaid) == ("good", "disqualified")
    assert "no figure says which" in outlook_lines(unsaid)[1]


def test_what_the_evaluator_decided_is_not_open() -> None:
    dismissed = '[[decisions]]\nfault = "general.under-height"\ndecision = "dismiss"\nreason = "moved"\n'
    found = judge(OUTCOMES + CAPS + BESIDE, take("height", 62.3) + dismissed)
    assert ends(found) == ("excellent", "excellent")
