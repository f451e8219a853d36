"""One process at a time writes a session: the lock beside its file, and who holds it."""

from __future__ import annotations

import datetime
import json
import os
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.store.atomic import leftovers
from hands_on.store.errors import reason_of

if TYPE_CHECKING:
    from filelock import BaseFileLock


class SessionLock:
    """The lock of one session's file; the system lets go of it when the process ends, however it ends."""

    def __init__(self, path: Path) -> None:
        # A link and the file it points at are one session.
        target = Path(os.path.realpath(path))
        self._target = target
        self._path = target.with_name(f".{target.name}.lock")
        self._note = target.with_name(f".{target.name}.holder")
        self._lock: BaseFileLock | None = None
        self._inode: tuple[int, int] | None = None
        self.warning = ""
        """Not empty: no lock can be had in this folder, and why."""

    def take(self, when: datetime.datetime) -> bool:
        """Take the lock without waiting; False when another process holds it.

        In a folder that cannot hold a lock (read-only, gone, a file system without locks) this is True
        with `warning` set: nobody else can be kept out, but the session can still be worked on.
        """
        from filelock import FileLock, Timeout

        self._let_go()
        self.warning = ""
        if not self._path.parent.is_dir():  # some versions of filelock would make it
            self.warning = f"nobody else can be kept out: {reason_of(FileNotFoundError(2, ''))}"
            return True
        for _ in range(3):
            lock = FileLock(self._path, thread_local=False)
            try:
                lock.acquire(timeout=0)
            except Timeout:
                continue
            except (OSError, NotImplementedError) as error:
                reason = reason_of(error) if isinstance(error, OSError) else "this disk knows no locks"
                self.warning = f"nobody else can be kept out: {reason}"
                return True
            self._lock, self._inode = lock, self._found()
            if self.held():
                self._move_in(when)
                return True
            # The holder before us removed the file while we took it: that lock guards no name any more.
            self._let_go()
        if not self._path.exists():  # filelock takes a folder that makes no files for a busy one
            self.warning = "nobody else can be kept out: no lock can be put there"
            return True
        return False

    def held(self) -> bool:
        """Is the lock taken here, and still the one that others meet?

        Not so after the folder went away and came back.
        """
        return self._lock is not None and self._inode is not None and self._inode == self._found()

    def holder(self) -> str:
        """Who holds the lock: user, machine, process, since when."""
        try:
            told = json.loads(self._note.read_text("utf-8"))
            who = f"{told['user']} on {told['host']}, process {told['pid']}"
            since = datetime.datetime.fromisoformat(told["since"])
            # The note may come from anywhere; nothing in it may move somebody's cursor.
            return "".join(filter(str.isprintable, f"{who}, since {since:%Y-%m-%d %H:%M}"))
        except (OSError, ValueError, KeyError, TypeError):
            return "another process"

    def release(self) -> None:
        """Let go of the lock and remove what it left in the folder."""
        if self.held():
            with suppress(OSError):
                self._note.unlink(missing_ok=True)
            # While still held, so that no other process's lock can be hit; `take` looks for the rest.
            with suppress(OSError):
                self._path.unlink(missing_ok=True)
        self._let_go()

    def _let_go(self) -> None:
        if self._lock is not None:
            with suppress(OSError):
                self._lock.release(force=True)
            self._lock = None

    def _found(self) -> tuple[int, int] | None:
        """Which file the lock's name refers to now."""
        try:
            found = self._path.stat()
        except OSError:
            return None
        return found.st_dev, found.st_ino

    def _move_in(self, when: datetime.datetime) -> None:
        for path in leftovers(self._target):
            with suppress(OSError):
                path.unlink()
        told = {"user": _user(), "host": _host(), "pid": os.getpid(), "since": when.isoformat()}
        with suppress(OSError):
            self._note.write_text(json.dumps(told, ensure_ascii=False), "utf-8")


def _user() -> str:
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "somebody"


def _host() -> str:
    import socket

    return socket.gethostname() or "an unnamed machine"
