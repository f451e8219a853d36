"""What can go wrong between the program and the disk, in sentences for people.

    StoreError
    +-- UnknownEdition     no ruleset of this name here
    +-- UnknownLanguage    no critique can be drafted in this language
    +-- SessionBusy        another process holds the session
    +-- NotSaved           the answers are in memory, not on disk
        +-- ChangedOnDisk  ... because the file is no longer the one that was opened

A file whose text can't be used is `hands_on.toml_text.problems.BadText`, with its lines.
"""

from __future__ import annotations

import errno
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Literal

_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the space allowed to you on this disk is used up",
    errno.EFBIG: "the file would be larger than this system allows",
    errno.EROFS: "this disk can only be read",
    errno.ENOENT: "the folder is not there",
    errno.ENOTDIR: "what should be a folder is a file",
    errno.EISDIR: "what should be a file is a folder",
    errno.EIO: "the disk does not answer properly",
    errno.ENODEV: "the disk is no longer there",
    errno.ENXIO: "the disk is no longer there",
    errno.ESTALE: "the network folder is no longer there",
    errno.ENAMETOOLONG: "the file's name is too long for this disk",
}


class StoreError(Exception):
    """Base of the store's errors; `str()` is a sentence for people."""


class UnknownEdition(StoreError):
    """No ruleset of this name is here; `near` are known ids that look like it."""

    def __init__(self, name: str, near: Sequence[str], known: Sequence[str]) -> None:
        self.name, self.near, self.known = name, tuple(near), tuple(known)
        if near:
            hint = f"Did you mean {' or '.join(near)}?"
        elif known:
            hint = f"Known here: {', '.join(known)}."
        else:
            hint = "No rulesets were found at all."
        super().__init__(f"There is no ruleset {name!r} here. {hint}")


class UnknownLanguage(StoreError):
    """No critique can be drafted in this language; `known` are those that it can."""

    def __init__(self, name: str, known: Sequence[str]) -> None:
        self.name, self.known = name, tuple(known)
        there = f"Known here: {', '.join(known)}." if known else "No language data were found at all."
        super().__init__(f"There are no words for a critique in {name!r} here. {there}")


class SessionBusy(StoreError):
    """Another process holds the session; `holder` says who, where and since when."""

    def __init__(self, path: Path, holder: str) -> None:
        self.path, self.holder = path, holder
        super().__init__(f"{path.name} is open elsewhere ({holder}); here it can only be read.")


class NotSaved(StoreError):
    """The answers could not be written to `path`; `reason` says why."""

    def __init__(self, path: Path, reason: str) -> None:
        self.path, self.reason = path, reason
        super().__init__(f"Not saved to {path}: {reason}.")


@contextmanager
def saving_anew(path: Path) -> Iterator[None]:
    """While a file is written that must not be there yet: whatever the system refuses becomes NotSaved."""
    try:
        yield
    except FileExistsError as error:
        raise NotSaved(path, "there is such a file already; it is left as it is") from error
    except OSError as error:
        raise NotSaved(path, reason_of(error)) from error
    except ValueError as error:
        raise NotSaved(path, "no file can have this name") from error


class ChangedOnDisk(NotSaved):
    """The file is no longer the one that was opened: somebody else wrote it. It was left as it is."""


def reason_of(error: OSError, doing: Literal["read", "write"] = "write") -> str:
    """Why the system refused what we were doing, in words; no capital, no full stop."""
    if error.errno in (errno.EACCES, errno.EPERM):
        return f"you may not {doing} there"
    known = _REASONS.get(error.errno or 0)
    return known or (error.strerror or str(error) or "the system refused").rstrip(".")
