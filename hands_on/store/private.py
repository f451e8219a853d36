"""Files and folders that their owner alone can read: sessions tell of dogs, owners and places.

What the program makes it makes for the user alone (files 0600, folders 0700; on Windows what the profile's
folder allows). What somebody opened to others by hand stays open.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

FILE = 0o600
FOLDER = 0o700


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it that are not there (XDG Base Directory Specification: mode 0700).

    Raises OSError.
    """
    missing = []
    above = folder
    while not os.path.isdir(above):
        missing.append(above)
        if above.parent == above:
            break
        above = above.parent
    for one in reversed(missing):
        with suppress(FileExistsError):
            os.mkdir(one, FOLDER)
    if not os.path.isdir(folder):
        raise NotADirectoryError(20, os.strerror(20), str(folder))


def close_to_others(folder: Path) -> None:
    """Take a folder of the program's own, made by an earlier version, away from everybody else's eyes."""
    with suppress(OSError):
        state = os.stat(folder)
        if state.st_mode & 0o077 and state.st_uid == getattr(os, "getuid", lambda: -1)():
            os.chmod(folder, FOLDER)


def new_file(path: Path) -> int:
    """A handle to write a file that was not there; a link of that name is never followed. Raises OSError."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL
    return os.open(path, flags | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0), FILE)


def beside(path: Path, ending: str) -> Path:
    """The hidden file that goes with `path`; a name too long for its ending is told by its digest."""
    name = path.name
    if len(os.fsencode(name)) > 200:
        import hashlib

        name = hashlib.sha256(os.fsencode(name)).hexdigest()
    return path.parent / f".{name}{ending}"
