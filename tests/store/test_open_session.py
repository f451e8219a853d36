"""The session at the desk: its name, its lock, and what happens when it can't be saved."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given

from hands_on.store import atomic
from hands_on.store.errors import ChangedOnDisk, NotSaved, SessionBusy
from hands_on.store.open_session import OpenSession, file_name
from hands_on.store.session_file import read_session
from hands_on.toml_text.problems import BadText
from tests.store.examples import ARKO, NOW, arko, with_take
from tests.strategies import texts

HOLDER = """
import datetime, sys
from pathlib import Path
from hands_on.store.open_session import OpenSession
when = datetime.datetime(2026, 5, 2, 9, 30)
opened = OpenSession.open(Path(sys.argv[1]), when)
print("read only" if opened.read_only else "mine", flush=True)
sys.stdin.read()
opened.close()
"""


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[OpenSession]:
    with OpenSession.create(tmp_path / "sessions", arko(), NOW) as session:
        yield session


def hold(path: Path) -> subprocess.Popen[str]:
    """Another process that has opened the session."""
    other = subprocess.Popen(
        [sys.executable, "-c", HOLDER, path], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert other.stdout is not None
    assert other.stdout.readline() == "mine\n"
    return other


def end(other: subprocess.Popen[str]) -> None:
    """Let the other process close the session, and wait for it."""
    other.communicate("", timeout=20)


def refuse(monkeypatch: pytest.MonkeyPatch, code: int) -> None:
    """From now on the disk does not take what is written."""

    def fail(*_: object) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(atomic.os, "fsync", fail)


def only_toml(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.glob("*.toml"))


def test_the_file_is_named_by_date_dog_and_evaluator(tmp_path: Path) -> None:
    names = []
    for _ in range(3):
        with OpenSession.create(tmp_path, arko(call_name="Äsop vom Łęg"), NOW) as opened:
            names.append(opened.path.name)
    assert names == [
        "2026-05-02-asopvomleg-eexample.toml",
        "2026-05-02-asopvomleg-eexample-2.toml",
        "2026-05-02-asopvomleg-eexample-3.toml",
    ]
    assert sorted(os.listdir(tmp_path)) == sorted(names)


@given(texts)
def test_any_name_of_a_dog_makes_a_name_any_disk_takes(call_name: str) -> None:
    """POSIX portable file names: letters, digits, `.`, `_`, `-` (POSIX.1-2017, 3.282), and short."""
    name = file_name(arko(call_name=call_name), NOW, 2)
    portable = set("abcdefghijklmnopqrstuvwxyz0123456789.-")
    assert set(name) <= portable
    assert name.startswith("2026-05-02-")
    assert len(name) < 120


def test_every_answer_is_on_disk_at_once(opened: OpenSession) -> None:
    for value in (64.5, 65, "25 3/8 in"):
        assert opened.put(with_take(opened.session, value))
        assert read_session(opened.path) == opened.session


def test_a_session_is_gone_on_with_and_closed_without_a_trace(opened: OpenSession) -> None:
    opened.put(with_take(opened.session, 64.5))
    opened.close()
    with OpenSession.open(opened.path, NOW) as again:
        assert again.session == opened.session
        assert not again.read_only
        assert again.put(with_take(again.session, 65))
    assert os.listdir(opened.path.parent) == [opened.path.name]


def test_a_second_process_reads_only_and_is_told_who_holds_it(opened: OpenSession) -> None:
    opened.close()
    other = hold(opened.path)
    try:
        with OpenSession.open(opened.path, NOW) as second:
            assert second.read_only
            assert f"process {other.pid}, since 2026-05-02 09:30" in second.holder
            before = opened.path.read_bytes()
            with pytest.raises(SessionBusy, match=str(other.pid)):
                second.put(with_take(second.session, 65))
            assert opened.path.read_bytes() == before
            assert not second.try_again()
            end(other)
            assert second.try_again()
            assert not second.read_only
            assert second.put(with_take(second.session, 65))
    finally:
        other.kill()
        other.communicate()


def test_who_holds_a_session_is_told_without_escape_codes(opened: OpenSession) -> None:
    note = opened.path.with_name(f".{opened.path.name}.holder")
    note.write_text('{"user": "\\u001b[2J", "host": "h", "pid": 1, "since": "2026-05-02T09:30:00"}', "utf-8")
    with OpenSession.open(opened.path, NOW) as second:
        assert second.holder == "[2J on h, process 1, since 2026-05-02 09:30"
    note.write_text("no note", "utf-8")
    with OpenSession.open(opened.path, NOW) as second:
        assert second.holder == "another process"


@pytest.mark.skipif(os.name != "posix", reason="SIGKILL")
def test_kill_leaves_no_stale_lock(opened: OpenSession) -> None:
    opened.close()
    other = hold(opened.path)
    other.send_signal(signal.SIGKILL)
    other.communicate()
    with OpenSession.open(opened.path, NOW) as again:
        assert not again.read_only
        assert again.put(with_take(again.session, 65))
    assert os.listdir(opened.path.parent) == [opened.path.name]


def test_the_same_session_twice_in_one_process_is_told_too(opened: OpenSession) -> None:
    with OpenSession.open(opened.path, NOW) as second:
        assert second.read_only
        assert f"process {os.getpid()}" in second.holder


def test_through_a_link_it_is_the_same_session(opened: OpenSession, tmp_path: Path) -> None:
    link = tmp_path / "link.toml"
    link.symlink_to(opened.path)
    with OpenSession.open(link, NOW) as second:
        assert second.read_only


def test_what_a_killed_save_left_is_cleared_by_the_next_holder(opened: OpenSession) -> None:
    opened.close()
    for name in (f".{opened.path.name}.0a1b2c3d.saving", f"..{opened.path.name}.draft.0a1b2c3d.saving"):
        opened.path.with_name(name).write_text("half", "utf-8")
    OpenSession.open(opened.path, NOW).close()
    assert os.listdir(opened.path.parent) == [opened.path.name]


def test_answers_stay_while_the_disk_is_full_and_are_saved_when_it_is_not(
    opened: OpenSession, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = read_session(opened.path)
    refuse(monkeypatch, 28)
    assert not opened.put(with_take(opened.session, 64.5))
    assert not opened.put(with_take(opened.session, 65))
    assert opened.unsaved == "the disk is full"
    assert len(opened.session.takes) == 3
    assert not opened.try_again()
    assert read_session(opened.path) == before
    monkeypatch.undo()
    assert opened.try_again()
    assert opened.unsaved == ""
    assert read_session(opened.path) == opened.session


def test_a_folder_that_comes_back_is_locked_and_saved_to_again(opened: OpenSession, tmp_path: Path) -> None:
    folder = opened.path.parent
    folder.rename(tmp_path / "pocket")
    assert not opened.put(with_take(opened.session, 64.5))
    assert opened.unsaved == "the folder is not there"
    assert not opened.put(with_take(opened.session, 65))
    folder.mkdir()  # another disk in its place
    assert opened.try_again()
    assert read_session(opened.path) == opened.session
    with OpenSession.open(opened.path, NOW) as second:
        assert second.read_only


def test_what_another_took_meanwhile_is_not_written_over(opened: OpenSession, tmp_path: Path) -> None:
    """The folder goes away and comes back with somebody else at work in it."""
    folder = opened.path.parent
    folder.rename(tmp_path / "pocket")
    assert not opened.put(with_take(opened.session, 64.5))
    (tmp_path / "pocket").rename(folder)
    for name in os.listdir(folder):
        if name.startswith("."):
            (folder / name).unlink()
    other = hold(opened.path)
    try:
        assert not opened.try_again()
        assert str(other.pid) in opened.unsaved
        end(other)
        assert opened.try_again()
    finally:
        other.kill()
        other.communicate()


def test_answers_can_be_saved_elsewhere_and_the_session_goes_on_there(
    opened: OpenSession, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    refuse(monkeypatch, 30)
    opened.put(with_take(opened.session, 64.5))
    with pytest.raises(NotSaved, match="can only be read"):
        opened.save_elsewhere(tmp_path)
    assert opened.unsaved
    monkeypatch.undo()
    old = opened.path
    opened.save_elsewhere(tmp_path)
    assert opened.path == tmp_path / old.name
    assert opened.unsaved == ""
    assert read_session(opened.path) == opened.session
    assert os.listdir(old.parent) == [old.name]
    assert opened.put(with_take(opened.session, 65))
    assert read_session(opened.path) == opened.session
    assert len(read_session(old).takes) == 1


def test_saving_elsewhere_never_takes_the_place_of_a_file(opened: OpenSession, tmp_path: Path) -> None:
    (tmp_path / "kept.toml").write_text("kept", "utf-8")
    with pytest.raises(ChangedOnDisk, match="there already"):
        opened.save_elsewhere(tmp_path / "kept")
    with pytest.raises(NotSaved, match="folder is not there"):
        opened.save_elsewhere(tmp_path / "nowhere" / "new.toml")
    assert (tmp_path / "kept.toml").read_text("utf-8") == "kept"
    assert opened.put(with_take(opened.session, 65))


def test_a_file_edited_meanwhile_is_left_and_a_place_beside_it_offered(opened: OpenSession) -> None:
    by_hand = opened.path.read_text("utf-8").replace("Arko", "Arka")
    opened.path.write_text(by_hand, "utf-8")
    assert not opened.put(with_take(opened.session, 64.5))
    assert opened.changed_on_disk
    assert not opened.try_again()
    opened.save_elsewhere(opened.beside())
    assert not opened.changed_on_disk
    assert only_toml(opened.path.parent) == [
        "2026-05-02-arko-eexample-2.toml",
        "2026-05-02-arko-eexample.toml",
    ]
    assert opened.path.with_name("2026-05-02-arko-eexample.toml").read_text("utf-8") == by_hand


def test_a_new_session_where_nothing_can_be_written_is_open_all_the_same(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with OpenSession.create(tmp_path / "file" / "sessions", arko(), NOW) as opened:
        assert opened.unsaved == "what should be a folder is a file"
        assert not opened.put(with_take(opened.session, 64.5))
        opened.save_elsewhere(tmp_path)
        assert read_session(opened.path) == with_take(arko(), 64.5)


@pytest.mark.skipif(not Path("/proc/self").is_dir(), reason="needs a folder that nobody can write to")
def test_a_folder_nobody_can_write_to(tmp_path: Path) -> None:
    """The system's own refusal; a superuser is refused there too."""
    with OpenSession.create(Path("/proc/self"), arko(), NOW) as opened:
        assert opened.unsaved
        assert opened.warning.startswith("nobody else can be kept out")
        assert opened.session == arko()


def test_a_broken_file_is_not_opened_and_not_locked(tmp_path: Path) -> None:
    path = tmp_path / "broken.toml"
    path.write_text(ARKO + "[dog", "utf-8")
    with pytest.raises(BadText):
        OpenSession.open(path, NOW)
    with pytest.raises(BadText, match="no such file"):
        OpenSession.open(tmp_path / "gone.toml", NOW)
    assert os.listdir(tmp_path) == ["broken.toml"]
    assert path.read_text("utf-8") == ARKO + "[dog"
