"""A fault found by what is typed of it."""

from __future__ import annotations

import pytest
from hypothesis import given

from hands_on.ruleset.find_fault import FaultFinder
from hands_on.store import places
from hands_on.store.library import Library
from tests.strategies import texts

RULESET = Library((places.shipped_rulesets(),)).load("hovawart-fci-190")
FINDER = FaultFinder(RULESET)


@pytest.mark.parametrize("name", RULESET.faults)
def test_every_fault_is_first_among_others_of_its_label_when_its_label_is_typed(name):
    label = RULESET.faults[name].label
    found = FINDER.find(label)
    assert RULESET.faults[found[0]].label == label


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("cow", "hindquarters.cow-hocks"), ("cow hoks", "hindquarters.cow-hocks"),
        ("COW HOCKS", "hindquarters.cow-hocks"),
        ("hindquarters.cow-hocks", "hindquarters.cow-hocks"),
        ("steep shou", "forequarters.shoulder-steep"),
        ("undershot", "mouth.undershot"), ("roach", "back.roached"),
    ],
)  # fmt: skip
def test_parts_slips_and_ids_find_it(typed, name):
    assert FINDER.find(typed)[0] == name


def test_every_wording_finds_its_fault():
    for name, fault in RULESET.faults.items():
        for words in fault.wording[:2]:
            assert name in FINDER.find(words)[:12], (name, words)


def test_the_region_on_screen_comes_first_among_equals():
    # Splayed feet are named alike in front and behind.
    assert FINDER.find("splayed", "forefeet")[0] == "forefeet.splayed"
    assert FINDER.find("splayed", "hindfeet")[0] == "hindfeet.splayed"


def test_with_nothing_typed_all_are_there_the_region_first():
    found = FINDER.find("", "ears")
    assert set(found) == set(RULESET.faults)
    ears = [name for name, fault in RULESET.faults.items() if fault.region == "ears"]
    assert list(found[: len(ears)]) == ears


def test_what_is_like_nothing_finds_nothing():
    assert FINDER.find("xqzw vvkk") == ()


@given(texts)
def test_any_text_may_be_typed(text):
    assert set(FINDER.find(text, "head")) <= set(RULESET.faults)
