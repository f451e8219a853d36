"""What the program writes can be read by its user alone, and links laid in its way are not followed."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from hands_on.store import atomic, places
from hands_on.store.demo import demo_folder
from hands_on.store.open_session import OpenSession
from hands_on.store.private import make_folder
from hands_on.store.records import Records
from tests.store.examples import NOW, arko, with_take

pytestmark = pytest.mark.skipif(os.name != "posix", reason="permissions of POSIX systems")


@pytest.fixture(autouse=True)
def open_umask() -> Iterator[None]:
    """Even where the user's umask would let everybody read and write."""
    before = os.umask(0)
    yield
    os.umask(before)


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "user_data", lambda: tmp_path / "data")
    monkeypatch.setattr(places, "user_cache", lambda: tmp_path / "cache")


def mode(path: Path) -> int:
    return stat.S_IMODE(path.lstat().st_mode)


def test_session_lock_note_and_folder_are_the_users_own(tmp_path: Path) -> None:
    folder = tmp_path / "data" / "sessions"
    with OpenSession.create(folder, arko(), NOW) as opened:
        opened.put(with_take(opened.session, 64.5))
        assert {path.name.rpartition(".")[2]: mode(path) for path in folder.iterdir()} == {
            "toml": 0o600,
            "lock": 0o600,
            "holder": 0o600,
        }
    assert [mode(path) for path in (folder, folder.parent)] == [0o700, 0o700]


def test_what_is_half_written_is_the_users_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "open.toml"
    path.write_text("old", "utf-8")
    path.chmod(0o644)
    seen: list[int] = []
    really = os.chmod
    monkeypatch.setattr(atomic.os, "chmod", lambda at, bits: (seen.append(mode(at)), really(at, bits)))
    atomic.write_atomic(path, "new")
    assert seen == [0o600]
    assert mode(path) == 0o644


def test_the_index_is_the_users_own_also_where_an_earlier_version_made_it(tmp_path: Path) -> None:
    index = tmp_path / "cache" / "index.sqlite"
    with Records(tmp_path, index) as records:
        records.refresh()
    assert (mode(index), mode(index.parent)) == (0o600, 0o700)
    index.chmod(0o644)
    index.parent.chmod(0o755)
    with Records(tmp_path, index) as records:
        records.refresh()
    assert (mode(index), mode(index.parent)) == (0o600, 0o700)


def test_a_link_in_place_of_the_index_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "cache").mkdir()
    precious = tmp_path / "precious"
    precious.write_text("precious", "utf-8")
    index = tmp_path / "cache" / "index.sqlite"
    index.symlink_to(precious)
    with Records(tmp_path, index) as records:
        records.refresh()
    assert precious.read_text("utf-8") == "precious"
    assert not index.is_symlink()


def test_the_data_folder_of_an_earlier_version_is_closed_and_a_folder_of_the_users_is_not(
    tmp_path: Path,
) -> None:
    (tmp_path / "data" / "sessions").mkdir(parents=True)
    (tmp_path / "club").mkdir()
    OpenSession.create(tmp_path / "data" / "sessions", arko(), NOW).close()
    OpenSession.create(tmp_path / "club", arko(), NOW).close()
    assert mode(tmp_path / "data") == 0o700
    assert mode(tmp_path / "club") == 0o777


def test_the_demo_is_the_users_own() -> None:
    folder = demo_folder()
    assert {mode(path) for path in folder.iterdir()} == {0o600}
    assert mode(folder) == mode(folder.parent) == 0o700


@pytest.mark.parametrize("kind", ["link", "link to nothing", "pipe", "folder"])
def test_what_lies_in_the_place_of_the_note_is_not_followed(kind: str, tmp_path: Path) -> None:
    folder = tmp_path / "shared"
    with OpenSession.create(folder, arko(), NOW) as opened:
        path = opened.path
    note = path.with_name(f".{path.name}.holder")
    precious = tmp_path / "precious"
    if kind == "pipe":
        os.mkfifo(note)
    elif kind == "folder":
        note.mkdir()
    else:
        note.symlink_to(precious)
        if kind == "link":
            precious.write_text("precious", "utf-8")
    with OpenSession.open(path, NOW) as first, OpenSession.open(path, NOW) as second:
        assert not first.read_only
        assert second.read_only
        assert second.holder.endswith("2026-05-02 09:30") or kind == "folder"
    assert not precious.exists() or precious.read_text("utf-8") == "precious"


def test_a_note_that_is_a_link_is_not_read(tmp_path: Path) -> None:
    """Laid there after the session was opened: what it points at is shown to nobody."""
    secret = tmp_path / "secret"
    secret.write_text('{"user": "s", "host": "h", "pid": 1, "since": "2026-05-02T09:30:00"}', "utf-8")
    with OpenSession.create(tmp_path / "shared", arko(), NOW) as opened:
        note = opened.path.with_name(f".{opened.path.name}.holder")
        note.unlink()
        note.symlink_to(secret)
        with OpenSession.open(opened.path, NOW) as second:
            assert second.holder == "another process"


def test_folders_above_are_made_too_and_a_file_in_their_way_is_told(tmp_path: Path) -> None:
    make_folder(tmp_path / "a" / "b")
    make_folder(tmp_path / "a" / "b")
    assert mode(tmp_path / "a") == mode(tmp_path / "a" / "b") == 0o700
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(NotADirectoryError):
        make_folder(tmp_path / "file" / "c")
    with pytest.raises(NotADirectoryError):
        make_folder(tmp_path / "file")
