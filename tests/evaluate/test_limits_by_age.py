"""The age from which a limit holds, and which limits apply at all."""

import pytest

from hands_on.evaluate.reasons import Reason
from tests.evaluate.build import grade, judge, kinds, rule_of, take
from tests.evaluate.test_verdicts import OVER, PUPPY, TIERS, UNDER, band, limit


@pytest.mark.parametrize(
    ("born", "verdict"),
    [
        ("2023-03-02", "not-yet"),  # 15 months on the day after the examination
        ("2023-03-01", "outside"),  # 15 months on the day
        ("2023-02-28", "outside"),
    ],
)
def test_a_limit_holds_from_the_day_the_age_is_reached(born: str, verdict: str) -> None:
    rules = limit(band("above = 70", "out"), "from_age = 15")
    evaluation = judge(rules, take("height", 76), dog=f'sex = "male"\nborn = {born}')
    rule = rule_of(evaluation, "limit")
    assert (rule.verdict, rule.from_age) == (verdict, 15 if verdict == "not-yet" else None)
    assert (evaluation.disqualifying == (OVER,)) == (verdict == "outside")
    assert kinds(evaluation) == []


def test_a_limit_from_an_age_waits_where_the_age_is_not_known_and_says_so() -> None:
    rules = limit(band("above = 70", "out"), "from_age = 15")
    evaluation = judge(rules, take("height", 76), dog='sex = "male"')
    assert rule_of(evaluation, "limit").verdict == "not-yet"
    assert (evaluation.findings, kinds(evaluation)) == ((), ["unknown-attribute"])
    assert kinds(judge(TIERS, take("height", 76), dog='sex = "male"')) == []


@pytest.mark.parametrize(
    ("of", "answers", "young"),
    [
        ('measure = "height"', take("height", 75), False),
        ('ratio = ["height", "body-length"]', take("height", 75) + take("body-length", 60), True),
    ],
)
def test_only_a_size_that_is_over_already_counts_in_a_young_dog(of: str, answers: str, young: bool) -> None:
    """A height does not shrink; a proportion changes as the dog grows."""
    asked = "to = 70" if of.startswith("measure") else "to = 1.1"
    rules = limit(band(asked.replace("to", "above"), "severe"), asked=asked, of=of)
    (found,) = judge(rules, answers, dog=PUPPY).findings
    assert (found.too_young, found.counts) == (young, not young)
    assert (Reason("counted-young", "it will not shrink") in found.reasons) == (not young)


def test_in_a_young_dog_what_may_still_be_under_never_counts_as_over() -> None:
    """70.2 is over by the figure, and not surely."""
    (found,) = judge(TIERS, take("height", 70.2), dog=PUPPY).findings
    assert (found.status, found.too_young, found.counts) == ("unsure", True, False)


def test_what_a_limit_lacks_matters_only_where_all_of_it_was_measured() -> None:
    ratio = limit("", 'when = { sex = "male" }', "from = 0.9, to = 1.1", 'ratio = ["body-length", "height"]')
    nameless = "born = 2020-01-01"
    half = judge(ratio, take("height", 66), dog=nameless)
    whole = judge(ratio, take("height", 66) + take("body-length", 66), dog=nameless)
    assert (half.rules, kinds(half)) == ((), [])
    assert (whole.rules, kinds(whole)) == ((), ["unknown-attribute"])
    male = judge(ratio, take("height", 66))
    assert [rule.verdict for rule in male.rules] == ["not-measured"]
    assert judge(ratio, take("height", 66), dog='sex = "female"\nborn = 2020-01-01').rules == ()


SEEN = grade(OVER)


@pytest.mark.parametrize(
    ("rules", "value", "opposed"),
    [
        (limit(band("above = 70", "fault")), 66, True),
        (limit(band("above = 70", "fault")), 70, False),  # undecided
        (limit(band("above = 70", "fault"), "optional = true"), 66, False),  # practice beside the standard
        (limit(band("above = 70", "fault"), "from_age = 100"), 66, False),  # does not hold yet
        (limit(band("below = 63", "fault", UNDER)), 66, False),  # names another fault
    ],
)
def test_a_counted_limit_surely_kept_opposes_the_fault_it_names(
    rules: str, value: float, opposed: bool
) -> None:
    evaluation = judge(rules, take("height", value) + SEEN)
    assert ("contradiction" in kinds(evaluation)) == opposed


OUTCOMES = (
    '[[outcomes]]\nid = "best"\nlabel = "Best"\nsource = "reading"\n'
    '[[outcomes]]\nid = "less"\nlabel = "Less"\nsource = "reading"\n'
    '[[caps]]\nlimit = "limit"\nat_most = "less"\nsource = "reading"\n'
)


@pytest.mark.parametrize(
    ("value", "dog", "best"),
    [
        (75, 'sex = "male"\nborn = 2020-01-01', "less"),
        (70.2, 'sex = "male"\nborn = 2020-01-01', "best"),  # not surely beyond
        (66, 'sex = "male"\nborn = 2020-01-01', "best"),
        (50, PUPPY, "best"),  # too young to be judged
    ],
)
def test_a_limit_caps_the_outcome_only_where_it_is_surely_not_kept(value: float, dog: str, best: str) -> None:
    rules = OUTCOMES + limit(band("above = 70") + band("below = 63", fault=UNDER))
    assert judge(rules, take("height", value), dog=dog).outcome_at_most == best
