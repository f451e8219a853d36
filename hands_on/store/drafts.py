"""What is being written and not yet recorded: kept in a small hidden file, so that nothing ends it.

A note, a summary or a critique may take minutes, and so may a form. Their words are on the disk while they
are written, and the file is gone once they are recorded or dropped.
"""

from __future__ import annotations

import datetime
import json
import os
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict
from pathlib import Path
from typing import Any

from hands_on.frozen import dataclass
from hands_on.store.atomic import write_atomic
from hands_on.store.lock import SessionLock
from hands_on.store.private import beside, make_folder
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText


@dataclass(frozen=True)
class Written:
    """Words that are in no session yet."""

    note: str = ""
    by_hand: str = ""
    """What was changed by hand on what was heard in that note."""
    summary: str = ""
    critique: str = ""
    critique_as: str = ""
    """Language and length of that critique, with a blank between."""

    def __bool__(self) -> bool:
        return bool(self.note or self.summary or self.critique)


class DraftFile:
    """The file beside a session that holds what is being written; only the holder of its lock writes it."""

    def __init__(self, session: Path) -> None:
        self.path = beside(Path(os.path.realpath(session)), ".draft")
        self._kept: Written | None = None

    def read(self) -> Written:
        """What was being written when the program last ended; nothing where the file is none of ours."""
        found = _texts(self.path)
        self._kept = Written(**{key: text for key, text in found.items() if key in asdict(Written())})
        return self._kept

    def keep(self, written: Written) -> bool:
        """Put `written` on the disk, or remove the file where there is nothing; is it so now?"""
        if written == self._kept:
            return True
        if not _put(self.path, asdict(written) if written else {}):
            return False
        self._kept = written
        return True


class FormDraft:
    """What is being filled in on a form, kept among the sessions until it is taken or dropped.

    Each program that fills in such a form at the same time has a file of its own.
    """

    MOST = 9

    def __init__(self, folder: Path, form: str, when: datetime.datetime) -> None:
        """`form` names it; what an ended program left of such a form is taken up."""
        self._kept: dict[str, str] = {}
        self._path: Path | None = None
        self._lock: SessionLock | None = None
        for number in range(1, self.MOST + 1):
            name = folder / f"{form}-{number}"
            path = beside(name, ".form")
            if self._lock is not None and not os.path.isfile(path):
                continue
            lock = SessionLock(name)
            if not lock.take(when):
                continue
            if self._lock is not None:
                self._lock.release()
            self._path, self._lock, self._kept = path, lock, _texts(path)
            if self._kept:
                break

    @property
    def found(self) -> Mapping[str, str]:
        """What is kept now, by the line's name; empty where nothing is."""
        return self._kept

    def keep(self, values: Mapping[str, str]) -> None:
        """Put what is filled in on the disk, or remove it where there is nothing."""
        if self._path is None or values == self._kept:
            return
        with suppress(OSError):
            make_folder(self._path.parent)
            if _put(self._path, values):
                self._kept = dict(values)

    def close(self) -> None:
        """Leave what is kept to whoever comes next."""
        if self._lock is not None:
            self._lock.release()
        self._path = self._lock = None


def _texts(path: Path) -> dict[str, str]:
    """The texts in a file of ours; none where it is no such file."""
    if os.path.islink(path):
        return {}
    with suppress(BadText, ValueError, AttributeError, RecursionError):
        told: dict[str, Any] = json.loads(decode(read_bytes(path), str(path)))
        return {key: text for key, text in told.items() if isinstance(text, str)}
    return {}


def _put(path: Path, texts: Mapping[str, str]) -> bool:
    """Write the texts, or remove the file where there are none; is it so now?"""
    try:
        if texts:
            if os.path.islink(path):
                path.unlink()
            write_atomic(path, json.dumps(texts))
        else:
            with suppress(FileNotFoundError):
                path.unlink()
    except (OSError, ValueError):
        return False
    return True
