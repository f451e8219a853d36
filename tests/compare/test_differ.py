"""Is a difference real? Answers of two sessions at one point."""

from __future__ import annotations

import pytest
from scipy import stats

from hands_on.compare.answer import answer_at, scale_of
from hands_on.compare.dogs.differ import difference
from hands_on.compare.dogs.two_answers import hand_correlation
from hands_on.measure.growth import project
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.answers import answer_words
from hands_on.wording.differences import difference_sentence
from tests.compare.build import RULESET, asked, chosen, held
from tests.evaluate.build import grade, take

HOCKS = "hindquarters.hocks"


def _difference(first, second, point):
    at = RULESET.points[point]
    return difference((first, second), (at, at), (answer_at(first, at), answer_at(second, at)))


def _cow(degree, more=""):
    return grade("hindquarters.cow-hocks", degree, point=HOCKS, more=more)


# --- measurements ------------------------------------------------------------------------------------


def test_two_evaluators_differ_really_beyond_the_smallest_detectable_change():
    # Weir 2005: t sqrt(2) u; u of one careful take is 0.5 cm here, with 14.84 degrees of freedom (JCGM
    # 100:2008, G.4.1). Both takes rest on that one figure, so the difference has no more.
    sdc = stats.t.ppf(0.975, 8 / (0.6**4 + 0.8**4)) * 2**0.5 * 0.5
    for size, verdict in ((sdc - 0.01, "within-hand-error"), (sdc + 0.01, "real")):
        first = held(take("body-length", 60.0), name="Ada")
        second = held(take("body-length", round(60.0 + size, 4)), name="Bea", by="B. Example")
        found = _difference(first, second, "body-length")
        assert found.sdc == pytest.approx(sdc, abs=1e-6)
        assert found.verdict == verdict
        assert found.difference == pytest.approx(size, abs=1e-3)
        assert found.p_greater > 0.9


def test_one_hand_shares_a_part_of_its_error():
    first = held(take("body-length", 60.0), name="Ada")
    second = held(take("body-length", 61.25), name="Bea")
    other = held(take("body-length", 61.25), name="Bea", by="B. Example")
    assert _difference(first, second, "body-length").verdict == "real"
    assert _difference(first, other, "body-length").verdict == "within-hand-error"
    # Half of the lasting variance, 0.8^2 of a single take's (hands_on.measure.takes): 0.32 of it all.
    a, b = (answer_at(one, RULESET.points["body-length"]) for one in (first, second))
    assert hand_correlation(a, b, True) == pytest.approx(0.32)


def test_nobody_named_is_never_the_same_hand():
    first, second = (
        held(take("body-length", 60.0), by=""),
        held(take("body-length", 61.25), by="", name="Bea"),
    )
    assert _difference(first, second, "body-length").verdict == "within-hand-error"


def test_counts_that_differ_really_do():
    first, second = held(take("teeth-count", 42)), held(take("teeth-count", 41), name="Bea")
    assert _difference(first, second, "teeth-count").verdict == "real"


def test_a_young_dog_is_said_to_be_too_young_against_another():
    young = held(take("height", 50.0), born="2023-12-01")
    grown = held(take("height", 62.0), name="Bea")
    found = _difference(young, grown, "height")
    assert found.verdict == "too-young"
    assert "too young to judge" in difference_sentence(found)


def test_what_only_one_has_is_no_difference():
    found = _difference(held(take("height", 60.0)), held(name="Bea"), "height")
    assert (found.difference, found.verdict, found.differs) == (None, None, False)


# --- one dog, two ages -------------------------------------------------------------------------------


def _grown(first, second, **then):
    young = held(take("height", first), born="2023-12-01", on="2024-06-01", **then)
    old = held(take("height", second), born="2023-12-01", on="2024-12-01")
    return young, old


def test_growth_that_is_what_the_curve_lets_expect_explains_a_change():
    young, old = _grown(52.0, 56.5)
    expected = project(52.0, 0.5, young.age, old.age, "height", "large", sem2=0.5)
    assert abs(56.5 - expected.expected) < expected.u
    found = _difference(young, old, "height")
    assert found.verdict == "explained-by-growth"
    assert "as growth would have it" in difference_sentence(found)


def test_the_order_of_the_files_changes_the_sign_and_not_the_verdict():
    young, old = _grown(52.0, 56.5)
    there, back = _difference(young, old, "height"), _difference(old, young, "height")
    assert (there.verdict, difference_sentence(there)) == (back.verdict, difference_sentence(back))
    assert there.difference == -back.difference


def test_a_jump_that_growth_does_not_explain_is_real():
    found = _difference(*_grown(52.0, 68.0), "height")
    assert found.verdict == "real"
    assert "not explained by growth" in difference_sentence(found)


def test_a_height_that_shrank_is_a_matter_of_measuring():
    found = _difference(*_grown(58.0, 54.0), "height")
    assert found.verdict == "does-not-shrink"
    assert found.unexpected
    assert "does not shrink" in difference_sentence(found)


def test_a_puppy_that_should_have_grown_and_did_not_is_told():
    found = _difference(*_grown(48.0, 47.5), "height")
    assert (found.verdict, found.ground) == ("did-not-grow", "growth")
    assert "should have grown and no growth shows" in difference_sentence(found)


def test_no_change_shown_is_not_said_to_be_unchanged():
    found = _difference(*_grown(56.0, 56.4), "height")
    assert found.verdict == "within-hand-error"
    assert "no change shown" in difference_sentence(found)


def test_a_grown_dog_is_not_asked_for_growth():
    first = held(take("height", 62.0), on="2022-06-01")
    second = held(take("height", 63.9), on="2024-06-01")
    found = _difference(first, second, "height")
    assert found.verdict == "real"
    assert "growth" not in difference_sentence(found)


# --- grades and choices ------------------------------------------------------------------------------


def test_one_degree_is_within_ordinary_disagreement_and_two_are_probably_real():
    # hands_on.measure.change without retests; the rule is of choice, see there.
    slight, moderate, none = (
        held(_cow("slight")),
        held(_cow("moderate"), name="Bea"),
        held(asked(HOCKS), name="C"),
    )
    one, two = _difference(slight, moderate, HOCKS), _difference(moderate, none, HOCKS)
    assert (one.difference, one.verdict, one.differs) == (-1.0, "within-hand-error", True)
    assert (two.difference, two.verdict) == (2.0, "real")


def test_an_unsure_answer_makes_nothing_real():
    unsure = held(_cow("marked", 'status = "unsure"'))
    assert _difference(unsure, held(asked(HOCKS), name="Bea"), HOCKS).verdict == "within-hand-error"


def test_departures_opposite_ways_lie_on_one_scale():
    point = RULESET.points[HOCKS]
    assert scale_of(point) == (-4, -3, -2, -1, 0, 1, 2, 3, 4)
    bowed = held(grade("hindquarters.bowed-hocks", "moderate", point=HOCKS), name="Bea")
    assert _difference(held(_cow("slight")), bowed, HOCKS).difference == 3.0


def test_departures_without_an_order_are_compared_as_words():
    first = held(grade("croup-tail.natural", "slight", point="croup-tail.carriage"))
    second = held(grade("croup-tail.curled", "slight", point="croup-tail.carriage"), name="Bea")
    found = _difference(first, second, "croup-tail.carriage")
    assert (found.difference, found.verdict) == (None, "real")
    assert "no figure" in difference_sentence(found)


def test_a_finding_accepted_from_a_note_is_an_answer_where_its_fault_belongs():
    noted = held(
        '[[notes]]\ntext = "a bit cow hocked"\n'
        '[[notes.findings]]\nfault = "hindquarters.cow-hocks"\ndegree = "slight"\n'
    )
    answer = answer_at(noted, RULESET.points[HOCKS])
    assert (answer.position, answer_words(answer, RULESET)) == (-1, "cow hocks, slight")


def test_choices_by_their_words():
    same = _difference(
        held(chosen("mouth.bite", "scissors")), held(chosen("mouth.bite", "scissors"), name="B"), "mouth.bite"
    )
    other = _difference(
        held(chosen("mouth.bite", "scissors")), held(chosen("mouth.bite", "level"), name="B"), "mouth.bite"
    )
    assert (same.verdict, same.differs) == ("within-hand-error", False)
    assert (other.verdict, other.differs) == ("real", True)


def test_half_a_kilo_overnight_is_what_weight_varies_by():
    """30 kg with a scale good to 0.16 kg: beyond what two weighings differ by, within 1 % a day on top."""
    first = held(take("weight", 30.0), name="Ada", on="2026-05-02")
    second = held(take("weight", 30.5), name="Ada", on="2026-05-03")
    found = _difference(first, second, "weight")
    assert found.verdict == "day-to-day"
    told = difference_sentence(found)
    assert "more than hand error" in told
    assert "less than a dog's weight moves with food, water and emptying" in told


def test_half_a_kilo_overnight_of_a_young_dog_is_no_growth_either():
    rules = Library([shipped_rulesets()]).load("hovawart-fci-190")
    first, second = (
        held(take("weight", kilos), name="Ada", born="2024-12-01", on=day, ruleset=rules)
        for kilos, day in ((32.5, "2026-05-02"), (32.0, "2026-05-03"))
    )
    assert _difference(first, second, "weight").verdict == "day-to-day"


def test_a_grown_dog_that_lost_two_centimetres_was_measured_otherwise():
    first, second = (
        held(take("height", size), born="2018-01-01", on=day)
        for size, day in ((63.0, "2024-05-02"), (61.0, "2025-05-03"))
    )
    found = _difference(first, second, "height")
    assert (found.verdict, found.unexpected) == ("does-not-shrink", True)
    assert "a length of a grown dog does not shrink" in difference_sentence(found)
