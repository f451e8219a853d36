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


@pytest.mark.parametrize(
    ("typed", "part"),
    [("short loin", "loin"), ("long loin", "loin"), ("missing testicle", "testicle"), ("light eye", "eye")],
)
def test_nothing_is_offered_that_speaks_of_another_part_than_the_one_typed(typed, part):
    for name in FINDER.find(typed):
        fault = RULESET.faults[name]
        said = " ".join((fault.label, name, fault.meaning, *fault.wording)).casefold()
        assert part in said, name


def test_words_that_no_name_holds_together_still_find_the_likest():
    assert "forequarters.pasterns-weak" in FINDER.find("short pasterns")


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


def test_a_faults_own_label_never_brings_its_opposite_before_it():
    pairs = [(name, other) for name, fault in RULESET.faults.items() for other in fault.opposite]
    assert len(pairs) > 80
    for name, other in pairs:
        for words in (RULESET.faults[name].label, name):
            found = FINDER.find(words, RULESET.faults[other].region)
            assert name in found
            assert other not in found[: found.index(name)], (words, other)


def test_a_label_with_a_word_turned_into_its_opposite_never_brings_that_fault_first():
    """Short for long, low for high: whether or not a fault of that name is known."""
    against = {}
    for one, other in RULESET.opposites:
        against.setdefault(one, set()).add(other)
        against.setdefault(other, set()).add(one)
    asked = 0
    for name, fault in RULESET.faults.items():
        words = fault.label.casefold().replace("-", " ").split()
        for place, word in enumerate(words):
            for opposite in against.get(word, ()):
                asked += 1
                typed = " ".join([*words[:place], opposite, *words[place + 1 :]])
                assert FINDER.find(typed, fault.region)[:1] != (name,), typed
    assert asked > 150


@pytest.mark.parametrize(
    ("typed", "name", "other"),
    [
        ("short loin", "back.loin-short", "back.loin-long"),
        ("long loin", "back.loin-long", "back.loin-short"),
        ("short second thigh", "hindquarters.second-thigh-short", None),
        ("neck set low", "neck.set-low", "neck.set-high"),
        ("high neck set", "neck.set-high", "neck.set-low"),
        ("light bone", "general.bone-fine", "general.bone-coarse"),
        ("narrow front", "forequarters.front-narrow", "forequarters.front-wide"),
    ],
)
def test_the_word_typed_decides_between_opposites(typed, name, other):
    found = FINDER.find(typed)
    assert found[0] == name
    assert other not in found[:3]
