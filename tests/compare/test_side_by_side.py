"""Two to six sessions side by side."""

from __future__ import annotations

import json

import pytest

from hands_on.compare.dogs.findings import findings_of
from hands_on.compare.dogs.side_by_side import MOST, WrongNumber, side_by_side
from hands_on.compare.examined import examined, labels, same_dog
from hands_on.exam.left_out import on_walk
from hands_on.exam.session import Dog, Grade, RulesetRef, Session, Take
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.documents.dogs import comparison_document
from hands_on.wording.dogs import cell_words, finding_sentences
from tests.compare.build import PLAIN, asked, chosen, held
from tests.evaluate.build import edition, grade, take

HOCKS = "hindquarters.hocks"
COW = grade("hindquarters.cow-hocks", "moderate", point=HOCKS)


def _row(compared, name):
    return next(row for row in (*compared.rows, *compared.proportions) if row.id == name)


def _three():
    return [
        held(take("height", 62.0) + take("body-length", 66.0) + COW, name="Ada"),
        held(take("height", 64.5) + take("body-length", 66.2) + asked(HOCKS), name="Bea"),
        held(take("height", 62.2) + chosen("mouth.bite", "level"), name="Cleo"),
    ]


def test_points_stand_in_the_order_of_the_walk():
    compared = side_by_side(_three())
    walk = [point.id for point in compared.sessions[0].ruleset.walk_points]
    assert [row.id for row in compared.rows if row.id in walk] == walk


def test_the_headline_is_the_widest_real_difference():
    head = _row(side_by_side(_three()), "height").headline
    assert (head.first, head.second, head.difference, head.verdict) == (0, 1, 2.5, "real")


def test_a_point_that_only_one_has_has_no_headline():
    row = _row(side_by_side(_three()), "mouth.bite")
    assert row.headline is None
    assert row.given
    assert not row.differs


def test_proportions_carry_their_uncertainty():
    # 66/62 = 1.0645; u = r sqrt((0.5/66)^2 + (0.5/62)^2) = 0.01178 (JCGM 100:2008, 5.1.2).
    limits = (
        '[[limits]]\nid = "l"\nratio = ["body-length", "height"]\n'
        'asked = { from = 1.0, to = 1.2 }\nsource = "reading"\n'
    )
    compared = side_by_side(
        [
            held(take("height", 62.0) + take("body-length", 66.0), name=n, ruleset=edition(limits))
            for n in ("A", "B")
        ]
    )
    row = _row(compared, "body-length/height")
    assert row.answers[0].value == pytest.approx(66 / 62)
    assert row.answers[0].u == pytest.approx(0.01178, abs=1e-4)
    assert row.headline.verdict == "within-hand-error"


def test_the_filter_leaves_what_differs():
    compared = side_by_side(_three()[:2])
    assert [row.id for row in compared.in_region("hindquarters", only_real=True)] == [HOCKS]
    assert [row.id for row in compared.in_region("general", only_real=True)] == ["height"]
    assert [row.id for row in compared.in_region("general", only_different=True)] == ["height", "body-length"]


def test_findings_are_shared_or_only_some_have_them():
    found = findings_of(_three())
    assert [held_.id for held_ in found.shared] == []
    assert {held_.id: held_.sessions for held_ in found.only} == {
        "hindquarters.cow-hocks": (0,),
        "mouth.level-bite": (2,),
    }
    both = findings_of([held(COW), held(COW, name="Bea")])
    assert [held_.id for held_ in both.shared] == ["hindquarters.cow-hocks"]


def test_what_a_walk_leaves_out_is_told_as_not_examined():
    """What only a whole walk found is not said to be missing in the dog of the shorter one."""
    rules = Library([shipped_rulesets()]).load("hovawart-fci-190")
    begun = Session(dog=Dog(sex="male"), ruleset=RulesetRef(id=rules.id))
    light, steep = "eyes.light", "forequarters.shoulder-steep"
    found = (Grade(point="eyes.colour", fault=light), Grade(point="forequarters.shoulder", fault=steep))
    whole = begun.model_copy(update={"takes": (Take(point="height", value=66.0),), "grades": found})
    right = (Grade(point="forequarters.shoulder", as_asked=True),)
    short = on_walk(begun, rules, "structure").model_copy(update={"grades": right})
    compared = side_by_side([examined(rules, short, name="Arko"), examined(rules, whole, name="Bolt")])
    assert cell_words(compared, _row(compared, "height"), 0) == "(not examined)"
    only = compared.findings.only
    said = finding_sentences(compared.sessions, ["Arko", "Bolt"], compared.findings, only)
    told = {text.partition(":")[0]: text for text in said}
    assert told["Light eyes"].endswith("; not examined: Arko")
    assert "not examined" not in told["Steep shoulder"]


def test_what_was_dismissed_is_no_finding_to_share():
    dismissed = held(COW + '[[decisions]]\nfault = "hindquarters.cow-hocks"\ndecision = "dismiss"\n')
    assert findings_of([dismissed, held(COW, name="Bea")]).shared == ()


def test_different_editions_compare_on_takes_and_grades_and_say_so():
    over = held(take("height", 68.0, 68.0) + COW)
    other = held(take("height", 62.0) + COW, name="Bea", ruleset=PLAIN)
    compared = side_by_side([over, other])
    assert compared.remarks == ("different-editions", "one-hand")
    assert compared.order.no_order == "different-editions"
    assert _row(compared, "height").headline.verdict == "real"
    assert [one.id for one in compared.findings.shared] == ["hindquarters.cow-hocks"]
    # Over height is the edition's limit speaking, not the dog alone.
    assert [one.id for one in compared.findings.by_edition] == ["general.over-height"]
    assert compared.findings.only == ()


@pytest.mark.parametrize("number", [0, 1, MOST + 1])
def test_other_numbers_of_sessions_are_refused(number):
    with pytest.raises(WrongNumber, match=str(number)):
        side_by_side([held(name=f"Dog {n}") for n in range(number)])


def test_the_json_contract():
    # Bite, type, condition, hocks and height are answered for all, or there were no order.
    others = chosen("mouth.bite", "scissors") + asked("body-condition") + asked("general.type")
    dogs = [
        held(take("height", height) + more + others, name=name)
        for name, height, more in (
            ("Ada", 62.0, COW),
            ("Bea", 64.5, asked(HOCKS)),
            ("Cleo", 62.2, asked(HOCKS)),
        )
    ]
    document = json.loads(json.dumps(comparison_document(side_by_side(dogs)), default=str))
    assert [dog["name"] for dog in document["dogs"]] == ["Ada", "Bea", "Cleo"]
    height = next(row for row in document["points"] if row["id"] == "height")
    assert height["values"] == [62.0, 64.5, 62.2]
    assert height["u"] == [0.5, 0.5, 0.5]
    assert (height["difference"], height["verdict"]) == (2.5, "real")
    assert height["p_greater"] > 0.99
    assert set(document["findings"]) >= {"shared", "only"}
    assert all({"dog", "place", "p_place"} <= set(row) for row in document["order"])
    assert [sum(row["p_place"]) for row in document["order"]] == pytest.approx([1.0] * 3)
    assert document["order_basis"]["share"] >= 0.5
    assert document["table"]["level"] == 0.05
    assert not any("score" in key for key in document), "never a bare score"


def test_names_tell_sessions_apart():
    one, two = held(), held(by="B. Example")
    assert labels([one, two]) == ("Ada, A. Example", "Ada, B. Example")
    assert labels([one, held(name="Bea")]) == ("Ada", "Bea")
    assert labels([one, held(on="2025-06-01")]) == ("Ada, 2024-06-01", "Ada, 2025-06-01")
    assert len(set(labels([one, one, one]))) == 3


def test_one_dog_by_its_chip_whatever_it_is_called():
    first, renamed = held(), held(name="Adele")
    assert not same_dog(first, renamed)
    assert same_dog(_chipped(first), _chipped(renamed))


def _chipped(one):
    dog = one.session.dog.model_copy(update={"chip": "999000000000101"})
    return examined(one.ruleset, one.session.model_copy(update={"dog": dog}), name=one.name)


def test_two_dogs_of_one_name_are_told_apart_by_their_birth():
    assert not same_dog(held(born="2020-01-01"), held(born="2021-01-01"))
    assert not same_dog(held(sex="male"), held(sex="female"))
