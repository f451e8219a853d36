"""The file of the evaluator's own words: whole or not at all, one at a time, for its owner alone."""

from __future__ import annotations

import errno
import os
import stat

import pytest
from filelock import FileLock

from hands_on.notes import OwnWords
from hands_on.store import atomic, own_words_file, places
from hands_on.store.errors import NotSaved, StoreError
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.store.private import beside
from hands_on.toml_text.problems import BadText

ONE = OwnWords(said="a real plank", means="back.level")
TWO = OwnWords(said="[b]shelly[/b] \x1b[31m", read_as="general.bone-fine")


@pytest.fixture
def file(tmp_path) -> OwnWordsFile:
    return OwnWordsFile(tmp_path / "data" / "own-words.toml")


def test_what_is_remembered_is_there_for_its_owner_alone(file):
    assert file.read() == ()
    file.remember([ONE])
    assert file.remember([TWO]) == (ONE, TWO)
    assert OwnWordsFile(file.path).read() == (ONE, TWO)
    if os.name == "posix":
        assert stat.S_IMODE(file.path.stat().st_mode) == 0o600
        assert stat.S_IMODE(file.path.parent.stat().st_mode) == 0o700


def test_a_change_is_made_to_what_another_program_wrote_meanwhile(file):
    file.remember([ONE])
    other = OwnWordsFile(file.path)
    other.remember([TWO])
    assert file.remove(ONE) == (TWO,)
    assert other.replace(TWO, ONE) == (ONE,)


def test_replacing_keeps_the_place_and_no_phrase_stands_twice(file):
    file.remember([ONE, TWO])
    same_words = TWO.model_copy(update={"said": "A real plank"})
    assert file.replace(TWO, same_words) == (same_words,)


@pytest.mark.parametrize("text", ["[[words]]\nsaid = 1", "words = 3", "format = 99", "\x00\x00", "x = {"])
def test_a_file_that_cant_be_read_is_never_written(file, text):
    file.path.parent.mkdir()
    file.path.write_text(text, encoding="utf-8")
    for change in (lambda: file.remember([ONE]), lambda: file.remove(ONE), file.read):
        with pytest.raises(BadText):
            change()
    assert file.path.read_text(encoding="utf-8") == text


@pytest.mark.parametrize("step", ["open", "fsync", "replace"])
def test_a_disk_that_fails_leaves_the_old_list(file, step, monkeypatch):
    file.remember([ONE])
    before = file.path.read_bytes()

    def fail(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as broken:
        broken.setattr(own_words_file, "FILE", 0o600)
        if step == "open":
            broken.setattr(own_words_file, "write_atomic", fail)
        else:
            broken.setattr(atomic.os, step, fail)
        with pytest.raises(NotSaved, match="full"):
            file.remember([TWO])
    assert file.path.read_bytes() == before


def test_while_another_program_changes_it_nothing_is_changed(file, monkeypatch):
    file.remember([ONE])
    monkeypatch.setattr(own_words_file, "_WAIT", 0.0)
    with (
        FileLock(beside(file.path, ".lock")),
        pytest.raises(StoreError, match="another program"),
    ):
        file.remember([TWO])
    assert file.read() == (ONE,)


def test_it_is_carried_to_a_new_file_and_overwrites_none(file, tmp_path):
    file.remember([ONE, TWO])
    carried = tmp_path / "stick.toml"
    file.carry_to(carried)
    assert OwnWordsFile(carried).read() == (ONE, TWO)
    with pytest.raises(NotSaved, match="already"):
        file.carry_to(carried)
    with pytest.raises(NotSaved):
        file.carry_to(tmp_path / "nowhere" / "stick.toml")


def test_a_copy_of_the_demo_has_its_own(tmp_path, monkeypatch):
    monkeypatch.setattr(places, "user_cache", lambda: tmp_path / "cache")
    monkeypatch.setattr(places, "user_data", lambda: tmp_path / "data")
    assert places.own_words_path(tmp_path / "sessions") == tmp_path / "data" / "own-words.toml"
    demo = places.demo_root() / "copy"
    assert places.own_words_path(demo).parent == demo
