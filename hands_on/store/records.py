"""The sessions kept in a folder, by an index that is made again whenever it is not there or not sound.

refresh: folder -> (only what is new or changed) -> headers.py, taken.py -> index
list, find: index -> rows
taken: index -> readings of one evaluator, for own_hand.py
"""

from __future__ import annotations

import os
import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, Self, TypeVar

from hands_on.frozen import dataclass
from hands_on.store.conflict_copies import original_of
from hands_on.store.errors import StoreError, reason_of
from hands_on.store.hand_takes import Taken, hand_key, stored_readings
from hands_on.store.headers import (
    FIELDS,
    ROUND_FILE,
    SessionHeader,
    header_of,
    newest_key,
    row_of,
    search_text,
    searchable,
    values_of,
)
from hands_on.store.places import close_own_folders
from hands_on.store.private import FILE, make_folder, new_file
from hands_on.store.text_file import read_bytes
from hands_on.toml_text.problems import BadText

_VERSION = 3
"""Of the index's layout; an index of another version is made again."""

_BATCH = 200
"""Files read between two writes to the index."""

_EXAMINATIONS = f"kind <> '{ROUND_FILE}'"
"""What tells them from the files of rounds that lie among them."""

_SCHEMA = f"""
CREATE TABLE sessions (
    name BLOB PRIMARY KEY, changed INTEGER NOT NULL, size INTEGER NOT NULL,
    newest TEXT NOT NULL, search TEXT NOT NULL, {", ".join(FIELDS)}
) WITHOUT ROWID;
CREATE INDEX by_newest ON sessions (newest DESC, name);
CREATE TABLE takes (
    name BLOB PRIMARY KEY, evaluator TEXT NOT NULL, newest TEXT NOT NULL, dog TEXT NOT NULL,
    day TEXT NOT NULL, readings TEXT NOT NULL
) WITHOUT ROWID;
CREATE INDEX takes_by_evaluator ON takes (evaluator, newest DESC);
PRAGMA user_version = {_VERSION};
"""

Result = TypeVar("Result")


@dataclass(frozen=True)
class Refreshed:
    """What a refresh found."""

    read: int
    """Files new or changed, read now."""
    gone: int
    """Files no longer there, forgotten."""
    left: int
    """Files still to be read, where the refresh was to stop before."""
    problem: str = ""
    """Not empty: the folder can't be read, and why; what the index knows is kept."""


class Records:
    """The index of one folder's sessions; safe to use from several threads and processes.

    Raises StoreError when another process keeps the index for longer than ten seconds."""

    def __init__(self, folder: Path, index: Path) -> None:
        self.folder, self.index = folder, index
        self._guard = threading.RLock()
        self._renewals = 0
        self._in_memory = False
        self._database: sqlite3.Connection | None = None

    def refresh(self, at_most: int | None = None, holding: str = "") -> Refreshed:
        """Read the files that are new or changed since they were last read, newest files first.

        With `at_most` no more than so many, for showing progress; call again while `left` is not 0. With
        `holding` only those that have this word in them, and those that had been read before.
        """
        try:
            there = _files_in(self.folder)
        except OSError as error:
            if isinstance(error, FileNotFoundError) and not self.count():
                return Refreshed(0, 0, 0)  # nothing was ever kept there
            return Refreshed(0, 0, 0, f"The folder {self.folder} can't be read: {reason_of(error, 'read')}.")
        renewals = self._renewals
        known = self._run(_known)
        gone = [name for name in known if name not in there]
        stale = [name for name, stamp in there.items() if known.get(name) != stamp]
        stale.sort(key=lambda name: there[name], reverse=True)
        if holding:
            wanted = [name for name in stale if name in known or _has(self.folder, name, holding)]
        else:
            wanted = stale
        wanted = wanted[:at_most]
        if gone:
            self._run(lambda database: _forget(database, gone))
        for batch in _batches(wanted):
            rows = [_indexed(self.folder, name, there[name]) for name in batch]
            self._run(partial(_keep, rows))
        if renewals != self._renewals:  # what was known before is no longer in the index
            return self.refresh(at_most, holding)
        return Refreshed(len(wanted), len(gone), len(stale) - len(wanted))

    def find(self, text: str, limit: int = 200) -> tuple[SessionHeader, ...]:
        """Sessions that hold every word of `text`, newest first.

        Looked for in names, evaluator, place, numbers, parents, ruleset, dates and the file's name, in any
        part of a word; case and accents do not count.
        """
        words = searchable(text).split()
        condition = " AND ".join(["instr(search, ?) > 0"] * len(words)) or "1"
        return self._rows(f"AND {condition} ORDER BY newest DESC, name LIMIT ?", [*words, limit])

    def list(self, limit: int = -1, offset: int = 0) -> tuple[SessionHeader, ...]:
        """Sessions, the newest examination first; broken files by when they were last changed."""
        return self._rows("ORDER BY newest DESC, name LIMIT ? OFFSET ?", [limit, offset])

    def taken(self, evaluator: str, limit: int, without: str = "") -> tuple[Taken, ...]:
        """What an evaluator read in the newest finished sessions, at most `limit` of them.

        `without` is the name of a file that is left out.
        """
        query = (
            "SELECT evaluator, dog, day, readings FROM takes WHERE evaluator = ? AND name <> ? "
            "ORDER BY newest DESC, name LIMIT ?"
        )
        bound = (hand_key(evaluator), os.fsencode(without), limit)
        found = self._found(query, bound)
        return tuple(Taken(who, dog, day, stored_readings(text)) for who, dog, day, text in found)

    def taken_by_all(self, limit: int, without: str = "") -> tuple[Taken, ...]:
        """As `taken`, of every evaluator."""
        query = (
            "SELECT evaluator, dog, day, readings FROM takes WHERE name <> ? "
            "ORDER BY newest DESC, name LIMIT ?"
        )
        found = self._found(query, (os.fsencode(without), limit))
        return tuple(Taken(who, dog, day, stored_readings(text)) for who, dog, day, text in found)

    def rounds(self) -> tuple[Path, ...]:
        """The files of seminar rounds in the folder, the last changed first."""
        found = self._found("SELECT name FROM sessions WHERE kind = ? ORDER BY newest DESC", (ROUND_FILE,))
        return tuple(self.folder / os.fsdecode(name) for (name,) in found)

    def count(self) -> int:
        """How many examinations the index knows, broken files among them."""
        query = f"SELECT count(*) FROM sessions WHERE {_EXAMINATIONS}"
        return int(self._run(lambda database: database.execute(query).fetchone()[0]))

    def close(self) -> None:
        """Close the index."""
        with self._guard:
            self._drop()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _rows(self, rest: str, values: Iterable[Any]) -> tuple[SessionHeader, ...]:
        query = f"SELECT name, {', '.join(FIELDS)} FROM sessions WHERE {_EXAMINATIONS} {rest}"
        found = self._found(query, tuple(values))
        rows = (row_of(self.folder / os.fsdecode(row[0]), row[1:]) for row in found)
        return tuple(replace(row, copy_of=self._original(row)) for row in rows)

    def _original(self, row: SessionHeader) -> str:
        """The name of the file that this one is a conflict copy of: of the same dog, evaluator and start."""
        name = original_of(row.path.name)
        if name is None or row.problem is not None or row.started is None:
            return ""
        query = "SELECT 1 FROM sessions WHERE name = ? AND started = ? AND evaluator = ? AND call_name = ?"
        bound = (os.fsencode(name), row.started.isoformat(), row.evaluator, row.call_name)
        return name if self._found(query, bound) else ""

    def _found(self, query: str, bound: tuple[Any, ...]) -> Sequence[Any]:
        """What a query finds; an index that had to be made again is filled first."""
        renewals = self._renewals
        found = self._run(lambda database: database.execute(query, bound).fetchall())
        if renewals != self._renewals:
            self.refresh()
            found = self._run(lambda database: database.execute(query, bound).fetchall())
        return found

    def _run(self, work: Callable[[sqlite3.Connection], Result]) -> Result:
        """Do `work` on the index; one that is not sound is made again, at the last in memory."""
        with self._guard:
            while True:
                try:
                    return work(self._open())
                except sqlite3.DatabaseError as error:
                    if "locked" in str(error):
                        raise StoreError(f"Another program keeps the index {self.index} busy.") from error
                    if self._in_memory:
                        raise
                    self._renew()

    def _renew(self) -> None:
        """Throw the index away; the second time in this program's life the disk is not trusted with it."""
        self._drop()
        self._in_memory = self._renewals > 0
        self._renewals += 1
        for path in (self.index, self.index.with_name(f"{self.index.name}-journal")):
            with suppress(OSError):
                path.unlink()

    def _open(self) -> sqlite3.Connection:
        if self._database is None:
            try:
                if not self._in_memory:
                    _make_private(self.index)
            except (
                OSError,
                ValueError,
            ):  # no cache folder to be had: an index that lasts as long as the program
                self._in_memory = True
            self._database = _connect(":memory:" if self._in_memory else str(self.index))
        return self._database

    def _drop(self) -> None:
        if self._database is not None:
            self._database.close()
            self._database = None


def _make_private(index: Path) -> None:
    """The index is there and its owner's alone, before anything is written into it. Raises OSError."""
    make_folder(index.parent)
    close_own_folders()
    if os.path.islink(index):  # nobody but this program writes here
        index.unlink()
    try:
        os.close(new_file(index))
    except FileExistsError:
        if os.stat(index).st_mode & 0o077:
            os.chmod(index, FILE)


def _connect(name: str) -> sqlite3.Connection:
    database = sqlite3.connect(name, timeout=10, check_same_thread=False, isolation_level="IMMEDIATE")
    try:
        # The index can be made again at any time, so nobody needs to wait for the disk.
        database.execute("PRAGMA synchronous = OFF")
        database.execute("BEGIN IMMEDIATE")  # fails at once where the index can only be read
        database.commit()
        if database.execute("PRAGMA user_version").fetchone()[0] != _VERSION:
            drop = "DROP TABLE IF EXISTS sessions; DROP TABLE IF EXISTS takes;"
            database.executescript(f"BEGIN IMMEDIATE; {drop} {_SCHEMA} COMMIT;")
    except BaseException:
        database.close()
        raise
    return database


def _files_in(folder: Path) -> dict[bytes, tuple[int, int]]:
    """Name -> (last changed in ns, size) of the session files in the folder itself."""
    found: dict[bytes, tuple[int, int]] = {}
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.endswith(".toml") and not entry.name.startswith("."):
                with suppress(OSError):
                    if entry.is_file():
                        state = entry.stat()
                        found[os.fsencode(entry.name)] = (state.st_mtime_ns, state.st_size)
    return found


def _has(folder: Path, name: bytes, word: str) -> bool:
    """Has a file this word in it? Quicker to see than what it says; one that can't be read has not."""
    try:
        return word.encode() in read_bytes(folder / os.fsdecode(name))
    except BadText:
        return False


def _known(database: sqlite3.Connection) -> dict[bytes, tuple[int, int]]:
    rows = database.execute("SELECT name, changed, size FROM sessions")
    return {name: (changed, size) for name, changed, size in rows}


def _forget(database: sqlite3.Connection, names: Iterable[bytes]) -> None:
    listed = [(name,) for name in names]
    with database:
        for table in ("sessions", "takes"):
            database.executemany(f"DELETE FROM {table} WHERE name = ?", listed)


def _keep(rows: Sequence[_Indexed], database: sqlite3.Connection) -> None:
    places = ", ".join("?" * (5 + len(FIELDS)))
    taken = [row.taken for row in rows if row.taken is not None]
    with database:
        database.executemany("DELETE FROM takes WHERE name = ?", [row.session[:1] for row in rows])
        database.executemany(
            f"INSERT OR REPLACE INTO sessions VALUES ({places})", [row.session for row in rows]
        )
        database.executemany("INSERT INTO takes VALUES (?, ?, ?, ?, ?, ?)", taken)


@dataclass(frozen=True)
class _Indexed:
    """What the index holds of one file: a row of each table."""

    session: tuple[Any, ...]
    taken: tuple[Any, ...] | None


def _indexed(folder: Path, name: bytes, stamp: tuple[int, int]) -> _Indexed:
    row, taken = header_of(folder / os.fsdecode(name))
    newest = newest_key(row, stamp[0])
    held = None
    if taken is not None:
        held = (name, _held(taken.evaluator), newest, _held(taken.dog), taken.day, _held(taken.stored))
    return _Indexed((name, *stamp, newest, search_text(row), *values_of(row)), held)


def _held(text: str) -> str:
    """The text such that the index can hold it."""
    return text.encode("utf-8", "replace").decode()


def _batches(names: Sequence[bytes]) -> Iterator[Sequence[bytes]]:
    for start in range(0, len(names), _BATCH):
        yield names[start : start + _BATCH]
