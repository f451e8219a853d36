"""What a computed value is called: the labels of its members, put together."""

from __future__ import annotations

from hands_on.ruleset.labels import Label, label_of
from hands_on.ruleset.values import Value
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.labels import label_words, value_words

RULES = Library([shipped_rulesets()]).load("any-dog")


def value(**parts: object) -> Value:
    return Value.model_validate(parts)


def test_a_measurement_is_called_by_its_point_and_an_unknown_one_by_its_id():
    assert value_words(RULES, value(measure="chest-depth")) == RULES.points["chest-depth"].label
    assert value_words(RULES, value(measure="no-such-point")) == "no-such-point"


def test_a_value_with_a_name_is_called_by_it_whoever_writes_it_out():
    derived = next(one for one in RULES.derived.values() if one.ratio is not None)
    assert label_of(RULES, derived) == Label(derived.label)
    assert label_of(RULES, value(ratio=derived.ratio)) == Label(derived.label)


def test_the_labels_of_the_members_stand_with_the_sign_between():
    pair = ["head-length", "hock-height"]
    first, second = (RULES.points[name].label for name in pair)
    second = second[:1].lower() + second[1:]
    assert value_words(RULES, value(ratio=pair)) == f"{first} to {second}"
    assert value_words(RULES, value(difference=pair)) == f"{first} less {second}"
    assert value_words(RULES, value(sum=pair)) == f"{first} and {second}"
    nested = value(ratio=[{"sum": pair}, "no-such-point"])
    assert value_words(RULES, nested) == f"{first} and {second} to no-such-point"
    assert label_of(RULES, nested).labels == (first, RULES.points["hock-height"].label, "no-such-point")


def test_the_side_stands_behind_and_nothing_is_called_nothing():
    assert label_words(Label("Hock angle", side="left")) == "Hock angle (left)"
    assert not Label()
    assert label_words(Label()) == ""
