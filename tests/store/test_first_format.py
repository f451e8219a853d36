"""A file of the first format, whatever has become of the program since; and signatures under odd clocks."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.dates import as_written
from hands_on.exam.session import Amendment, Session, Signature, Summary
from hands_on.exam.signing import as_signed, digest_of
from hands_on.store.library import Library
from hands_on.store.open_session import OpenSession
from hands_on.store.session_file import dump_session, parse_session, read_session

DATA = Path(__file__).parents[1] / "data"
FIRST = DATA / "formats" / "1.toml"
RULES = Library([DATA / "rulesets"]).load("moor-hound")


FOUND = {
    "neck.throaty": "slight",
    "mouth.level-bite": None,
    "colour.white": None,
    "mouth.teeth-missing": None,
    "mouth.teeth-worn": None,
}
MEASURED = {"height": 69.0, "neck-length": 30.0}
"""The amendment stands for the height; a take that was struck never counts."""


def test_it_opens_and_what_was_signed_is_sound():
    session = read_session(FIRST)
    assert session.dog.call_name == "Arko"
    assert as_signed(session) is True
    assert as_signed(parse_session(FIRST.read_text("utf-8").replace("68.5", "68.6"), "1.toml")) is False


def test_it_says_of_the_dog_what_it_said():
    found = evaluate(RULES, read_session(FIRST))
    assert {one.id: one.degree for one in found.findings} == FOUND
    assert {one.id: one.value for one in found.measures} == pytest.approx(MEASURED, abs=0.01)


def test_saved_anew_it_loses_nothing_and_stays_sound(tmp_path):
    copy = tmp_path / "1.toml"
    copy.write_bytes(FIRST.read_bytes())
    with OpenSession.open(copy, NOON) as opened:
        amended = Amendment(at=NOON, by="E. Example", reason="forgotten", summary=Summary(text="Kind."))
        amendments = (*opened.session.amendments, amended)
        assert opened.put(opened.session.model_copy(update={"amendments": amendments}))
    saved = read_session(copy)
    assert saved.amendments[-1].summary == Summary(text="Kind.")
    assert saved.dog.model_extra == {"kennel_book": "a key that the program does not know"}
    assert as_signed(saved) is True


# --- odd clocks --------------------------------------------------------------------------------------------

NOON = datetime.datetime(2026, 5, 2, 12, 0, tzinfo=datetime.UTC)
MOMENTS = st.builds(
    lambda minutes, ahead: as_written(
        (NOON + datetime.timedelta(minutes=minutes)).astimezone(
            datetime.timezone(datetime.timedelta(seconds=ahead))
        )
    ),
    st.integers(-60_000_000, 60_000_000),
    st.integers(-80_000, 80_000),
)
"""A century or so either way; clocks ahead or behind by any number of seconds."""


@given(MOMENTS, MOMENTS, MOMENTS)
def test_a_signature_is_sound_whatever_the_clocks_and_zones_were(started, answered, signed):
    """Also where the clock was set back: signed before it began."""
    session = Session.model_validate(
        {
            "ruleset": {"id": "moor-hound"},
            "examination": {"started": started, "finished": answered},
            "takes": [{"point": "height", "value": 64.5, "at": answered}],
        }
    )
    signature = Signature(name="E. Example", at=signed, digest=digest_of(session))
    signed_session = session.model_copy(update={"signature": signature})
    read = parse_session(dump_session(signed_session), "odd.toml")
    assert read == signed_session
    assert as_signed(read) is True


def test_an_offset_with_seconds_is_written_as_one_of_whole_minutes():
    """Amsterdam before 1937 stood 19 min 32 s ahead; RFC 3339 has hours and minutes only."""
    ahead = datetime.timezone(datetime.timedelta(minutes=19, seconds=32))
    moment = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=ahead)
    assert as_written(moment) == moment
    assert as_written(moment).isoformat() == "2026-05-02T09:29:28+00:19"
    assert as_written(NOON) is NOON
    assert as_written(datetime.datetime(2026, 5, 2)) == datetime.datetime(2026, 5, 2)
