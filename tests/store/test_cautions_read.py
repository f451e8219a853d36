"""Cautions read today: by evaluator, for one day, with the text they have; never a reason to fail."""

import datetime

import pytest

from hands_on.store import places
from hands_on.store.cautions_read import NAME, note_read, read_today
from hands_on.store.library import Library

CAUTIONS = Library((places.shipped_rulesets(),)).cautions().cautions
TODAY = datetime.date(2026, 5, 2)


@pytest.fixture(autouse=True)
def _own_place(tmp_path, monkeypatch):
    monkeypatch.setattr("hands_on.store.places.user_data", lambda: tmp_path / "data")


def test_read_by_one_evaluator_on_one_day_alone():
    first, second = CAUTIONS[:2]
    note_read("E. Example", first, TODAY)
    note_read("E. Example", second, TODAY)
    assert read_today("e. example ", CAUTIONS, TODAY) == {first.id, second.id}
    assert not read_today("A. Other", CAUTIONS, TODAY)
    assert not read_today("E. Example", CAUTIONS, TODAY + datetime.timedelta(days=1))
    assert not read_today("", CAUTIONS, TODAY)
    note_read("A. Other", first, TODAY)
    assert read_today("E. Example", CAUTIONS, TODAY) == {first.id, second.id}


def test_a_text_that_was_changed_is_read_anew():
    note_read("E. Example", CAUTIONS[0], TODAY)
    changed = CAUTIONS[0].model_copy(update={"text": "Something new."})
    assert not read_today("E. Example", [changed], TODAY)


def test_names_stand_in_no_clear_text():
    note_read("E. Example", CAUTIONS[0], TODAY)
    assert "Example" not in (places.user_data() / NAME).read_text()


@pytest.mark.parametrize("text", ["", "{", "[]", '{"day": "2026-05-02", "read": {"a": 1}}', "\x00"])
def test_a_file_that_is_none_of_ours_shows_them_again(text):
    places.user_data().mkdir(parents=True)
    (places.user_data() / NAME).write_text(text)
    assert not read_today("E. Example", CAUTIONS, TODAY)
    note_read("E. Example", CAUTIONS[0], TODAY)
    assert read_today("E. Example", CAUTIONS, TODAY) == {CAUTIONS[0].id}
