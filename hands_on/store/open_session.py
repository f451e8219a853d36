"""The session being examined: in memory and on disk at once.

create / open -> lock, read -> put, put, put ... -> close
                                | failing: `unsaved` says why, the answers stay here
                                +-> try_again, save_elsewhere
"""

from __future__ import annotations

import datetime
import os
from pathlib import Path
from typing import TYPE_CHECKING, Self

from hands_on.store.errors import ChangedOnDisk, NotSaved, SessionBusy, reason_of
from hands_on.store.letters import slug
from hands_on.store.lock import SessionLock
from hands_on.store.places import can_be_named, close_own_folders, typed_path
from hands_on.store.private import make_folder
from hands_on.store.session_file import SessionFile, read_session

if TYPE_CHECKING:
    from hands_on.exam.session import Session


class OpenSession:
    """A session opened here; use `open` or `create`, and `close` it, or use it as a context."""

    def __init__(
        self, file: SessionFile, session: Session, lock: SessionLock, when: datetime.datetime
    ) -> None:
        self._file, self._lock, self._since = file, lock, when
        self.session = session
        """The answers as they are now, saved or not."""
        self.unsaved = ""
        """Not empty: the answers are only in memory, and why. No capital, no full stop."""
        self.changed_on_disk = False
        """The reason is that somebody else wrote the file: saving elsewhere helps, trying again does not."""
        self.holder = ""
        """Who else holds the session: user, machine, process, since when."""
        self._unmade: Path | None = None
        """The sessions' folder, where it could not be made; a folder that was there is never made again."""
        self.warning = lock.warning
        """Not empty: nobody else can be kept out, and why."""

    @classmethod
    def open(cls, path: Path, when: datetime.datetime) -> OpenSession:
        """Open an existing session; for reading only when another process holds it (`read_only`).

        `when` is now, for others to read. Raises BadText when the file can't be used; it is left as it is.
        """
        if not os.path.isfile(path):
            read_session(path)  # raises, and says what is there instead
        lock = SessionLock(path)
        taken = lock.take(when)
        try:
            file, session = SessionFile.read(path)
        except BaseException:
            lock.release()
            raise
        opened = cls(file, session, lock, when)
        if not taken:
            opened.holder = lock.holder()
        return opened

    @classmethod
    def create(cls, folder: Path, session: Session, when: datetime.datetime) -> OpenSession:
        """Start a session's file in `folder`, which is made if it is not there.

        The name is `YYYY-MM-DD-callname-evaluator.toml` by the date of `when`, with a number where it is
        taken. Where nothing can be written the session is open all the same, and `unsaved` says why.
        """
        try:
            make_folder(folder)
            close_own_folders()
        except OSError as error:
            path = folder / file_name(session, when)
            opened = cls(SessionFile(path), session, SessionLock(path), when)
            opened.unsaved, opened._unmade = reason_of(error), folder
            return opened
        number = 1
        while True:
            path = folder / file_name(session, when, number)
            number += 1
            lock = SessionLock(path)
            if os.path.lexists(path) or not lock.take(when):
                continue
            opened = cls(SessionFile(path), session, lock, when)
            opened.put(session)
            if not opened.changed_on_disk:
                return opened
            lock.release()

    @property
    def path(self) -> Path:
        """The session's file."""
        return self._file.path

    @property
    def read_only(self) -> bool:
        """Does another process hold the session?"""
        return bool(self.holder)

    def put(self, session: Session) -> bool:
        """Take `session` as what holds now and save it at once; was it saved?

        When not, `unsaved` says why and the answers stay in memory. Raises SessionBusy when the session is
        open for reading only.
        """
        if self.read_only:
            raise SessionBusy(self.path, self.holder)
        self.session = session
        if self.unsaved:
            return self.try_again()
        return self._save()

    def try_again(self) -> bool:
        """Save what is in memory, or, when open for reading only, see whether the holder has gone.

        True when all is on disk and held here. Raises BadText when a session read again after its holder
        went can't be used.
        """
        if self.read_only:
            return self._take_over()
        if self._unmade is not None:
            try:
                make_folder(self._unmade)
            except OSError as error:
                self.unsaved = reason_of(error)
                return False
            self._unmade = None
        return self._save()

    def save_elsewhere(self, path: Path) -> None:
        """Go on in another file: `path`, or under the same name in it when it is a folder.

        Raises NotSaved (ChangedOnDisk when a file is there already, which is left as it is); nothing has
        changed then.
        """
        if not can_be_named(path):
            raise NotSaved(path, "no file can have this name")
        path = typed_path(str(path))
        if os.path.isdir(path):
            path /= self.path.name
        elif not path.suffix:
            path = path.with_suffix(".toml")
        lock = SessionLock(path)
        if not lock.take(self._since):
            raise NotSaved(path, f"this file is open elsewhere ({lock.holder()})")
        file = SessionFile(path)
        try:
            file.write(self.session)
        except NotSaved:
            lock.release()
            raise
        self._lock.release()
        self._file, self._lock = file, lock
        self.unsaved, self.holder, self.changed_on_disk, self._unmade = "", "", False, None
        self.warning = lock.warning

    def beside(self) -> Path:
        """A free name beside the session's file, to offer for `save_elsewhere`."""
        number = 2
        while os.path.lexists(path := self.path.with_stem(f"{self.path.stem}-{number}")):
            number += 1
        return path

    def close(self) -> None:
        """Let others have the session. What is unsaved is lost with this object."""
        self._lock.release()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _save(self) -> bool:
        # Since the last answer the lock's file may have been cleared away, or the folder changed for another.
        if not self._keep_out_others():
            return False
        try:
            self._file.write(self.session)
        except NotSaved as error:
            self.unsaved, self.changed_on_disk = error.reason, isinstance(error, ChangedOnDisk)
            return False
        self.unsaved, self.changed_on_disk = "", False
        return True

    def _keep_out_others(self) -> bool:
        if not self._lock.held() and not self._lock.take(self._since):
            self.unsaved = f"the session is now open elsewhere ({self._lock.holder()})"
            return False
        self.warning = self._lock.warning
        return True

    def _take_over(self) -> bool:
        if not self._lock.take(self._since):
            self.holder = self._lock.holder()
            return False
        try:
            self._file, self.session = SessionFile.read(self.path)
        except BaseException:
            self._lock.release()
            raise
        self.holder, self.warning = "", self._lock.warning
        return True


def file_name(session: Session, when: datetime.datetime, number: int = 1) -> str:
    """The name of a new session's file: date, dog and evaluator in plain letters, a number from 2 on."""
    parts = [f"{when:%Y-%m-%d}", slug(session.dog.call_name) or "dog"]
    parts += [slug(session.examination.evaluator) or "evaluator"]
    return "-".join([*parts, *([str(number)] if number > 1 else [])]) + ".toml"
