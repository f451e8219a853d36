"""Takes to measurements: everything readable counts, everything else is told."""

import math
from dataclasses import replace

import pytest
import uncertainties

from hands_on.evaluate.alarms.recorded import TakesOdd
from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.measure.hand import OwnHand
from hands_on.measure.takes import Taken
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.alarms import alarm_text, odd_takes_words
from hands_on.wording.rules import rule_sentence
from hands_on.wording.uncertainty import basis_words
from tests.evaluate.build import edition, judge, kinds, session, take


def test_several_takes_make_a_mean_with_its_uncertainty() -> None:
    # u of n takes with nothing odd in the spread: u1 sqrt(0.64 + 0.36/n), as measure.takes documents
    (one,) = judge("", take("height", 66.0, 66.4)).measures
    assert (one.id, one.takes, one.unit) == ("height", 2, "cm")
    assert one.value == pytest.approx(66.2)
    assert 0.4 < one.u < 0.5
    (single,) = judge("", take("height", 66.0)).measures
    assert (single.takes, single.u) == (1, pytest.approx(0.5))


@pytest.mark.parametrize(
    ("written", "unit", "value"),
    [
        ('25 3/8 in', "", 64.4525),  # 25.375 in of 2.54 cm
        ("645 mm", "", 64.5),
        ("64,5", "", 64.5),
        (25.375, "in", 64.4525),
        ("25 3/8", "in", 64.4525),
    ],
)  # fmt: skip
def test_units_as_entered(written: float | str, unit: str, value: float) -> None:
    (one,) = judge("", take("height", written, unit=unit)).measures
    assert (one.value, one.unit) == (pytest.approx(value), "cm")


@pytest.mark.parametrize(
    ("written", "unit", "kind"),
    [
        (645, "", "implausible"),
        (-66, "", "implausible"),
        ("645", "", "implausible"),
        ("sixty", "", "unreadable"),
        ("64 65", "", "unreadable"),
        (66, "kg", "unreadable"),
        ("66 kg", "", "unreadable"),
        (math.nan, "", "unreadable"),
        (math.inf, "", "unreadable"),
    ],
)
def test_a_take_that_cannot_be_used_is_told_and_left_out(written: float | str, unit: str, kind: str) -> None:
    evaluation = judge("", take("height", 66.0) + take("height", written, unit=unit))
    assert kinds(evaluation) == [kind]
    assert evaluation.alarms[0].points == ("height",)
    assert "take 2" in alarm_text(evaluation, evaluation.alarms[0])
    assert [(one.value, one.takes) for one in evaluation.measures] == [(66.0, 1)]


def test_a_struck_take_does_not_count() -> None:
    answers = take("height", 66.0) + take("height", 76.0) + 'struck = "dog moved"\n'
    evaluation = judge("", answers)
    assert [(one.value, one.takes) for one in evaluation.measures] == [(66.0, 1)]
    assert kinds(evaluation) == []


def test_takes_too_far_apart_and_takes_that_fall() -> None:
    apart = judge("", take("height", 62.0, 66.0))
    assert kinds(apart) == ["discordant"]
    assert apart.measures[0].takes == 2  # told, not dropped
    assert "drift" in kinds(judge("", take("height", 66.4, 66.2, 66.0)))


def test_counts_that_differ_decide_nothing() -> None:
    rules = """
[[limits]]
id = "count"
measure = "teeth-count"
asked = { from = 42 }
bands = [{ below = 42, fault = "mouth.teeth-missing", class = "out" }]
source = "reading"
"""
    evaluation = judge(rules, take("teeth-count", 42, 41))
    assert "discordant" in kinds(evaluation)
    assert evaluation.rules[0].verdict == "undecided"
    assert evaluation.disqualifying == ()
    assert kinds(judge(rules, take("teeth-count", 41.5))) == ["unreadable"]


def test_a_measurement_below_nought_where_that_makes_sense() -> None:
    (one,) = judge("", take("tail-end", -6.5)).measures
    assert one.value == -6.5


def test_sides_are_kept_apart_only_where_the_point_has_sides() -> None:
    both = judge("", take("hock-angle", 130, side="left") + take("hock-angle", 131, side="right"))
    assert [(one.side, one.value) for one in both.measures] == [("left", 130.0), ("right", 131.0)]
    pooled = judge("", take("height", 66, side="left") + take("height", 67, side="right"))
    assert [(one.side, one.value, one.takes) for one in pooled.measures] == [(None, 66.5, 2)]


def test_the_evaluators_own_hand_takes_the_place_of_the_default() -> None:
    held = session(take("height", 66.0))
    hand = OwnHand(0.2, 12, 24)
    (one,) = evaluate(edition(""), held, hand={"height": hand}).measures
    # u^2 = own repeatability^2 + (0.8 u1)^2
    assert one.u == pytest.approx(math.hypot(0.2, 0.8 * 0.5))
    assert isinstance(one.basis, Taken)
    assert (one.basis.n, one.basis.own) == (1, hand)


def test_derived_values_against_the_uncertainties_package() -> None:
    rules = """
[[derived]]
id = "elbow-share"
label = "Elbow to rest"
ratio = ["elbow-height", { difference = ["height", "elbow-height"] }]
"""
    evaluation = judge(rules, take("height", 66) + take("elbow-height", 34))
    (found,) = evaluation.derived
    height, elbow = uncertainties.ufloat(66, 0.5), uncertainties.ufloat(34, 0.5)
    expected = elbow / (height - elbow)  # the elbow stands twice: one and the same quantity
    assert (found.id, found.value) == ("elbow-share", pytest.approx(expected.nominal_value))
    assert found.u == pytest.approx(expected.std_dev, rel=1e-6)


def test_measurements_that_must_add_up() -> None:
    fine = take("height", 66) + take("elbow-height", 34) + take("withers-elbow", 32.4)
    assert kinds(judge("", fine)) == []
    off = take("height", 66) + take("elbow-height", 44) + take("withers-elbow", 32.4)
    (alarm,) = judge("", off).alarms
    assert alarm.kind == "closure"
    assert set(alarm.points) == {"height", "elbow-height", "withers-elbow"}
    order = judge("", take("height", 66) + take("elbow-height", 70))
    assert kinds(order) == ["closure"]


def test_a_ratio_with_nothing_to_divide_by_is_not_given() -> None:
    rules = """
[[limits]]
id = "share"
ratio = ["height", "tail-end"]
asked = { from = 1 }
source = "reading"
"""
    evaluation = judge(rules, take("height", 66) + take("tail-end", 0.0))
    assert evaluation.derived == ()
    assert evaluation.rules[0].verdict == "not-measured"


def test_an_alarm_names_a_take_by_its_number_in_the_list_struck_ones_counted() -> None:
    # 64, 64.1 and 70 cm cannot be one hand's; 70 is the fourth line of the list, behind a struck one
    struck = take("height", 64.5) + 'struck = "slipped"\n'
    (odd,) = [
        alarm.about.odd
        for alarm in judge("", struck + take("height", 64, 64.1, 70)).alarms
        if isinstance(alarm.about, TakesOdd)
    ]
    assert odd.takes == (4,)
    assert "Take 4 (70 cm) is set aside" in odd_takes_words(odd)


def test_contradictory_takes_give_no_verdict_until_one_is_struck_or_a_further_one_settles_it() -> None:
    """62.0 and 71.5 for an asked 63 to 70: their mean lies well within, and means nothing."""
    rules = (
        '[[limits]]\nid = "height"\nmeasure = "height"\nunit = "cm"\nasked = { from = 63, to = 70 }\n'
        'bands = [{ below = 63, fault = "general.under-height", class = "out" }]\nsource = "reading"\n'
        '[[limits]]\nid = "ratio"\nratio = ["body-length", "height"]\nasked = { from = 1 }\nbands = []\n'
        'source = "reading"\n'
    )
    both = judge(rules, take("height", 62.0, 71.5) + take("body-length", 72))
    assert [(rule.verdict, rule.contradictory, rule.p_inside) for rule in both.rules] == [
        ("undecided", ("height",), None),
        ("undecided", ("height",), None),
    ]
    assert all("the takes contradict each other" in rule_sentence(both, rule) for rule in both.rules)
    assert both.findings == ()
    (alarm,) = [one for one in both.alarms if one.kind == "discordant"]
    assert "No verdict until one is struck" in alarm_text(both, alarm)
    struck = take("height", 62.0) + take("height", 71.5).rstrip() + '\nstruck = "the dog sat"\n'
    assert judge(rules, struck).rules[0].verdict == "outside"
    third = judge(rules, take("height", 61.8, 71.5, 61.7))
    assert third.rules[0].verdict == "outside"
    assert third.measures[0].value == pytest.approx(61.75)
    (aside,) = [one for one in third.alarms if one.kind == "discordant"]
    assert alarm_text(third, aside).startswith("Height: Take 2 (71.5 cm) is set aside")


# --- how the dog was to handle --------------------------------------------------------------------------


def _u(point: str, more: str = "", *, coat: str = "", restless: bool = False, value: float = 40.0) -> float:
    """u of one take at a point of a shipped edition."""
    rules = Library([shipped_rulesets()]).load("german-shepherd-fci-166")
    dog = {"sex": "male", "born": "2020-01-01"} | ({"attributes": {"coat": coat}} if coat else {})
    examination = {"started": "2024-06-01T09:00:00Z", "restless": restless}
    held = Session.model_validate(
        {
            "ruleset": {"id": rules.id},
            "dog": dog,
            "examination": examination,
            "takes": [{"point": point, "value": value}]
            + (
                [{"point": "coat-length-flank", "value": float(more[5:])}] if more.startswith("coat ") else []
            ),
            "grades": [{"point": "general.condition", "fault": more}]
            if "." in more and more[0] == "g"
            else [],
        }
    )
    return next(one.u for one in evaluate(rules, held).measures if one.id == point)


def test_a_coat_fat_and_a_restless_dog_make_measurements_less_sure() -> None:
    # 1.5 times: a judgement, in rulesets/common/landmarks.toml
    plain = _u("elbow-height")
    assert _u("elbow-height", coat="double") == plain
    assert _u("elbow-height", "coat 5") == plain
    for worse in (
        _u("elbow-height", coat="long-double"),
        _u("elbow-height", "coat 7"),
        _u("elbow-height", "general.overweight"),
        _u("elbow-height", restless=True),
    ):
        assert worse == pytest.approx(1.5 * plain)
    # errors of their own add up as squares (JCGM 100:2008, 5.1.2): sqrt(1 + 2 (1.5^2 - 1))
    assert _u("elbow-height", coat="long-double", restless=True) == pytest.approx(math.sqrt(3.5) * plain)


def test_the_head_lies_in_no_long_coat_and_weight_in_none() -> None:
    head = _u("muzzle-length", value=11)
    assert _u("muzzle-length", coat="long-double", value=11) == head
    assert _u("muzzle-length", "general.overweight", value=11) == head
    assert _u("muzzle-length", restless=True, value=11) == pytest.approx(1.5 * head)
    assert _u("weight", coat="long-double", value=34) == _u("weight", value=34)
    assert _u("weight", restless=True, value=34) > _u("weight", value=34)


def test_what_makes_it_less_sure_is_told() -> None:
    held = session(take("height", 66.0, 66.2))
    rules = edition("")
    harder = tuple(one for one in Library([shipped_rulesets()]).common().harder if one.id == "restless")
    rules = replace(rules, harder=harder)
    restless = held.model_copy(update={"examination": held.examination.model_copy(update={"restless": True})})
    (one,) = evaluate(rules, restless).measures
    assert basis_words(one.basis) == "2 takes, default by judgement, 1.5 times as large: restless dog"
    stood = [row.model_copy(update={"stand": n}) for n, row in enumerate(held.takes, 1)]
    (one,) = evaluate(rules, held.model_copy(update={"takes": tuple(stood)})).measures
    assert basis_words(one.basis) == "2 takes on 2 stands, default by judgement"


def test_what_is_named_for_handling_exists() -> None:
    common = Library([shipped_rulesets()]).common()
    measured = {name for name, point in common.points.items() if point.kind == "measure"}
    regions = {region.id for region in common.regions}
    for one in common.standing:
        assert set(one.measures) <= measured
    for one in common.harder:
        assert set(one.faults) <= common.faults.keys()
        assert set(one.not_in) <= regions
        assert one.measure is None or one.measure in measured
