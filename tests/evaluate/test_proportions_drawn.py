"""Probabilities of proportions against dogs drawn landmark by landmark; the grid: tests/bench/ratios.py."""

import math

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.measure.conformity import p_between
from hands_on.measure.derived import Difference, Ratio, Ref, Slope, against
from tests.bench.ratios import editions, placed, shares

DRAWS = 100_000
"""The standard error of a share of draws is 0.0016 at most."""


def test_every_proportion_of_every_edition_is_as_likely_within_as_in_drawn_dogs() -> None:
    """Errors as assumed: Fieller's question with a normal, exact. Sizes good to a quarter: what is told."""
    held: set[tuple[object, ...]] = set()
    for rules in editions():
        dogs = []
        for dog in placed(rules, 1.0, (-1.7, 0.0)):
            asked = dog.limit.asked
            assert asked is not None
            same = (dog.limit.name, asked.low, asked.high, *dog.lengths.values())
            if same not in held:
                held.add(same)
                dogs.append(dog)
        known, doubted = (shares(rules, dogs, DRAWS, doubtful=kind) for kind in (False, True))
        assert [dog.p_normal for dog in dogs] == pytest.approx(list(known), abs=0.006), rules.id
        assert [dog.p_inside for dog in dogs] == pytest.approx(list(doubted), abs=0.01), rules.id
    assert len(held) > 50


def test_the_program_tells_this_probability() -> None:
    rules = next(rules for rules in editions() if rules.id == "hovawart-fci-190")
    for dog in placed(rules, 1.0, (0.6,)):
        takes = [{"point": name, "value": length, "unit": "cm"} for name, length in dog.lengths.items()]
        head = {"ruleset": {"id": rules.id}, "dog": {"sex": "male", "born": "2018-01-01"}, "takes": takes}
        session = Session.model_validate(head | {"examination": {"started": "2024-06-01T09:00:00Z"}})
        told = next(rule for rule in evaluate(rules, session).rules if rule.id == dog.limit.id)
        assert told.p_inside == pytest.approx(dog.p_inside, abs=1e-12)


def test_a_ratio_beyond_its_limit_is_a_difference_below_nought() -> None:
    """Exact for normal lengths: a/b < L where a - L b < 0 (Fieller 1954); first order is 0.02 off here."""
    values, tree = {"a": (5.0, 0.6), "b": (5.0, 0.9)}, Ratio(Ref("a"), Ref("b"))
    for limit in (0.7, 0.8, 1.0, 1.3, 1.6):
        u, _ = against(tree, values, limit)
        exact = 0.5 * math.erfc(-(limit * 5.0 - 5.0) / math.hypot(0.6, limit * 0.9) / math.sqrt(2.0))
        assert p_between(1.0, 9.9, None, limit, against=lambda _, u=u: (u, None)) == pytest.approx(exact)


def test_a_slope_short_of_its_limit_is_a_drop_short_of_the_sine_of_it() -> None:
    values = {"h": (40.0, 0.6), "low": (30.0, 0.5), "c": (15.0, 0.7)}
    tree = Slope(Difference(Ref("h"), Ref("low")), Ref("c"))
    value = math.degrees(math.asin(10.0 / 15.0))
    for limit in (30.0, 45.0, 55.0):
        sine = math.sin(math.radians(limit))
        exact = (15.0 * sine - 10.0) / math.hypot(0.6, 0.5, 0.7 * sine)
        u, slopes = against(tree, values, limit)
        assert (limit - value) / u == pytest.approx(exact)
        assert slopes["h"] > 0 > slopes["low"]


def test_correlation_counts_against_the_limit_too() -> None:
    values, shared = {"a": (10.0, 0.5), "b": (10.0, 0.5)}, {("a", "b"): -0.5}
    u, _ = against(Ratio(Ref("a"), Ref("b")), values, 1.2, shared)
    assert (1.2 - 1.0) / u == pytest.approx(2.0 / math.sqrt(0.25 + 0.36 + 1.2 * 0.25))
