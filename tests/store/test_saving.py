"""Saving: whole or not at all, and never over somebody else's words."""

from __future__ import annotations

import errno
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from hands_on.store import atomic
from hands_on.store.atomic import leftovers, write_atomic
from hands_on.store.errors import ChangedOnDisk, NotSaved
from hands_on.store.session_file import SessionFile, dump_session, read_session
from tests.store.examples import arko, with_take

posix = pytest.mark.skipif(os.name != "posix", reason="permissions and signals of POSIX systems")


@pytest.fixture
def saved(tmp_path: Path) -> SessionFile:
    file = SessionFile(tmp_path / "arko.toml")
    file.write(arko())
    return file


def test_a_new_file_and_then_each_change_is_on_disk(saved: SessionFile) -> None:
    for value in (64.5, "25 3/8 in"):
        session = with_take(read_session(saved.path), value)
        saved.write(session)
        assert read_session(saved.path) == session
    assert os.listdir(saved.path.parent) == ["arko.toml"]


@pytest.mark.parametrize("step", ["open", "fsync", "replace"])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EROFS, errno.EIO, errno.EDQUOT])
def test_a_disk_that_fails_at_any_step_leaves_the_old_file(
    step: str, code: int, saved: SessionFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Full, read-only, broken, over quota: told in words, the old file whole, nothing left beside it."""

    def fail(*_: object, **__: object) -> None:
        raise OSError(code, os.strerror(code))

    before = saved.path.read_bytes()
    monkeypatch.setattr(atomic.os, step, fail)
    with pytest.raises(NotSaved) as caught:
        saved.write(arko(call_name="Changed"))
    monkeypatch.undo()
    assert caught.value.reason
    assert os.strerror(code) not in str(caught.value)
    assert saved.path.read_bytes() == before
    assert os.listdir(saved.path.parent) == ["arko.toml"]
    saved.write(arko(call_name="Changed"))
    assert read_session(saved.path).dog.call_name == "Changed"


@posix
def test_a_system_that_lets_no_larger_file_be_written_leaves_the_old_one(saved: SessionFile) -> None:
    """The real refusal, by the system's own limit on the size of files (setrlimit(2))."""
    script = """
import resource, signal, sys
from pathlib import Path
from hands_on.store.atomic import write_atomic
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
try:
    write_atomic(Path(sys.argv[1]), "x" * 100_000)
except OSError as error:
    print("refused", error.errno)
"""
    before = saved.path.read_bytes()
    command = [sys.executable, "-c", script, saved.path]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout == f"refused {errno.EFBIG}\n"
    assert saved.path.read_bytes() == before
    assert os.listdir(saved.path.parent) == ["arko.toml"]


@posix
@pytest.mark.parametrize(
    ("moment", "expected"),
    [("write", "old"), ("fsync", "old"), ("replace", "old"), ("folder", "new")],
)
def test_kill_at_any_moment_leaves_old_or_new(moment: str, expected: str, tmp_path: Path) -> None:
    """SIGKILL half-way through writing, before the flush, before the renaming, and right after it."""
    script = """
import os, signal, sys
from pathlib import Path
from hands_on.store import atomic
path, moment = Path(sys.argv[1]), sys.argv[2]
def die(*args):
    os.kill(os.getpid(), signal.SIGKILL)
class Half:
    def __init__(self, handle, mode): self.handle = handle
    def __enter__(self): return self
    def __exit__(self, *_): pass
    def write(self, data):
        os.write(self.handle, data[: len(data) // 2])
        die()
if moment == "write":
    atomic.open = Half
elif moment == "folder":
    atomic._flush_folder = die
else:
    setattr(atomic.os, moment, die)
atomic.write_atomic(path, "new" * 10_000)
"""
    path = tmp_path / "arko.toml"
    write_atomic(path, "old" * 10_000)
    done = subprocess.run([sys.executable, "-c", script, path, moment], check=False, capture_output=True)
    assert done.returncode == -9, done.stderr.decode()
    assert path.read_text() == expected * 10_000
    assert len(leftovers(path)) == (expected == "old")
    assert {file.name for file in tmp_path.iterdir() if file.suffix == ".toml"} == {"arko.toml"}


@posix
def test_permissions_are_kept(saved: SessionFile) -> None:
    saved.path.chmod(0o640)
    saved.write(arko(call_name="Changed"))
    assert stat.S_IMODE(saved.path.stat().st_mode) == 0o640


@posix
def test_a_link_stays_a_link(saved: SessionFile, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.toml"
    link.symlink_to(saved.path)
    file, session = SessionFile.read(link)
    file.write(with_take(session, 64.5))
    assert link.is_symlink()
    assert read_session(saved.path) == with_take(session, 64.5)


def test_a_file_its_owner_made_read_only_is_not_replaced(
    saved: SessionFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Renaming over it would work; os.access is asked, which for a superuser never says no."""
    before = saved.path.read_bytes()
    monkeypatch.setattr(atomic.os, "access", lambda path, mode: False)
    with pytest.raises(NotSaved, match="may not write"):
        saved.write(arko(call_name="Changed"))
    assert saved.path.read_bytes() == before


def test_a_file_edited_by_hand_meanwhile_is_left(saved: SessionFile) -> None:
    by_hand = saved.path.read_text("utf-8").replace("Arko", "Arkó")
    saved.path.write_text(by_hand, "utf-8")
    with pytest.raises(ChangedOnDisk, match="changed by somebody else"):
        saved.write(arko(call_name="Ours"))
    assert saved.path.read_text("utf-8") == by_hand


def test_an_edit_of_the_same_size_and_time_by_another_program_is_seen(saved: SessionFile) -> None:
    """Editors write a new file beside and rename it: another inode, even where size and time agree."""
    state = saved.path.stat()
    other = saved.path.with_name("other")
    other.write_text(saved.path.read_text("utf-8").replace("Arko", "Arka"), "utf-8")
    os.utime(other, ns=(state.st_atime_ns, state.st_mtime_ns))
    other.replace(saved.path)
    with pytest.raises(ChangedOnDisk):
        saved.write(arko())


def test_a_file_only_touched_or_copied_back_is_not_changed(saved: SessionFile) -> None:
    os.utime(saved.path, (1, 1))
    saved.write(arko(call_name="Ours"))
    assert read_session(saved.path).dog.call_name == "Ours"


def test_a_new_session_never_takes_the_place_of_a_file(tmp_path: Path) -> None:
    path = tmp_path / "arko.toml"
    path.write_text("broken [", "utf-8")
    with pytest.raises(ChangedOnDisk, match="there already"):
        SessionFile(path).write(arko())
    assert path.read_text("utf-8") == "broken ["


def test_a_file_broken_after_it_was_opened_is_left(saved: SessionFile) -> None:
    saved.path.write_text("half a fi", "utf-8")
    with pytest.raises(ChangedOnDisk):
        saved.write(arko())
    assert saved.path.read_text("utf-8") == "half a fi"


def test_a_file_deleted_meanwhile_is_written_again(saved: SessionFile) -> None:
    saved.path.unlink()
    saved.write(arko())
    assert read_session(saved.path) == arko()


def test_a_folder_that_went_away_is_not_made_again(tmp_path: Path) -> None:
    """It may have been a stick: what is written where it was mounted would be hidden by it later."""
    folder = tmp_path / "stick"
    folder.mkdir()
    file = SessionFile(folder / "arko.toml")
    file.write(arko())
    folder.rename(tmp_path / "pocket")
    with pytest.raises(NotSaved, match="folder is not there"):
        file.write(arko(call_name="Later"))
    assert not folder.exists()
    (tmp_path / "pocket").rename(folder)
    file.write(arko(call_name="Later"))
    assert read_session(file.path).dog.call_name == "Later"


def test_a_session_that_no_file_can_hold_is_told_not_raised_through(saved: SessionFile) -> None:
    before = saved.path.read_bytes()
    odd = arko().model_copy(update={"dog": arko().dog.model_copy(update={"attributes": {"coat": object()}})})
    with pytest.raises(NotSaved, match="can't be written"):
        saved.write(odd)
    assert saved.path.read_bytes() == before


def test_the_text_of_a_session_is_what_is_written(saved: SessionFile) -> None:
    assert saved.path.read_bytes() == dump_session(arko()).encode()
