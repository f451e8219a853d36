"""What notes are read with is built once and kept: the same readings, and any other byte builds it anew."""

from __future__ import annotations

import shutil

import pytest

from hands_on.notes import OwnWords, WordingSource, build_lexicon, read_note
from hands_on.store import checked
from hands_on.store import wording as of_store
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

EDITION = "hovawart-fci-190"
NOTES = (
    "slightly cow hocked, good reach",
    "withers 64.5, chest to the elbow; a touch steep in sholder",
    "no light eyes, left elbow turned out markedly",
)


@pytest.fixture
def place(tmp_path, monkeypatch):
    monkeypatch.setattr(checked, "_folder", lambda: tmp_path / "cache" / "checked")
    return tmp_path / "cache" / "checked"


@pytest.fixture
def built(monkeypatch):
    """The wording of which a lexicon was built in earnest."""
    seen = []
    build = of_store.build_lexicon
    monkeypatch.setattr(of_store, "build_lexicon", lambda source: seen.append(source) or build(source))
    return seen


@pytest.fixture
def quick(monkeypatch):
    """As `built`, but what is built knows no word: for tests of when it is built."""
    seen = []
    monkeypatch.setattr(
        of_store, "build_lexicon", lambda source: seen.append(source) or build_lexicon(WordingSource())
    )
    return seen


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "rulesets"
    shutil.copytree(shipped_rulesets() / "common", made / "common")
    shutil.copy(shipped_rulesets() / f"{EDITION}.toml", made)
    shutil.copy(shipped_rulesets() / "any-dog.toml", made)
    return made


def test_what_was_kept_reads_as_what_was_built(place, built):
    first = of_store.lexicon(Library([shipped_rulesets()]), EDITION)
    again = of_store.lexicon(Library([shipped_rulesets()]), EDITION)
    assert len(built) == 1
    assert again is not first
    for note in NOTES:
        found = read_note(note, first)
        assert found.faults, "the note says something"
        assert read_note(note, again) == found


@pytest.mark.parametrize(
    "changed", [f"{EDITION}.toml", "common/language.toml", "common/ordinary-words.txt", "common/examples"]
)
def test_another_byte_of_what_it_came_from_builds_it_anew(place, quick, folder, changed):
    path = folder / changed
    path = path if path.is_file() else next(path.glob("*.jsonl"))
    of_store.lexicon(Library([folder]), EDITION)
    of_store.lexicon(Library([folder]), EDITION)
    assert len(quick) == 1
    path.write_bytes(path.read_bytes() + (b"{}\n" if path.suffix == ".jsonl" else b"\n"))
    of_store.lexicon(Library([folder]), EDITION)
    assert len(quick) == 2


def test_another_editions_lexicon_is_another(place, quick, folder):
    for edition in (EDITION, "any-dog", None, EDITION):
        of_store.lexicon(Library([folder]), edition)
    assert len(quick) == 3


def test_own_words_that_were_learned_are_part_of_it(place, quick, folder):
    own = OwnWords(said="knitting in front", region="movement", means="movement.paddling")
    for words in ([], [own], [own], []):
        of_store.lexicon(Library([folder]), EDITION, words)
    assert [len([e for e in one.examples if e.note == own.said]) > 0 for one in quick] == [False, True]


def test_a_damaged_one_is_built_again(place, quick, folder):
    Library([folder]).heads()
    before = set(place.iterdir())
    of_store.lexicon(Library([folder]), EDITION)
    (path,) = set(place.iterdir()) - before
    whole = path.read_bytes()
    for broken in (b"", whole[: len(whole) // 2], whole[:-1] + bytes([whole[-1] ^ 1])):
        path.write_bytes(broken)
        quick.clear()
        of_store.lexicon(Library([folder]), EDITION)
        assert len(quick) == 1
        assert path.read_bytes() == whole
