"""One writer at a time: under several programs that take and give back one lock no answer goes missing."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from hands_on.store import atomic
from hands_on.store.errors import ChangedOnDisk
from hands_on.store.lock import SessionLock
from hands_on.store.open_session import OpenSession
from hands_on.store.session_file import SessionFile, read_session
from tests.store.examples import NOW, arko, with_take

posix = pytest.mark.skipif(os.name != "posix", reason="an open file can't be removed on Windows")

WRITER = """
import datetime, sys
from pathlib import Path
from hands_on.store.lock import SessionLock
path, wanted = Path(sys.argv[1]), int(sys.argv[2])
when = datetime.datetime(2026, 5, 2, 9, 30)
done = 0
while done < wanted:
    lock = SessionLock(path)
    if not lock.take(when):
        continue
    assert not lock.warning, lock.warning
    path.write_text(str(int(path.read_text()) + 1))  # not atomic: two at once lose one
    done += 1
    lock.release()
"""


@posix
def test_four_programs_at_one_lock_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "count.toml"
    path.write_text("0", "utf-8")
    command = [sys.executable, "-c", WRITER, str(path), "60"]
    programs = [subprocess.Popen(command, stderr=subprocess.PIPE, text=True) for _ in range(4)]
    for program in programs:
        _, told = program.communicate(timeout=100)
        assert program.returncode == 0, told
    assert path.read_text("utf-8") == "240"
    assert os.listdir(tmp_path) == ["count.toml"]


@posix
def test_a_lock_just_given_back_by_another_program_is_never_taken_for_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other holder removes the file between our finding it busy and our looking for it."""
    path = tmp_path / "arko.toml"
    other, ours = SessionLock(path), SessionLock(path)
    assert other.take(NOW)
    really = SessionLock._found

    def found(lock: SessionLock) -> tuple[int, int] | None:
        if lock is ours and other._lock is not None:
            other.release()
        return really(lock)

    monkeypatch.setattr(SessionLock, "_found", found)
    assert ours.take(NOW)
    assert ours.warning == ""
    assert ours.held()
    assert not SessionLock(path).take(NOW)


@posix
def test_a_lock_whose_file_was_cleared_away_is_taken_again_before_the_next_answer(tmp_path: Path) -> None:
    with OpenSession.create(tmp_path, arko(), NOW) as opened:
        for path in tmp_path.glob(".*"):
            path.unlink()
        assert opened.put(with_take(opened.session, 64.5))
        assert not SessionLock(opened.path).take(NOW)


@posix
def test_an_answer_is_not_written_while_another_holds_the_lock_that_was_cleared_away(tmp_path: Path) -> None:
    with OpenSession.create(tmp_path, arko(), NOW) as opened:
        before = opened.path.read_bytes()
        for path in tmp_path.glob(".*"):
            path.unlink()
        other = SessionLock(opened.path)
        assert other.take(NOW)
        assert not opened.put(with_take(opened.session, 64.5))
        assert opened.unsaved.startswith("the session is now open elsewhere")
        assert opened.path.read_bytes() == before
        other.release()
        assert opened.try_again()
        assert read_session(opened.path) == opened.session


def test_an_edit_right_after_the_renaming_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Between the new name and the flush of the folder: the stamp is of what we wrote, not of the edit."""
    file = SessionFile(tmp_path / "arko.toml")
    file.write(arko())
    by_hand = file.path.read_text("utf-8").replace("Arko", "Arka")
    monkeypatch.setattr(atomic, "_flush_folder", lambda folder: file.path.write_text(by_hand, "utf-8"))
    file.write(with_take(arko(), 64.5))
    monkeypatch.undo()
    with pytest.raises(ChangedOnDisk):
        file.write(with_take(arko(), 65))
    assert file.path.read_text("utf-8") == by_hand


def test_an_edit_while_ours_is_flushed_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Flushing may take seconds on a stick or a network folder."""
    file = SessionFile(tmp_path / "arko.toml")
    file.write(arko())
    by_hand = file.path.read_text("utf-8").replace("Arko", "Arka")
    monkeypatch.setattr(atomic.os, "fsync", lambda handle: file.path.write_text(by_hand, "utf-8"))
    with pytest.raises(ChangedOnDisk):
        file.write(with_take(arko(), 65))
    monkeypatch.undo()
    assert file.path.read_text("utf-8") == by_hand
    assert os.listdir(tmp_path) == ["arko.toml"]


@pytest.mark.parametrize("links", [True, False])
def test_a_file_that_appears_while_a_new_one_is_written_stays(
    links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also where the disk knows no links (FAT)."""
    path = tmp_path / "arko.toml"
    monkeypatch.setattr(atomic, "stamp_of", lambda state: (path.write_text("theirs", "utf-8"), 0, 0))
    if not links:

        def refused(*_: object, **__: object) -> None:
            raise PermissionError(1, "Operation not permitted")

        monkeypatch.setattr(atomic.os, "link", refused)
    with pytest.raises(FileExistsError):
        atomic.write_atomic(path, "ours", new=True)
    assert path.read_text("utf-8") == "theirs"
    assert os.listdir(tmp_path) == ["arko.toml"]


def test_a_name_too_long_for_its_lock_still_has_one(tmp_path: Path) -> None:
    path = tmp_path / f"{'n' * 250}.toml"
    file = SessionFile(path)
    file.write(arko())
    first, second = SessionLock(path), SessionLock(path)
    assert first.take(NOW)
    assert first.warning == ""
    assert not second.take(NOW)
    first.release()
    assert os.listdir(tmp_path) == [path.name]
