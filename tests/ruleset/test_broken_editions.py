"""One mistake a time in a sound edition: each is found, on its line, with what would be right."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.ruleset.assemble import assemble_common, read_common_file, read_edition_file
from hands_on.ruleset.check import check_edition
from tests.broken import WRONG, assert_said, cases, values

DATA = Path(__file__).parents[1] / "data"
FILE = "moor-hound.toml"
GOOD = (DATA / "rulesets" / FILE).read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def common():
    files = sorted((DATA / "rulesets" / "common").glob("*.toml"))
    return assemble_common(read_common_file(file.read_text(encoding="utf-8"), file.name) for file in files)


def elsewhere(name):
    """The other editions of the folder: one builds on the edition checked, one is broken."""
    if name == "ring-hound":
        ring = GOOD.replace("moor-hound", "ring-hound").replace(
            'builds_on = "common"', 'builds_on = "moor-hound"'
        )
        return read_edition_file(ring, name)
    if name == "broken-hound":
        return read_edition_file("format = 1\nid =", "broken-hound.toml")
    return None


def test_the_sound_edition_has_no_problem(common):
    assert check_edition(GOOD, FILE, common, elsewhere) == []


@pytest.mark.parametrize("broken", cases(DATA / "broken_editions.toml"), ids=lambda broken: broken.name)
def test_each_mistake_is_named_with_its_line_and_what_would_be_right(broken, common):
    text = broken.text(GOOD)
    assert_said(check_edition(text, FILE, common, elsewhere), broken, text, FILE)


@given(cut=st.integers(0, len(GOOD)), length=st.integers(1, 200))
def test_whatever_is_lost_from_a_file_the_check_answers_within_its_lines(common, cut, length):
    text = GOOD[:cut] + GOOD[cut + length :]
    for problem in check_edition(text, FILE, common, elsewhere):
        assert problem.right
        assert 1 <= (problem.line or 1) <= text.count("\n") + 1


@given(place=st.sampled_from(values(GOOD)), value=st.sampled_from(WRONG))
def test_a_value_of_any_other_kind_gets_an_answer(common, place, value):
    text = GOOD[: place[0]] + value + GOOD[place[1] :]
    for problem in check_edition(text, FILE, common, elsewhere):
        assert problem.what
        assert problem.right
