"""A seminar round: its file, the sessions made from it, and putting them together again."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.exam.round import (
    NOT_IN_ROUND,
    Round,
    check_round,
    dump_round,
    group_rounds,
    is_round,
    parse_round,
    place_of,
    session_for,
)
from hands_on.exam.walk import state_of, stops
from hands_on.store.session_file import dump_session, parse_session
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables
from tests.compare.build import RULESET

TEXT = """format = 1

[round]
id = "old-mill"
title = "Seminar"
country = "DE"
points = ["height", "hindquarters.hocks"]

[ruleset]
id = "test"

[[dogs]]
number = 1
sex = "male"
born = 2022-04-09

[[dogs]]
number = "2"
call_name = "Ada"
sex = "female"
born = 2023-02-26
"""


def test_a_number_may_be_written_without_quotes():
    assert [dog.number for dog in parse_round(TEXT, "round.toml").dogs] == ["1", "2"]


@pytest.mark.parametrize(
    ("change", "line", "said"),
    [
        (('number = "2"', "number = 1"), 18, "a second time"),
        (('sex = "male"', 'sex = "boy"'), 14, '"male" or "female"'),
        (('id = "old-mill"', 'name = "old-mill"'), 3, "`id` is missing"),
        (('points = ["height", "hindquarters.hocks"]', "points = []"), 7, "no points at all"),
        (("format = 1", "format = 2"), 1, "newer Hands On"),
        (("[ruleset]", "[ruleset"), 9, "not valid TOML"),
    ],
)
def test_what_is_wrong_is_said_with_its_line(change, line, said):
    with pytest.raises(BadText) as caught:
        parse_round(TEXT.replace(*change), "round.toml")
    problem = caught.value.problems[0]
    assert problem.line == line
    assert said in str(problem)


def test_points_and_editions_that_are_not_there():
    text = TEXT.replace('"height"', '"heigth"').replace('id = "test"', 'id = "tests"')
    found = check_round(text, "round.toml", RULESET, ["test"])
    assert [(one.line, one.key) for one in found] == [(7, "round.points[1]"), (10, "ruleset.id")]
    assert '"height"?' in found[0].right


def test_a_changed_ruleset_and_unknown_ages_are_warned_of():
    text = TEXT.replace('id = "test"', 'id = "test"\ndigest = "sha256:0"').replace("born = 2022-04-09\n", "")
    found = check_round(text, "round.toml", RULESET, ["test"])
    assert [one.level for one in found] == ["warning", "warning"]
    assert "has changed" in found[0].what
    assert "date of birth" in found[1].what


def test_the_written_file_reads_back_the_same_with_keys_of_ones_own():
    text = TEXT.replace('sex = "male"', 'sex = "male"\nattributes = { coat = "long" }\nring = "B"')
    found = parse_round(text, "round.toml")
    again = parse_round(dump_round(found), "again.toml")
    assert again == found
    assert again.dogs[0].model_extra == {"ring": "B"}
    assert dump_round(found).startswith("format = 1\n")


_texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)


@given(
    st.lists(st.tuples(_texts, _texts), min_size=1, max_size=4),
    st.one_of(st.just("all"), st.lists(st.sampled_from(["height", "mouth.bite"]), min_size=1, max_size=3)),
    _texts,
)
@settings(max_examples=60)
def test_any_round_reads_back_the_same(dogs, points, title):
    made = Round.model_validate(
        {
            "round": {"id": "r", "title": title, "points": points},
            "ruleset": {"id": "test"},
            "dogs": [
                {"number": str(n), "call_name": name, "attributes": {"coat": coat}}
                for n, (name, coat) in enumerate(dogs)
            ],
        }
    )
    assert parse_round(dump_round(made), "round.toml") == made


def test_a_session_of_the_round_asks_only_for_its_points():
    found = parse_round(TEXT, "round.toml")
    session = session_for(found, "2", "A. Example", RULESET)
    states = {stop.point.id: state_of(session, stop.point) for stop in stops(RULESET, session)}
    assert {name for name, state in states.items() if state == "open"} == {"height", "hindquarters.hocks"}
    assert all(skip.reason == NOT_IN_ROUND for skip in session.skips)
    assert (session.dog.call_name, session.dog.sex) == ("Ada", "female")
    assert (session.examination.kind, session.examination.country) == ("round", "DE")
    assert session.ruleset.digest == RULESET.digest


def test_all_points_leave_nothing_out():
    found = parse_round(TEXT.replace('["height", "hindquarters.hocks"]', '"all"'), "round.toml")
    assert session_for(found, "1", "A. Example", RULESET).skips == ()


def test_the_round_and_the_number_survive_a_save():
    session = session_for(parse_round(TEXT, "round.toml"), "2", "A. Example", RULESET)
    again = parse_session(dump_session(session), "session.toml")
    place = place_of(again)
    assert (place.round, place.dog) == ("old-mill", "2")


def test_a_number_that_is_not_there_is_refused():
    with pytest.raises(KeyError):
        session_for(parse_round(TEXT, "round.toml"), "3", "A. Example", RULESET)


def test_a_round_is_told_from_a_session():
    assert is_round(parse_tables(TEXT, "round.toml"))
    session = session_for(parse_round(TEXT, "round.toml"), "1", "A. Example", RULESET)
    assert not is_round(parse_tables(dump_session(session), "session.toml"))


def test_sessions_of_a_folder_are_put_together_by_round_and_dog():
    found = parse_round(TEXT, "round.toml")
    sessions = [
        ("b2.toml", session_for(found, "2", "B. Example", RULESET)),
        ("a1.toml", session_for(found, "1", "A. Example", RULESET)),
        ("a2.toml", session_for(found, "2", "A. Example", RULESET)),
    ]
    alone = sessions[0][1].model_copy(
        update={"examination": sessions[0][1].examination.model_copy(update={"round": ""})}
    )
    (group,) = group_rounds([*sessions, ("alone.toml", alone)])
    assert group.dogs == ("1", "2")
    assert group.of_dog("2") == ("b2.toml", "a2.toml")
    assert group.missing == (("1", "B. Example"),)
    assert "alone.toml" not in group.names
