"""One session's file: read, written as people read it, and never overwritten when somebody else wrote it."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.frozen import dataclass
from hands_on.store.atomic import Stamp, stamp_of, write_atomic
from hands_on.store.errors import ChangedOnDisk, NotSaved, reason_of
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.bounds import LARGEST_TEXT

if TYPE_CHECKING:
    from hands_on.exam.session import Session

__all__ = ["SessionFile", "dump_session", "parse_session", "read_session", "write_atomic"]

_LAST = ("at", "by", "note")
"""Who answered when stands after the answer."""

_THERE = "a file of this name is there already; it was left as it is"

_ONE_LINE = 100
"""Characters; a list that fits is written on one line."""


def read_session(path: Path) -> Session:
    """The session in `path`.

    Raises BadText with line and reason: no such file, a folder, empty, cut off, not UTF-8, not TOML, keys
    that do not fit, a newer format.
    """
    return parse_session(decode(read_bytes(path), str(path)), str(path))


def parse_session(text: str, file: str) -> Session:
    """The session written in `text`. Raises BadText."""
    from hands_on.exam.check import read_session_text

    return read_session_text(text, file)


def dump_session(session: Session) -> str:
    """The session as the text of its file: what is empty is left out, unknown keys are kept.

    Reading the text gives an equal session.
    """
    # Without warnings: they would be printed into the screen; what can't be written is told by the writer.
    given = session.model_dump(by_alias=True, exclude_defaults=True, warnings=False)
    tables = _plain({"format": session.format, **given})
    # tomli-w turns \r\n into \n inside multi-line texts; where that would change words, none are used.
    lines = not _holds_crlf(tables)
    heads, blocks = [], []
    for key, value in tables.items():
        if _is_list_of_tables(value):
            blocks += [_entry(key, entry, lines) for entry in value]
        elif isinstance(value, dict):
            blocks.append(_table(f"[{_key(key)}]\n", key, value, lines))
        else:
            heads.append(_literal(key, value, lines))
    return "\n".join(["".join(heads), *blocks])


def _entry(key: str, entry: dict[str, Any], lines: bool) -> str:
    return _table(f"[[{_key(key)}]]\n", key, entry, lines)


def _table(head: str, key: str, table: dict[str, Any], lines: bool) -> str:
    """One table under its own header, plain values first, tables inside it after them."""
    import tomli_w

    rows, inner = [], []
    for name, value in table.items():
        if _is_table_block(name, value, lines):
            inner.append("\n" + tomli_w.dumps({key: {name: value}}, multiline_strings=lines))
        else:
            rows.append(_literal(name, value, lines))
    return head + "".join(rows) + "".join(inner)


def _is_table_block(name: str, value: Any, lines: bool) -> bool:
    """Would tomli-w write it with a header of its own, rather than as `name = ...`?"""
    import tomli_w

    if isinstance(value, dict):
        return True
    return _is_list_of_tables(value) and tomli_w.dumps({name: value}, multiline_strings=lines).startswith("[")


def _literal(name: str, value: Any, lines: bool) -> str:
    import tomli_w

    text = tomli_w.dumps({name: value}, multiline_strings=lines)
    if isinstance(value, list) and value and not any(isinstance(entry, dict | list) for entry in value):
        rows = tomli_w.dumps({name: value}, indent=0).rstrip("\n").split("\n")
        line = rows[0] + " ".join(rows[1:-1]).rstrip(",") + rows[-1]
        return line + "\n" if len(line) <= _ONE_LINE else text
    return text


def _key(name: str) -> str:
    import tomli_w

    return tomli_w.dumps({name: 0}).removesuffix(" = 0\n")


def _is_list_of_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(entry, dict) for entry in value)


def _plain(value: Any) -> Any:
    """Only what TOML can hold: no nulls, no half characters; who and when after what."""
    if isinstance(value, Mapping):
        keys = [key for key in value if key not in _LAST] + [key for key in _LAST if key in value]
        return {_plain(key): _plain(value[key]) for key in keys if value[key] is not None}
    if isinstance(value, list | tuple):
        return ["" if entry is None else _plain(entry) for entry in value]
    if isinstance(value, str):
        # A terminal may hand over halves of characters, which no UTF-8 file can hold.
        return value.encode("utf-8", "replace").decode()
    return value


def _holds_crlf(value: Any) -> bool:
    if isinstance(value, dict):
        return any(map(_holds_crlf, value.values()))
    if isinstance(value, list):
        return any(map(_holds_crlf, value))
    return isinstance(value, str) and "\r\n" in value


@dataclass(frozen=True)
class _Seen:
    """A file as it was when last read or written here."""

    stamp: Stamp
    digest: str


class SessionFile:
    """A session's file and how it stood when last seen, so that nobody else's changes are overwritten."""

    def __init__(self, path: Path) -> None:
        """A file that is to be written for the first time; use `read` for one that exists."""
        self.path = path
        self._seen: _Seen | None = None

    @classmethod
    def read(cls, path: Path) -> tuple[SessionFile, Session]:
        """The file and the session in it. Raises BadText."""
        file = cls(path)
        try:
            stamp = stamp_of(
                os.stat(path)
            )  # before reading: a change while we read then shows at the next write
        except (OSError, ValueError):  # reading says what is wrong
            stamp = (0, 0, 0)
        data = read_bytes(path)
        session = parse_session(decode(data, str(path)), str(path))
        file._seen = _Seen(stamp, hashlib.sha256(data).hexdigest())
        return file, session

    def write(self, session: Session) -> None:
        """Write the whole file anew.

        A file deleted by somebody is written again as long as its folder is there.

        Raises ChangedOnDisk when the file is not the one last seen here (edited by hand, written by another
        program, or there although it should be new), NotSaved when the system refuses. The file on disk is
        then as it was.
        """
        try:
            self._refuse_changed()
            text = dump_session(session)
            if len(text) > LARGEST_TEXT:
                raise NotSaved(self.path, "the session has grown so large that it could not be read again")
            # Looked at once more when all but the name is on disk: flushing may take a long time.
            stamp = write_atomic(self.path, text, new=self._seen is None, last_look=self._refuse_changed)
            self._seen = _Seen(stamp, hashlib.sha256(text.encode()).hexdigest())
        except FileExistsError as error:
            raise ChangedOnDisk(self.path, _THERE) from error
        except OSError as error:
            raise NotSaved(self.path, reason_of(error)) from error
        except (TypeError, ValueError, RecursionError) as error:
            reason = f"the session holds something that can't be written ({error})"
            raise NotSaved(self.path, reason) from error

    def _refuse_changed(self) -> None:
        try:
            stamp = stamp_of(os.stat(self.path))
        except FileNotFoundError:
            return
        if self._seen is None:
            raise ChangedOnDisk(self.path, _THERE)
        if stamp == self._seen.stamp:
            return
        digest = hashlib.sha256(self.path.read_bytes()).hexdigest()
        if digest != self._seen.digest:
            reason = "the file was changed by somebody else since it was opened here; it was left as it is"
            raise ChangedOnDisk(self.path, f"{reason}, and your answers can be saved beside it")
        self._seen = _Seen(stamp, digest)
