"""The order of dogs by class, how often it holds, and which answers it depends on."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from hands_on.compare.dogs.chances import Shared, draw
from hands_on.compare.dogs.class_rank import ClassRanking
from hands_on.compare.dogs.drawn_measures import draw_limits
from hands_on.compare.dogs.order import order
from hands_on.compare.dogs.order_found import Order, OrderRemark
from hands_on.compare.dogs.places import _kept, columns_of, places_of
from hands_on.compare.examined import examined
from hands_on.store.library import Library
from hands_on.wording.order import answer_label, order_sentences
from tests.compare.build import PLAIN, RULESET, asked, chosen, held
from tests.compare.cases import CASES
from tests.compare.ordered import (
    CARRIAGE,
    HOCKS,
    ada_with,
    bea_with,
    cow_hocks,
    curled_tail,
    dog_with,
    places_in,
)
from tests.evaluate.build import take


def test_first_places_of_values_with_uncertainty():
    # ranking-four-values: exact by quadrature; 40,000 draws scatter by 0.0025 (one standard deviation).
    case = CASES["ranking-four-values"]
    chance = random.Random(1)
    inputs = case["inputs"]
    drawn = [
        [-chance.gauss(x, u) for _ in range(40_000)]
        for x, u in zip(inputs["values"], inputs["u"], strict=True)
    ]
    found = places_of(columns_of(drawn))
    firsts = [row[0] for row in found.shares]
    assert firsts == pytest.approx(case["expected"]["p_first"], abs=0.01)
    assert found.before[0][1] == pytest.approx(case["expected"]["p_1_over_2"], abs=0.01)
    for row, column in zip(found.shares, zip(*found.shares, strict=True), strict=True):
        assert sum(row) == pytest.approx(1.0)
        assert sum(column) == pytest.approx(1.0)


def test_dogs_that_tie_share_their_places():
    found = places_of(columns_of([[1, 1], [1, 1], [0, 2]]))
    assert found.shares[0] == pytest.approx((0.25, 0.5, 0.25))
    assert found.before[0][1] == 0.5


def test_heavier_classes_come_before_more_of_a_lighter_one():
    # marked cow hocks are severe in the test edition, a curled tail a fault.
    severe = ada_with(cow_hocks("marked") + asked(CARRIAGE))
    two_faults = bea_with(cow_hocks("slight") + curled_tail("extreme"))
    assert places_in(order([severe, two_faults])) == {"Bea": 1, "Ada": 2}


def test_disqualifying_comes_before_everything():
    out = ada_with(take("height", 75.0, 75.0, 75.0) + asked(HOCKS) + asked(CARRIAGE))
    worse = bea_with(take("height", 62.0) + cow_hocks("extreme") + curled_tail("extreme"))
    assert places_in(order([out, worse])) == {"Bea": 1, "Ada": 2}
    ranking = ClassRanking(RULESET)
    assert ranking.order[0] == ("out",)
    assert ranking.place(ranking.of(out.evaluation)) > ranking.place(ranking.of(worse.evaluation))


def test_degrees_decide_between_equal_counts():
    assert places_in(order([ada_with(curled_tail("moderate")), bea_with(curled_tail("slight"))])) == {
        "Bea": 1,
        "Ada": 2,
    }


def test_a_tie_is_said():
    found = order([ada_with(curled_tail("slight")), bea_with(curled_tail("slight"))])
    assert [(one.place, one.tied) for one in found.dogs] == [(1, True), (1, True)]
    assert found.p_order is None
    assert found.dogs[0].p_place[0] == pytest.approx(0.5, abs=0.03)


def test_an_order_that_many_draws_keep_is_settled():
    found = order(
        [ada_with(cow_hocks("extreme") + take("height", 75.0)), bea_with(asked(HOCKS) + take("height", 62.5))]
    )
    assert found.settled
    assert found.dogs[0].dog == "Bea"
    assert found.dogs[0].p_before_next >= found.sure == 0.975


def test_a_first_place_that_depends_on_one_degree_is_uncertain_and_the_answer_is_named():
    found = order([ada_with(curled_tail("slight")), bea_with(curled_tail("moderate"))])
    assert found.dogs[0].dog == "Ada"
    assert not found.settled
    assert set(map(answer_label, found.depends_on)) == {"Curled tail, slight", "Curled tail, moderate"}
    for one in found.depends_on:
        assert one.p_if_held > one.p_otherwise


def test_two_grades_that_vary_independently_give_the_probability_worked_by_hand():
    # Ada slight, Bea moderate; each right 0.8, one less 0.1, one more 0.1. Ada stays before Bea in:
    # Ada none (0.1) and Bea any but none: always; Ada slight (0.8) and Bea moderate or marked (0.9);
    # Ada moderate (0.1) and Bea marked (0.1): 0.1 + 0.72 + 0.01 = 0.83. They tie in slight and slight (0.08),
    # moderate and moderate (0.08), which is half an order each time: 0.91.
    found = order([ada_with(curled_tail("slight")), bea_with(curled_tail("moderate"))], draws=20_000)
    assert found.p_order == pytest.approx(0.91, abs=0.01)
    assert found.p_first == pytest.approx(found.p_order), "of two dogs the two are one"
    assert found.dogs[0].p_before_next == pytest.approx(found.p_order)


def test_a_slight_departure_overlooked_at_points_as_asked_once_in_fifty():
    # Ada has a slight fault (none 0.1, moderate 0.1), Bea none at a point as asked that in 0.02 of draws gets
    # a slight one. Bea stays before Ada in 0.9 x 0.98 and in 0.1 x 0.02 (moderate and slight); they tie in
    # 0.1 x 0.98 and 0.8 x 0.02: 0.884 + 0.114 / 2 = 0.941. Were nothing overlooked: 0.9 + 0.1 / 2.
    found = order([ada_with(cow_hocks("slight")), bea_with(asked(HOCKS))], draws=20_000)
    assert found.p_order == pytest.approx(0.941, abs=0.01)
    without = {one.kind: one.p_without for one in found.assumptions}
    assert without["degrees"] == pytest.approx(0.98 + 0.02 / 2, abs=0.01)
    kinds = order([ada_with(cow_hocks("slight")), bea_with(asked(HOCKS))], draws=20_000, seed="2").assumptions
    assert kinds[0].kind == "degrees", "the assumption that matters most comes first"


def test_an_unsure_finding_is_there_every_other_time():
    unsure = ada_with(curled_tail("slight", more='status = "unsure"') + cow_hocks("slight"))
    sure = bea_with(curled_tail("slight") + cow_hocks("slight"))
    found = order([unsure, sure], draws=20_000)
    assert places_in(found) == {"Ada": 1, "Bea": 2}
    assert found.dogs[0].unsure == 1
    named = next(one for one in found.depends_on if "unsure" in answer_label(one))
    # If it is there it takes Ada's first place away. It is there in half of all draws, less the one in ten
    # in which a slight one is none.
    assert named.p_if_held < named.p_otherwise
    assert 1 - named.p_changes == pytest.approx(0.5 * 0.9, abs=0.01)


def test_of_dogs_that_tie_the_one_more_often_first_is_listed_first():
    doubtful = ada_with(curled_tail("marked", more='status = "unsure"') + asked(HOCKS))
    found = order([doubtful, bea_with(asked(CARRIAGE) + asked(HOCKS))])
    assert [(one.dog, one.place, one.tied) for one in found.dogs] == [("Bea", 1, True), ("Ada", 1, True)]
    assert found.dogs[0].p_place[0] > found.dogs[1].p_place[0]


def test_a_measurement_near_a_limit_varies_by_its_uncertainty():
    # 64.8 with u 0.5: over 65 with probability 0.345 (standard normal 0.4 u above).
    near = ada_with(take("height", 64.8))
    clear = bea_with(take("height", 62.5), by="B. Example")
    found = order([near, clear], draws=20_000)
    ada = next(one for one in found.dogs if one.dog == "Ada")
    # Ada loses first place where she is over; otherwise they tie and share it.
    assert ada.p_place[0] == pytest.approx((1 - 0.3446) / 2, abs=0.015)


@pytest.mark.parametrize(("by", "correlation"), [("A. Example", 0.32), ("B. Example", 0.0)])
def test_one_hand_moves_all_dogs_together(by, correlation):
    # Two dogs 0.4 u below a limit: how often both are over it, by scipy's bivariate normal. Half of the
    # lasting variance (0.64 of it all) is shared by one hand.
    stats = pytest.importorskip("scipy.stats")
    both = stats.multivariate_normal.cdf([-0.4, -0.4], cov=[[1, correlation], [correlation, 1]])
    ranking, shared, n = ClassRanking(RULESET), Shared(), 20_000
    drawn = [
        draw(one, ranking, n, one.name, shared).places
        for one in (ada_with(take("height", 64.8)), bea_with(take("height", 64.8), by=by))
    ]
    over = sum(any(a) and any(b) for a, b in zip(*drawn, strict=True)) / n
    assert over == pytest.approx(both, abs=0.01)


def test_the_same_sessions_give_the_same_order_however_they_are_listed():
    dogs = [
        ada_with(curled_tail("slight") + asked(HOCKS) + take("height", 64.8)),
        bea_with(cow_hocks("slight") + asked(CARRIAGE)),
        dog_with("C", curled_tail("marked") + asked(HOCKS)),
    ]
    there, back = order(dogs), order(dogs[::-1])
    assert {one.dog: one.p_place for one in there.dogs} == {one.dog: one.p_place for one in back.dogs}
    assert there.p_order == back.p_order
    assert order(dogs) == there
    assert order(dogs, seed="another") != there


def test_too_young_findings_do_not_count_and_are_remarked_on():
    young = ada_with(take("height", 50.0) + asked(CARRIAGE), born="2024-01-01")
    found = order([young, bea_with(curled_tail("slight") + take("height", 62.0))])
    assert places_in(found) == {"Ada": 1, "Bea": 2}
    assert OrderRemark("too-young", "Ada", 1) in found.remarks


@pytest.mark.parametrize(
    ("dogs", "reason", "told"),
    [
        ([held(name="Ada"), held(name="Bea", ruleset=PLAIN)], "different-editions", "different editions"),
        ([held(name="Ada"), held(name="Ada", by="B. Example")], "one-dog", "of one dog"),
        (
            [held(name="Ada"), held(name="Bea"), held(name="Ada", by="B. Example")],
            "dog-twice",
            "among them twice",
        ),
        ([held(name="Ada")], "too-few", "two dogs at least"),
    ],
)
def test_where_there_is_no_order_it_is_said(dogs, reason, told):
    found = order(dogs)
    assert found == Order(no_order=reason)
    (sentence,) = order_sentences(found, dogs)
    assert sentence.startswith("No order: ")
    assert told in sentence


RULESETS = Path(__file__).parents[2] / "rulesets"


def _spotless(rules, sex):
    """A dog as asked in every grade, choice and measurement with a limit."""
    middles = {
        limit.measure: ((limit.asked.from_ + limit.asked.to) / 2, limit.unit or "")
        for limit in rules.edition.limits
        if limit.measure and limit.asked and limit.asked.from_ is not None and limit.asked.to is not None
        if limit.when is None or limit.when.sex in (None, sex)
    }
    answers = ""
    for point in rules.walk_points:
        if point.kind in ("grade", "scale"):
            answers += asked(point.id)
        elif point.kind == "choice":
            right = next((option.id for option in point.options if not option.fault), None)
            answers += chosen(point.id, right) if right else ""
        elif point.id in middles:
            value, unit = middles[point.id]
            answers += take(point.id, value, unit=unit)
    return held(answers, sex=sex, ruleset=rules)


@pytest.mark.parametrize("edition_id", sorted(path.stem for path in RULESETS.glob("*.toml")))
def test_a_disqualification_of_a_spotless_dog_is_drawn_in_no_draw(edition_id):
    # Albino coats, wall eyes and the like lie off every scale; most editions disqualify for some of them.
    rules = Library([RULESETS]).load(edition_id)
    for sex in ("male", "female"):
        one = _spotless(rules, sex)
        places = draw(one, ClassRanking(rules), 4000, "spotless", Shared()).places
        assert not any(out for out, _ in places)
        assert any(weight for _, weight in places), "something is overlooked now and then"


def test_a_few_takes_are_drawn_with_their_own_doubt():
    # Far out the tails of Student's t tell: 2.4 standard uncertainties below a limit, with the degrees of
    # freedom of one take (16.06), by scipy's t; by a normal it would be 0.0082.
    stats = pytest.importorskip("scipy.stats")
    one = ada_with(take("height", 65 - 2.4 * 0.5))
    (found,) = one.measures.by_point["height"].sides.values()
    expected = stats.t.sf(1.2 / found.u, found.dof)
    n = 100_000
    over = sum(any(place) for place in draw(one, ClassRanking(RULESET), n, "t", Shared()).places) / n
    assert expected == pytest.approx(0.0145, abs=0.001)
    assert over == pytest.approx(expected, abs=0.0012)


def test_a_landmark_that_two_lengths_share_moves_both_in_a_draw():
    # The stop lies between muzzle and skull: drawn as it is judged, a share of the two scatters as its own
    # uncertainty says, which counts the shared landmark.
    rules = Library([RULESETS]).load("hovawart-fci-190")
    one = held(take("muzzle-length", 10.4) + take("skull-length", 11.2), ruleset=rules)
    rule = next(rule for rule in one.evaluation.rules if rule.measures == ("muzzle-length", "skull-length"))
    inside = rule.ladder[0].p
    assert 0.05 < inside < 0.95
    (drawn,) = draw_limits(one, ClassRanking(rules), 20_000, "stop", {}, None, ()).limits
    assert sum(not any(drawn.places[rung]) for rung in drawn.rungs) / 20_000 == pytest.approx(
        inside, abs=0.02
    )


def test_the_order_is_shown_over_a_range_of_what_is_assumed():
    found = order([ada_with(curled_tail("slight")), bea_with(curled_tail("moderate"))], draws=20_000)
    # Degrees right 0.7 and 0.9, by the sum worked above: 0.7675 + 0.21 / 2 and 0.9075 + 0.09 / 2.
    assert found.p_order_range == (pytest.approx(0.8725, abs=0.01), pytest.approx(0.9525, abs=0.01))
    assert found.p_order_range[0] < found.p_order < found.p_order_range[1]
    assert found.p_first_range == pytest.approx(found.p_order_range), "of two dogs the two are one"


def test_a_tie_has_no_place_before_and_a_single_first_does_not_tie():
    found = order(
        [ada_with(curled_tail("slight") + asked(HOCKS)), bea_with(curled_tail("moderate") + asked(HOCKS))]
    )
    assert [(one.place, one.tied, one.unsure) for one in found.dogs] == [(1, False, 0), (2, False, 0)]
    assert found.dogs[1].p_before_next is None
    tied = order(
        [ada_with(curled_tail("slight") + asked(HOCKS)), bea_with(curled_tail("slight") + asked(HOCKS))]
    )
    assert [(one.place, one.tied) for one in tied.dogs] == [(1, True), (1, True)]


def test_places_of_draws_counted_by_hand():
    """Three draws: first before second, second before first, a tie; a third dog always last."""
    found = places_of(columns_of([[1, 2, 1], [2, 1, 1], [3, 3, 3]]))
    assert found.shares[0] == found.shares[1] == (0.5, 0.5, 0.0)
    assert found.shares[2] == (0.0, 0.0, 1.0)
    assert found.before[0] == (0.5, 0.5, 1.0)
    assert found.before[2] == (0.0, 0.0, 0.5)


def test_each_dog_stands_before_the_one_listed_next_as_often_as_before_it_in_all_draws():
    dogs = [
        ada_with(asked(HOCKS) + asked(CARRIAGE)),
        bea_with(asked(HOCKS) + curled_tail("slight")),
        dog_with("Cid", asked(HOCKS) + curled_tail("extreme")),
    ]
    first, second, last = order(dogs).dogs
    assert [one.dog for one in (first, second, last)] == ["Ada", "Bea", "Cid"]
    pair = order([dogs[0], dogs[1]]).dogs[0]
    assert first.p_before_next == pytest.approx(pair.p_before_next, abs=0.02)
    assert second.p_before_next > 0.99, "slight and extreme are three degrees apart"
    assert last.p_before_next is None


def test_the_order_is_settled_from_the_bound_on():
    assert Order(p_order=Order().sure).settled
    assert not Order(p_order=Order().sure - 1e-9).settled
    assert not Order().settled


def test_two_dogs_of_one_name_are_drawn_apart_and_the_same_however_they_are_listed():
    def dog(chip):
        one = dog_with("Ada", curled_tail("slight") + asked(HOCKS))
        named = one.session.dog.model_copy(update={"chip": chip})
        return examined(one.ruleset, one.session.model_copy(update={"dog": named}), name=f"{chip}.toml")

    first, second = dog("999000000000001"), dog("999000000000002")
    there, back = order([first, second]), order([second, first])
    assert 0 < there.dogs[0].p_place[0] < 1
    assert there.dogs[0].p_place != there.dogs[1].p_place, "what errs in one need not err in the other"
    places = {one.index: one.p_place for one in there.dogs}
    assert {1 - one.index: one.p_place for one in back.dogs} == places


def test_what_is_assumed_is_named_by_what_it_does_to_the_whole_order_and_only_where_it_does_something():
    # Were nothing overlooked, with degrees right 0.8, one less or more 0.1 each, Ada none, Bea slight, Cid
    # moderate: Bea slight 0.8 x (0.9 + 0.1 / 2), none 0.1 / 2, moderate 0.1 x (0.1 + 0.8 / 2) = 0.86.
    found = order(
        [
            ada_with(asked(HOCKS) + asked(CARRIAGE)),
            bea_with(asked(HOCKS) + curled_tail("slight")),
            dog_with("Cid", asked(HOCKS) + curled_tail("moderate")),
        ],
        draws=20_000,
    )
    without = {one.kind: one.p_without for one in found.assumptions}
    assert without.keys() == {"degrees", "overlooked"}, "nothing was measured, nothing is unsure"
    assert without["overlooked"] == pytest.approx(0.86, abs=0.01)
    pairs = zip(found.p_order_range, found.p_first_range, strict=True)
    assert all(whole < first for whole, first in pairs), "the first of three places alone holds more often"


@pytest.mark.parametrize(
    ("places", "share"),
    [
        ((1, 2, 3), 1.0),
        ((1, 3, 2), 0.0),
        ((2, 1, 1), 0.0),
        ((1, 1, 2), 1 / 2),
        ((1, 2, 2), 1 / 2),
        ((1, 1, 1), 1 / 6),
    ],
)
def test_of_dogs_that_tie_in_a_draw_every_order_counts_alike(places, share):
    """Three dogs recorded one after the other; of the orders of those that tie one in so many keeps that."""
    assert _kept(places, [(0, 1), (0, 2), (1, 2)]) == pytest.approx(share)


def test_of_dogs_that_tie_as_recorded_either_may_stand_first():
    """The second and the third were recorded alike: the first stays before both in two orders of six."""
    assert _kept((1, 1, 1), [(0, 1), (0, 2)]) == pytest.approx(1 / 3)
