"""Verdicts of limits as values: what is called, what is only shown, what is to be looked at again.

The rule: JCGM 106:2012, conformity by probability with guarded rejection. One take of the height has
u = 0.5 cm here, of which 0.4 stays from take to take; probabilities are recomputed with scipy.
"""

import math

import pytest
from scipy import stats

from hands_on.evaluate.alarms.judged import HeavierNotSure
from hands_on.ruleset.labels import Label
from hands_on.wording.alarms import alarm_text
from tests.evaluate.build import LAW, finding_of, judge, kinds, rule_of, take

U, LASTING, REPEAT = 0.5, 0.4, 0.3
PUPPY = 'sex = "male"\nborn = 2023-10-01'
"""Eight months old at the examination; height is judged from 12 in a large breed."""
OVER, UNDER = "general.over-height", "general.under-height"


def limit(
    bands: str, more: str = "", asked: str = "from = 63, to = 70", of: str = 'measure = "height"'
) -> str:
    """A limit called `limit`."""
    return f"""
[[limits]]
id = "limit"
{of}
{more}
asked = {{ {asked} }}
bands = [{bands}]
source = "reading"
"""


def band(where: str, cls: str = "", fault: str = OVER, more: str = "") -> str:
    given = f', class = "{cls}"' if cls else ""
    return f'{{ {where}, fault = "{fault}"{given}{more} }},'


TIERS = limit(
    band("below = 63", "out", UNDER) + band("above = 70, to = 73", "fault") + band("above = 73", "out")
)


def alarm_kinds(rules: str, value: float, dog: str = 'sex = "male"\nborn = 2020-01-01') -> list[str]:
    return kinds(judge(rules, take("height", value), dog=dog))


# --- a class is called only where it is sure -------------------------------------------------------------


@pytest.mark.parametrize("beyond", [0.05, 0.4, 0.8, 0.87, 0.88, 1.2, 2.5])
@pytest.mark.parametrize("limited", ["above = 70", "below = 63"])
def test_a_disqualifying_class_is_called_from_five_in_a_hundred_down(limited: str, beyond: float) -> None:
    """1.754 standard uncertainties beyond, 0.877 cm (t, 14.8 degrees of freedom); before that
    the general clause's class, unsure."""
    rules = limit(band(limited, "out"))
    evaluation = judge(rules, take("height", 70 + beyond if limited == "above = 70" else 63 - beyond))
    (found,) = evaluation.findings
    sure = LAW.sf(beyond / U) <= 0.05
    assert (found.cls, found.status) == (("out", "present") if sure else ("fault", "unsure"))
    assert evaluation.disqualifying == ((OVER,) if sure else ())
    assert (evaluation.totals["out"], evaluation.totals["fault"]) == ((1, 0) if sure else (0, 0))
    assert (evaluation.unsure["out"], evaluation.unsure["fault"]) == ((0, 0) if sure else (0, 1))


@pytest.mark.parametrize(
    ("value", "cls"),
    [
        (70.3, "fault"),  # 70 to 70.6 with 0.45, above it 0.27
        (70.7, "severe"),  # 70 to 70.6 with 0.34, above it 0.57
    ],
)
def test_an_undecided_value_has_the_likeliest_class_that_does_not_disqualify(value: float, cls: str) -> None:
    rules = limit(
        band("above = 70, to = 70.6", "fault")
        + band("above = 70.6, to = 72", "severe")
        + band("above = 72", "out")
    )
    evaluation = judge(rules, take("height", value))
    assert (evaluation.findings[0].cls, evaluation.findings[0].status) == (cls, "unsure")
    assert rule_of(evaluation, "limit").verdict == ("undecided")
    assert sum(evaluation.totals.values()) == 0


def test_the_class_of_one_side_is_not_taken_from_the_other() -> None:
    """62.8 may be under; that an excess would be severe says nothing of it."""
    rules = limit(band("below = 63", "out", UNDER) + band("above = 70", "severe"))
    (found,) = judge(rules, take("height", 62.8)).findings
    assert (found.id, found.cls, found.status) == (UNDER, "fault", "unsure")


def test_what_is_tolerated_lends_no_class_to_what_lies_beyond_it() -> None:
    """68.1: tolerated to 68 with 0.42, severe to 68.3 with 0.23, else disqualifying: severe at least."""
    rules = limit(
        band("above = 65, to = 68", more=", tolerated = true")
        + band("above = 68, to = 68.3", "severe")
        + band("above = 68.3", "out"),
        asked="from = 60, to = 65",
    )
    found = finding_of(judge(rules, take("height", 68.1)), OVER)
    assert (found.cls, found.status) == ("severe", "unsure")
    assert judge(rules, take("height", 67.9)).findings == ()


def test_between_tolerated_and_fault_the_takes_that_would_settle_it_are_told() -> None:
    """68.8 with u = 0.5, of which 0.4 stays. At 68.2 the part that stays never lets it be told."""
    rules = limit(
        band("above = 65, to = 68", more=", tolerated = true") + band("above = 68", "severe"),
        asked="from = 60, to = 65",
    )
    near = judge(rules, take("height", 68.8))
    rule, takes = rule_of(near, "limit"), further(0.8)
    assert takes is not None
    assert (rule.verdict, rule.more_takes) == ("outside", takes)
    (alarm,) = near.alarms
    assert alarm.kind == "near-limit"
    assert f"; {takes} more takes would settle it (" in alarm_text(near, alarm)
    nearer = judge(rules, take("height", 68.2))
    assert (rule_of(nearer, "limit").more_takes, nearer.alarms) == (None, ())
    tolerated = judge(rules, take("height", 67.0))
    assert (rule_of(tolerated, "limit").more_takes, tolerated.alarms) == (None, ())


def test_what_is_tolerated_is_never_a_fault_and_is_said_to_be_tolerated() -> None:
    rules = limit(
        band("above = 70, to = 73", more=", tolerated = true") + band("above = 73", "severe"),
    )
    surely = judge(rules, take("height", 71.5))
    rule, found = rule_of(surely, "limit"), finding_of(surely, OVER)
    assert (rule.verdict, rule.tolerated, rule.cls) == ("outside", True, "none")
    assert (found.cls, found.status, found.counts) == ("none", "present", False)
    assert not rule_of(judge(rules, take("height", 75)), "limit").tolerated
    assert not rule_of(judge(rules, take("height", 66)), "limit").tolerated
    young = finding_of(judge(rules, take("height", 71.5), dog=PUPPY), OVER)
    assert young.too_young
    assert all(reason.kind != "counted-young" for reason in young.reasons)


# --- the ladder as judged --------------------------------------------------------------------------------


def test_the_ladder_keeps_every_stretch_with_its_probability_class_and_name() -> None:
    rules = limit(
        band("below = 63", "out", UNDER, ', label = "small"')
        + band("above = 70, to = 73", "fault", more=', label = "large", degree = "slight"')
        + band("from = 73.5", "severe", more=', label = "huge"')
    )
    evaluation = judge(rules, take("height", 72.6))
    rule = rule_of(evaluation, "limit")
    assert [(one.values.low, one.values.high, one.values.label) for one in rule.ladder] == [
        (63, 70, ""), (None, 63, "small"), (70, 73, "large"), (73.5, None, "huge"),
    ]  # fmt: skip
    assert [(one.values.low_open, one.values.high_open) for one in rule.ladder] == [
        (False, False), (False, True), (True, False), (False, False),
    ]  # fmt: skip
    assert [(one.cls, one.fault, one.degree) for one in rule.ladder] == [
        ("none", None, None), ("out", UNDER, None), ("fault", OVER, "slight"), ("severe", OVER, None),
    ]  # fmt: skip
    z = [(end - 72.6) / U for end in (63, 70, 73, 73.5)]
    chances = [
        LAW.cdf(z[1]) - LAW.cdf(z[0]),
        LAW.cdf(z[0]),
        LAW.cdf(z[2]) - LAW.cdf(z[1]),
        LAW.sf(z[3]),
    ]
    assert [one.p for one in rule.ladder] == pytest.approx(chances, abs=1e-12)
    assert (rule.band, rule.fault, rule.cls) == ("large", OVER, "fault")


def test_what_a_result_tells_of_its_limit() -> None:
    rule = rule_of(judge(TIERS, take("height", 66)), "limit")
    assert (rule.value, rule.u, rule.unit) == (66, U, "cm")
    assert (rule.low, rule.high, rule.band, rule.named, rule.side) == (63, 70, "", Label("Height"), None)
    assert (rule.fault, rule.cls, rule.more_takes, rule.judged_from) == (None, None, None, None)
    assert rule_of(judge(TIERS, take("height", 66), dog=PUPPY), "limit").judged_from == 12
    open_ended = rule_of(judge(limit("", asked="from = 63"), take("height", 66)), "limit")
    assert (open_ended.low, open_ended.high) == (63, None)
    hock = limit("", asked="to = 140", of='measure = "hock-angle"')
    (side,) = judge(hock, take("hock-angle", 130, side="left")).rules
    assert (side.side, side.named, side.low, side.high) == (
        "left",
        Label("Hock-angle", side="left"),
        None,
        140,
    )


def test_a_result_without_a_value_keeps_its_limits_and_its_unit() -> None:
    for more, unit in (('unit = "in"', "in"), ("", "cm")):
        rule = rule_of(judge(limit("", more), ""), "limit")
        assert (rule.verdict, rule.value, rule.u, rule.unit) == ("not-measured", None, None, unit)
        assert (rule.low, rule.high, rule.side, rule.named) == (63, 70, None, Label("Height"))


def test_a_stretch_without_a_name_of_its_own_is_called_by_what_is_measured() -> None:
    rules = limit('{ above = 70, class = "fault" }')
    (found,) = judge(rules, take("height", 75)).findings
    assert (found.id, found.named, found.cls) == ("limit", Label("Height"), "fault")


def test_a_departure_of_no_class_and_no_fault_is_no_finding() -> None:
    rules = limit('{ above = 70, class = "none", label = "large" }')
    evaluation = judge(rules, take("height", 75))
    assert evaluation.findings == evaluation.allowed == ()
    rule = rule_of(evaluation, "limit")
    assert (rule.verdict, rule.band, rule.cls) == ("outside", "large", "none")
    named = judge(limit(band("above = 70", "none")), take("height", 75))
    assert finding_of(named, OVER).cls == "none"


# --- further takes ---------------------------------------------------------------------------------------


def further(off: float) -> int | None:
    """The least further takes after which the mean, something beyond a limit, is settled with one half.

    The mean moves with the hand alone; u and its degrees of freedom are those of all takes.
    """
    for more in range(1, 11):
        repeat = REPEAT / math.sqrt(1 + more)
        u = math.hypot(LASTING, repeat)
        dof = u**4 / (repeat**4 / (8 + more) + LASTING**4 / 8)
        reach = stats.t.ppf(0.95, dof) * u
        law = stats.t(8, off, REPEAT * math.sqrt(more / (1 + more)))
        if law.sf(reach) + law.cdf(-reach) >= 0.5:
            return more
    return None


@pytest.mark.parametrize("beyond", [0.79, 0.81, 0.83, 0.86])
def test_the_takes_that_would_settle_an_undecided_value(beyond: float) -> None:
    rule = rule_of(judge(TIERS, take("height", 70 + beyond)), "limit")
    assert (rule.verdict, rule.more_takes) == ("undecided", further(beyond))
    assert further(beyond) is not None
    assert rule.more_takes_p is not None
    assert rule.more_takes_p >= 0.5


def test_the_takes_that_would_settle_the_class_of_a_sure_fault() -> None:
    """73.8 is surely over 70 and over 73 with 0.93 only; some more takes would tell."""
    evaluation = judge(TIERS, take("height", 73.8))
    rule = rule_of(evaluation, "limit")
    assert (rule.verdict, rule.cls, rule.more_takes) == ("outside", "fault", further(0.8))
    (alarm,) = evaluation.alarms
    assert isinstance(alarm.about, HeavierNotSure)
    assert (alarm.about.takes_more, alarm.about.takes_reason) == (further(0.8), None)


def test_where_the_class_is_settled_no_takes_are_asked_for() -> None:
    for value in (66.0, 71.5, 76.0):
        rule = rule_of(judge(TIERS, take("height", value)), "limit")
        assert rule.more_takes is None


# --- what is to be looked at again -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("starts", "told"),
    [(70.8, True), (71.0, True), (71.2, False), (71.5, False)],
)
def test_a_disqualifying_stretch_within_two_standard_uncertainties_is_told(starts: float, told: bool) -> None:
    """70.1 cm with u = 0.5: up to 71.1. No further takes tell 70.1 from 70."""
    rules = limit(band(f"above = 70, to = {starts}", "fault") + band(f"above = {starts}", "out"))
    assert rule_of(judge(rules, take("height", 70.1)), "limit").more_takes is None
    assert alarm_kinds(rules, 70.1) == (["near-limit"] if told else [])


@pytest.mark.parametrize(("value", "told"), [(62.2, True), (63.8, True)])
def test_and_from_below(value: float, told: bool) -> None:
    rules = limit(band("below = 63", "out", UNDER))
    assert ("near-limit" in alarm_kinds(rules, value)) == told


@pytest.mark.parametrize("value", [63.1, 62.9, 69.2, 73.2, 73.7])
def test_practice_beside_the_standard_warns_of_nothing(value: float) -> None:
    practice = TIERS.replace('measure = "height"', 'measure = "height"\noptional = true')
    assert alarm_kinds(TIERS, value) != []
    assert alarm_kinds(practice, value) == []


def test_of_several_heavier_stretches_the_likeliest_is_named_and_all_are_summed() -> None:
    rules = limit(
        band("above = 70, to = 72", "fault")
        + band("above = 72, to = 74", "severe")
        + band("above = 74", "out")
    )
    evaluation = judge(rules, take("height", 72.4))
    (alarm,) = evaluation.alarms
    about = alarm.about
    assert isinstance(about, HeavierNotSure)
    assert (alarm.kind, about.called, about.heavier) == ("undecided-class", "fault", "severe")
    assert (about.stretch.low, about.stretch.high) == (72, 74)
    assert about.p == pytest.approx(LAW.sf((72 - 72.4) / U), abs=1e-12)
    top = judge(rules, take("height", 74.4)).alarms[0].about
    assert isinstance(top, HeavierNotSure)
    assert (top.called, top.heavier, top.stretch.low) == ("severe", "out", 74)
    assert top.p == pytest.approx(LAW.sf((74 - 74.4) / U), abs=1e-12)


@pytest.mark.parametrize(("value", "told"), [(72.1, False), (72.15, True), (71.5, False)])
def test_a_heavier_stretch_is_told_from_five_in_a_hundred_up(value: float, told: bool) -> None:
    """73 less 1.754 u is 72.12."""
    assert alarm_kinds(TIERS, value) == (["undecided-class"] if told else [])


@pytest.mark.parametrize(
    ("value", "told"), [(55.6, ["too-narrow"]), (56.5, []), (57.4, ["too-narrow"]), (54.0, []), (59.0, [])]
)
def test_a_range_narrower_than_the_hand_is_told_on_either_side(value: float, told: list[str]) -> None:
    rules = limit(
        band("below = 56", "fault", UNDER) + band("above = 57", "fault"), asked="from = 56, to = 57"
    )
    assert alarm_kinds(rules, value) == told
