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
from hands_on.store.private import FILE, beside, new_file

if TYPE_CHECKING:
    from filelock import BaseFileLock

_TRIES = 20
"""So often a lock is tried that another process was just giving back; then it counts as held."""

_LONGEST_NOTE = 4096
"""Bytes of what a holder says of itself."""

_NO_FOLLOW = getattr(os, "O_NOFOLLOW", 0)


class SessionLock:
    """The lock of one session's file; the system lets go of it when the process ends, however it ends."""

    def __init__(self, path: Path) -> None:
        # A link and the file it points at are one session.
        self._target = Path(os.path.realpath(path))
        self._path, self._note = beside(self._target, ".lock"), beside(self._target, ".holder")
        self._lock: BaseFileLock | None = None
        self._inode: tuple[int, int] | None = None
        self.warning = ""
        """Not empty: no lock can be had in this folder, and why."""

    def take(self, when: datetime.datetime) -> bool:
        """Take the lock without waiting; False when another process holds it.

        In a folder that cannot hold a lock (read-only, gone, a file system without locks) this is True
        with `warning` set: nobody else can be kept out, but the session can still be worked on.
        """
        self._let_go()
        self.warning = ""
        if not os.path.isdir(self._path.parent):  # some versions of filelock would make it
            self.warning = f"nobody else can be kept out: {reason_of(FileNotFoundError(2, ''))}"
            return True
        for _ in range(_TRIES):
            try:
                if self._try(when):
                    return True
                # A holder that closes takes the name away while it still has the lock. Whoever opened the
                # file before that has a lock that guards no name, and tries again with a file that is there.
                if self._found() is None:
                    os.close(os.open(self._path, os.O_RDWR | os.O_CREAT | _NO_FOLLOW, FILE))
            except (OSError, NotImplementedError, ValueError) as error:
                reason = reason_of(error) if isinstance(error, OSError) else "no lock can be put there"
                self.warning = f"nobody else can be kept out: {reason}"
                return True
        return False

    def _try(self, when: datetime.datetime) -> bool:
        """Take the lock if it is free, and if it is the one that its name refers to."""
        from filelock import FileLock, Timeout

        lock = FileLock(self._path, thread_local=False, mode=FILE)
        try:
            lock.acquire(timeout=0)
        except Timeout:
            return False
        self._lock, self._inode = lock, self._found()
        if not self.held():
            self._let_go()
            return False
        self._move_in(when)
        return True

    def held(self) -> bool:
        """Is the lock taken here, and still the one that others meet?

        Not so after the folder went away and came back.
        """
        return self._lock is not None and self._inode is not None and self._inode == self._found()

    def holder(self) -> str:
        """Who holds the lock: user, machine, process, since when."""
        try:
            told = json.loads(self._read_note())
            who = f"{told['user']} on {told['host']}, process {told['pid']}"
            since = datetime.datetime.fromisoformat(told["since"])
            # The note may come from anywhere; nothing in it may move somebody's cursor.
            return "".join(filter(str.isprintable, f"{who}, since {since:%Y-%m-%d %H:%M}"))
        except (OSError, ValueError, KeyError, TypeError):
            return "another process"

    def _read_note(self) -> bytes:
        """The note, if it is an ordinary small file; a link or a pipe of that name is neither followed nor
        waited for. Raises OSError."""
        handle = os.open(self._note, os.O_RDONLY | _NO_FOLLOW | getattr(os, "O_NONBLOCK", 0))
        with open(handle, "rb") as file:
            return file.read(_LONGEST_NOTE)

    def release(self) -> None:
        """Let go of the lock and remove what it left in the folder."""
        if self.held():
            with suppress(OSError):
                self._note.unlink(missing_ok=True)
            # While still held, so that nobody else's lock can be hit: another process that has the file open
            # is refused until we let go, and then finds that its file has no name any more.
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
            with suppress(FileNotFoundError):
                self._note.unlink()
            with open(new_file(self._note), "w", encoding="utf-8") as file:
                json.dump(told, file)


def _user() -> str:
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "somebody"


def _host() -> str:
    import socket

    return socket.gethostname() or "an unnamed machine"
