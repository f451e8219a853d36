"""What happens when the disk fails at any one call of a save? The old file or the new one, told in words.

    python -m tests.bench.disk

Every system call that a save makes is made to fail in turn, with each error a disk can give; then the folder
vanishes, is replaced by another, or turns into a file. Exit code 1 if anything was lost or left behind.
"""

from __future__ import annotations

import datetime
import errno
import os
import shutil
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from unittest import mock

from hands_on.exam.session import Session
from hands_on.store import atomic
from hands_on.store.open_session import OpenSession
from hands_on.store.session_file import read_session

NOW = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.UTC)
CODES = (errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.EIO, errno.EACCES, errno.ESTALE, errno.ENODEV)
CALLS = ("open", "fsync", "chmod", "replace", "link", "fstat", "stat", "access", "close", "mkdir", "unlink")


def main() -> int:
    """Try everything; print what failed."""
    bad = tried = 0
    for call in CALLS:
        for code in CODES:
            for new in (False, True):
                tried += 1
                told = failing(call, code, new)
                if told:
                    bad += 1
                    print(f"BAD {call} {errno.errorcode[code]} {'new' if new else 'old'} file: {told}")
    for name, change in CHANGES.items():
        tried += 1
        told = changed(change)
        if told:
            bad += 1
            print(f"BAD folder {name}: {told}")
    print(f"{tried} failures of the disk tried, {bad} with anything lost, left behind or not told")
    return 1 if bad else 0


def failing(call: str, code: int, new: bool) -> str:
    """One call fails during a save: what is wrong afterwards, empty where nothing is."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "sessions"
        really = getattr(os, call)

        def fail(*given: object, **how: object) -> object:
            if call == "close":  # closed all the same, as close(2) has it
                really(*given, **how)
            raise OSError(code, os.strerror(code))

        if new:
            with mock.patch.object(atomic.os, call, fail):
                opened = OpenSession.create(folder, answered(0), NOW)
        else:
            opened = OpenSession.create(folder, answered(0), NOW)
        with opened:
            with mock.patch.object(atomic.os, call, fail):
                saved = opened.put(answered(1))
            return wrong_after(opened, saved)


def wrong_after(opened: OpenSession, saved: bool) -> str:
    """Compares what is told with what is on the disk, then saves again."""
    if len(opened.session.takes) != 1:
        return "the answer is not in memory"
    there = opened.path.is_file()
    held = len(read_session(opened.path).takes) if there else -1
    if saved and held != 1:
        return "said to be saved, and is not"
    if not saved and not opened.unsaved:
        return "not saved, and no reason told"
    if not opened.try_again() and not opened.changed_on_disk:
        return f"not saved once the disk was well again: {opened.unsaved}"
    opened.close()
    OpenSession.open(opened.path, NOW).close()  # clears what a failing disk did not let go of
    litter = [one.name for one in opened.path.parent.iterdir() if one.name.endswith(".saving")]
    return f"left behind: {litter}" if litter else ""


def changed(change: Callable[[Path], None]) -> str:
    """The folder changes under an open session."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "sessions"
        with OpenSession.create(folder, answered(0), NOW) as opened:
            change(folder)
            saved = opened.put(answered(1))
            if len(opened.session.takes) != 1:
                return "the answer is not in memory"
            if saved:
                return "" if len(read_session(opened.path).takes) == 1 else "said to be saved, and is not"
            if not opened.unsaved:
                return "not saved, and no reason told"
            opened.save_elsewhere(Path(name) / "elsewhere.toml")
            return "" if len(read_session(opened.path).takes) == 1 else "not saved elsewhere"


def vanishes(folder: Path) -> None:
    """As a stick pulled out."""
    shutil.move(folder, folder.with_name("pocket"))


def is_replaced(folder: Path) -> None:
    """As another stick put in."""
    vanishes(folder)
    folder.mkdir()


def is_a_file(folder: Path) -> None:
    """A file of the folder's name."""
    vanishes(folder)
    folder.write_text("", "utf-8")


CHANGES = {"vanishes": vanishes, "is replaced": is_replaced, "is a file": is_a_file}


def answered(takes: int) -> Session:
    """A session with so many readings."""
    rows = [{"point": "height", "value": 60.0 + n} for n in range(takes)]
    return Session.model_validate({"ruleset": {"id": "any-dog"}, "dog": {"call_name": "Arko"}, "takes": rows})


if __name__ == "__main__":
    sys.exit(main())
