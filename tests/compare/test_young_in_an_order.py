"""A dog is not put before others for being too young to be judged."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from hands_on.compare.dogs.basis import basis_of
from hands_on.compare.dogs.order import order
from hands_on.compare.dogs.side_by_side import side_by_side
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.library import Library
from hands_on.wording.dogs import difference_mark, same_sentence
from hands_on.wording.order import order_sentences
from tests.compare.build import asked, chosen, held
from tests.evaluate.build import grade, take

RULESETS = Path(__file__).parents[2] / "rulesets"
EDITIONS = sorted(path.stem for path in RULESETS.glob("*.toml"))
EXAMINED = "2024-06-01"
BORN = {"grown": "2020-01-01", "5 months": "2024-01-01", "13 months": "2023-05-01"}


def _answers(rules: Ruleset, seed: int, short: float = 5.0) -> str:
    """A dog examined throughout: one graded point in five departs, the height is `short` of what is asked."""
    chance = random.Random(seed)
    answers = ""
    for point in rules.walk_points:
        if point.kind == "grade":
            faults = (*point.less, *point.more)
            departs = faults and chance.random() < 0.2
            degree = chance.choice(["slight", "moderate", "marked"])
            answers += grade(chance.choice(faults), degree, point=point.id) if departs else asked(point.id)
        elif point.kind == "scale":
            answers += asked(point.id)
        elif point.kind == "choice":
            right = next((option.id for option in point.options if not option.fault), None)
            answers += chosen(point.id, right) if right else ""
        elif point.id == "height":
            limit = next(one for one in rules.edition.limits if one.measure == "height" and one.asked)
            answers += take("height", (limit.asked.from_ or 50) - short, unit=limit.unit or "")
    return answers


@pytest.mark.parametrize("age", ["5 months", "13 months"])
@pytest.mark.parametrize("edition_id", ["hovawart-fci-190", "rottweiler-fci-147"])
def test_of_two_dogs_alike_the_young_one_is_not_before_the_other(edition_id, age):
    rules = Library((RULESETS,)).load(edition_id)
    for seed, short in ((0, 5.0), (1, 0.5)):
        answers = _answers(rules, seed, short)
        grown = held(answers, name="Ada", sex="male", born=BORN["grown"], on=EXAMINED, ruleset=rules)
        young = held(answers, name="Bea", sex="male", born=BORN[age], on=EXAMINED, ruleset=rules)
        assert any(f.too_young for f in young.evaluation.findings)
        found = order([grown, young], draws=500)
        if found.no_order is None:
            assert [one.place for one in found.dogs] == [1, 1]
            assert found.p_first == pytest.approx(1.0)  # either may stand first
            assert found.dogs[0].p_place[0] == pytest.approx(0.5, abs=0.1)
        else:
            assert found.no_order in ("too-young", "too-young-for-what-disqualifies")


def test_what_one_dog_is_too_young_for_counts_in_none_and_is_listed():
    rules = Library((RULESETS,)).load("hovawart-fci-190")
    answers = _answers(rules, 0)
    grown = held(answers, name="Ada", sex="male", born=BORN["grown"], on=EXAMINED, ruleset=rules)
    young = held(answers, name="Bea", sex="male", born=BORN["5 months"], on=EXAMINED, ruleset=rules)
    basis, common = basis_of([grown, young])
    alone, of_grown = basis_of([grown, held(answers, name="Cleo", sex="male", on=EXAMINED, ruleset=rules)])
    assert not alone.too_young
    assert not of_grown.too_young
    assert "chest.shallow" in common.too_young
    assert "chest.depth" not in basis.points
    assert "chest.depth" in alone.points
    assert "Depth of chest" in basis.too_young
    # Close-set eyes have no age from which they are judged.
    assert "eyes.close-set" not in common.too_young
    found = order([grown, young], draws=50)
    assert found.no_order == "too-young"
    told = list(order_sentences(found, [grown, young]))
    assert told[0].startswith("No order: one of them is too young for so much")
    assert any(text.startswith("One of them is too young for these") for text in told)


@pytest.mark.parametrize("edition_id", EDITIONS)
def test_what_is_the_same_today_is_told_with_the_age_of_the_one_too_young(edition_id):
    """All as asked in a grown dog and in a puppy: where it is too young that says little."""
    rules = Library((RULESETS,)).load(edition_id)
    answers = "".join(asked(point.id) for point in rules.walk_points if point.kind == "grade")
    pair = [
        held(answers, name=name, sex="male", born=born, on=EXAMINED, ruleset=rules)
        for name, born in (("Ada", BORN["grown"]), ("Bea", BORN["5 months"]))
    ]
    found = side_by_side(pair)
    young = {row.id for row in found.rows if row.answers[1].too_young is not None}
    assert young
    marks = {row.id: difference_mark(row) for row in found.rows if row.given}
    assert set(marks.values()) == {"the same", "the same, one too young"}
    assert {name for name, mark in marks.items() if mark.endswith("too young")} == young
    assert f"At {len(young)} of them Bea (5 months) is too young to judge" in same_sentence(found)
    assert "too young" not in same_sentence(side_by_side([pair[0], pair[0]]))
