"""One mistake a time in a sound session: each is found, on its line, with what would be right."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.exam.check import check_session, read_session_text
from hands_on.exam.signing import as_signed, digest_of
from hands_on.ruleset.assemble import assemble, assemble_common, read_common_file, read_edition_file
from tests.broken import WRONG, assert_said, cases, values

DATA = Path(__file__).parents[1] / "data"
FILE = "good.toml"
GOOD = (DATA / "sessions" / FILE).read_text(encoding="utf-8")
EDITIONS = ["any-dog", "moor-hound"]


@pytest.fixture(scope="module")
def rules():
    files = sorted((DATA / "rulesets" / "common").glob("*.toml"))
    common = assemble_common(read_common_file(file.read_text(encoding="utf-8"), file.name) for file in files)
    path = DATA / "rulesets" / "moor-hound.toml"
    return assemble([read_edition_file(path.read_text(encoding="utf-8"), path.name)], common)


def test_the_sound_session_has_no_problem(rules):
    assert check_session(GOOD, FILE, rules, EDITIONS) == []


@pytest.mark.parametrize("broken", cases(DATA / "broken_sessions.toml"), ids=lambda broken: broken.name)
def test_each_mistake_is_named_with_its_line_and_what_would_be_right(broken, rules):
    text = broken.text(GOOD)
    here = rules if 'id = "moor-hound"' in text else None
    assert_said(check_session(text, FILE, here, EDITIONS), broken, text, FILE)


def test_a_ruleset_that_is_here_but_broken_is_told_apart_from_one_that_is_not():
    (found,) = check_session(GOOD, FILE, None, EDITIONS)
    assert found.key == "ruleset.id"
    assert "cannot be used" in found.what


def test_a_struck_take_may_be_odd(rules):
    text = GOOD.replace("value = 68.5", 'value = 685\nstruck = "read from the wrong end"')
    assert check_session(text, FILE, rules, EDITIONS) == []


def test_a_point_for_the_other_sex_is_questioned(rules):
    text = (
        GOOD.replace('sex = "male"', 'sex = "female"')
        + '\n[[choices]]\npoint = "colour.testicles"\nchoice = "two"\n'
    )
    (found,) = check_session(text, FILE, rules, EDITIONS)
    assert (found.key, found.level) == ("choices[3].point", "warning")
    assert "male only" in found.what


def test_keys_of_ones_own_are_let_alone(rules):
    text = GOOD.replace("[[notes]]", '[kennel_diary]\nweather = "rain"\n\n[[notes]]')
    assert check_session(text, FILE, rules, EDITIONS) == []


@given(cut=st.integers(0, len(GOOD)), length=st.integers(1, 200))
def test_whatever_is_lost_from_a_file_the_check_answers_within_its_lines(rules, cut, length):
    text = GOOD[:cut] + GOOD[cut + length :]
    for problem in check_session(text, FILE, rules, EDITIONS):
        assert problem.right
        assert 1 <= (problem.line or 1) <= text.count("\n") + 1


@given(place=st.sampled_from(values(GOOD)), value=st.sampled_from(WRONG))
def test_a_value_of_any_other_kind_gets_an_answer(rules, place, value):
    text = GOOD[: place[0]] + value + GOOD[place[1] :]
    for problem in check_session(text, FILE, rules, EDITIONS):
        assert problem.what
        assert problem.right


def test_the_digest_holds_whatever_the_layout_and_breaks_with_any_answer():
    session = read_session_text(GOOD, FILE)
    spaced = read_session_text(GOOD.replace("\n\n", "\n\n\n# a comment\n"), FILE)
    changed = read_session_text(GOOD.replace("68.5", "68.6"), FILE)
    own_key = read_session_text(GOOD.replace("format = 1", 'format = 1\nweather = "rain"'), FILE)
    assert digest_of(spaced) == digest_of(session)
    assert digest_of(session).startswith("sha256:")
    assert len({digest_of(session), digest_of(changed), digest_of(own_key)}) == 3


def test_signature_and_amendments_do_not_count_in_the_digest():
    session = read_session_text(GOOD, FILE)
    signed = f"""{GOOD}
[signature]
name = "E. Example"
at = 2026-05-02T11:00:00+02:00
digest = "{digest_of(session)}"

[[amendments]]
reason = "measured anew"
point = "height"
takes = [{{ point = "height", value = 69 }}]
"""
    assert as_signed(session) is None
    assert as_signed(read_session_text(signed, FILE)) is True
    assert as_signed(read_session_text(signed.replace("68.5", "68.6"), FILE)) is False
