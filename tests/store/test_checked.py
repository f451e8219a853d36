"""The common files kept in the cache: the same again, never used for other texts, harmless when broken."""

from __future__ import annotations

from pathlib import Path

import pytest

from hands_on.store import checked
from hands_on.store.library import Library
from hands_on.store.places import ruleset_folders
from hands_on.store.text_file import read_bytes


@pytest.fixture
def place(tmp_path, monkeypatch):
    monkeypatch.setattr(checked, "_place", lambda: tmp_path / "cache" / "common-parts.jsonl")
    return tmp_path / "cache" / "common-parts.jsonl"


def library():
    return Library(ruleset_folders(Path("nothing-here")))


def texts():
    return [(str(path), read_bytes(path)) for path in library().common_paths()]


def test_what_was_kept_gives_the_same_editions(place):
    fresh = library().load("hovawart-fci-190")
    assert place.exists()
    again = library()
    assert checked.kept(texts()) is not None
    assert again.load("hovawart-fci-190") == fresh
    assert again.load("hovawart-fci-190").digest == fresh.digest


def test_another_byte_anywhere_is_read_anew(place):
    library().common()
    name, data = texts()[3]
    changed = [*texts()[:3], (name, data + b"\n"), *texts()[4:]]
    assert checked.kept(changed) is None
    assert checked.kept(texts()[1:]) is None


@pytest.mark.parametrize("broken", [b"", b"\xff\xfe", b"nonsense\n{}\n", None])
def test_a_broken_cache_costs_time_alone(place, broken):
    library().common()
    data = place.read_bytes()
    place.write_bytes(broken if broken is not None else data[: len(data) // 2])
    assert library().load("hovawart-fci-190").points
    assert place.read_bytes() == data, "made again"


def test_a_cache_folder_that_can_not_be_written_is_done_without(tmp_path, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setattr(checked, "_place", lambda: tmp_path / "file" / "common-parts.jsonl")
    assert library().load("hovawart-fci-190").points
