"""What dogs are compared on, and by which rule they are put in order."""

from __future__ import annotations

from pathlib import Path

from hands_on.compare.dogs.class_rank import ClassRanking
from hands_on.compare.dogs.order import _counts, order
from hands_on.store.library import Library
from hands_on.wording.order import order_sentences
from tests.compare.build import PLAIN, RULES, asked, held
from tests.compare.ordered import (
    CARRIAGE,
    HOCKS,
    OTHERS,
    ada_with,
    bea_with,
    cow_hocks,
    curled_tail,
    places_in,
)
from tests.evaluate.build import edition, grade, take


def test_a_dog_never_examined_is_not_first():
    found = order([held(name="Ada"), bea_with(curled_tail("slight") + asked(HOCKS))])
    assert (found.no_order, found.dogs) == ("too-little-in-common", ())
    told = list(order_sentences(found, [held(name="Ada"), bea_with(curled_tail("slight") + asked(HOCKS))]))
    assert told[0] == "No order: less than 50% of what is asked was answered for all of them."
    assert told[1].startswith("In common are 0 of")


def test_what_one_dog_alone_was_examined_at_counts_for_nobody_and_is_listed():
    ada = ada_with(curled_tail("slight") + cow_hocks("extreme"))
    bea = bea_with(curled_tail("moderate"))
    found = order([ada, bea])
    assert places_in(found) == {"Ada": 1, "Bea": 2}
    assert ("Hocks", (0,)) in found.basis.rest
    assert HOCKS not in found.basis.points
    assert any(
        "Not compared: " in text and "Hocks (Ada only)" in text for text in order_sentences(found, [ada, bea])
    )


def test_a_departure_counts_by_class_and_in_proportion_to_its_degree():
    # By number Ada has two findings; two slight ones of the lightest class weigh as a moderate one, less than
    # a marked one (2 x 1 + 2 x 1 = 4 against 2 x 3 = 6).
    ada, bea = (
        ada_with(curled_tail("slight") + cow_hocks("slight")),
        bea_with(curled_tail("marked") + asked(HOCKS)),
    )
    found = order([ada, bea])
    assert places_in(found) == {"Ada": 1, "Bea": 2}
    assert dict(found.otherwise)["number"] == ("Bea",)
    told = list(order_sentences(found, [ada, bea]))
    assert any(text.startswith("By the number of findings alone Bea is first") for text in told)
    assert any("times the degree (slight 1, moderate 2, marked 3, extreme 4" in text for text in told)


def test_the_rule_stands_in_the_edition():
    rule = (
        '[placing]\nweights = { undesirable = 1, fault = 1, severe = 1, unclassed = 1 }\nsource = "reading"\n'
    )
    flat = edition(rule + RULES)
    dogs = [
        held(cow_hocks("marked") + asked(CARRIAGE) + OTHERS, name="Ada", ruleset=flat),
        held(cow_hocks("slight") + curled_tail("extreme") + OTHERS, name="Bea", ruleset=flat),
    ]
    # A severe fault weighs no more than another here: 3 against 1 + 4.
    assert places_in(order(dogs)) == {"Ada": 1, "Bea": 2}


def test_a_finding_that_disqualifies_counts_wherever_it_was_made():
    out = ada_with(take("height", 75.0, 75.0, 75.0) + asked(HOCKS))
    found = order([out, bea_with(cow_hocks("slight"))])
    assert "height" not in found.basis.points
    assert places_in(found) == {"Bea": 1, "Ada": 2}
    assert found.dogs[0].p_before_next == 1.0
    assert found.depends_on == (), "the degree of the hocks varies and moves nothing"


def test_a_point_that_is_not_asked_of_a_dog_leaves_nothing_open_in_it():
    rules = edition('[walk]\nmeasures = []\n[walk.when]\n"croup-tail.carriage" = { sex = "male" }\n' + RULES)
    male = held(curled_tail("marked") + asked(HOCKS) + OTHERS, name="Ada", sex="male", ruleset=rules)
    female = held(asked(HOCKS) + OTHERS, name="Bea", ruleset=rules)
    found = order([male, female])
    assert CARRIAGE in found.basis.points
    assert places_in(found) == {"Bea": 1, "Ada": 2}


def test_half_of_what_is_asked_is_enough_for_an_order():
    """Six points without a limit: type, condition, bite, teeth, hocks, carriage; three are answered."""
    three = asked(HOCKS) + asked(CARRIAGE) + asked("general.type")
    half = order([held(three, name="Ada", ruleset=PLAIN), held(three, name="Bea", ruleset=PLAIN)])
    assert (half.basis.asked, half.basis.share, half.no_order) == (6, 0.5, None)


def test_half_of_what_is_asked_with_what_is_too_young_is_too_young_and_less_is_too_little():
    """Of the six points three, or two, are answered; at one of them one dog is too young to be judged."""
    for points, why in (((CARRIAGE, HOCKS), "too-young"), ((CARRIAGE,), "too-little-in-common")):
        answers = grade("general.odd", "slight", point="general.type") + "".join(map(asked, points))
        grown, young = (
            held(answers, name=name, born=born, ruleset=PLAIN)
            for name, born in (("Ada", "2020-01-01"), ("Bea", "2024-01-01"))
        )
        found = order([grown, young])
        assert len(found.basis.too_young) == 1
        assert (found.basis.asked, found.no_order) == (6, why)


def test_without_an_order_nothing_is_counted():
    one_dog = order([held(name="Ada")])
    assert (one_dog.basis.asked, one_dog.basis.share) == (0, 0.0)
    strangers = order([ada_with(curled_tail("slight")), bea_with(curled_tail("marked"), by="B. Example")])
    (remark,) = strangers.remarks
    assert (remark.kind, remark.dog, remark.count) == ("different-evaluators", "", 0)


def test_classes_are_counted_apart_and_no_class_is_counted_that_the_edition_has_not():
    rules = Library([Path(__file__).parents[2] / "rulesets"]).load("any-dog")
    assert not any(entry.disqualifies for entry in rules.edition.classes), "nothing to count at the top"
    ranking = ClassRanking(rules)
    assert [names for names, _ in _counts(ranking.nothing, ranking)] == [
        (entry.id,)
        for entry in sorted(
            rules.edition.classes, key=lambda entry: (not entry.ladder, -rules.rank(entry.id))
        )
    ]
