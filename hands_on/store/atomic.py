"""A file written whole or not at all.

The text goes to a new file beside the old one, is flushed to the disk, and takes the old one's name in
one step (POSIX rename(2): the name always refers to the old or the new file). A power cut or a kill
leaves the old or the new text, never half of one.
"""

from __future__ import annotations

import os
import secrets
import stat
from contextlib import suppress
from pathlib import Path

_MARK = ".saving"


def write_atomic(path: Path, text: str) -> None:
    """Put `text` into `path` as UTF-8.

    A symbolic link stays one: what it points at is written. Permissions are kept. The folder must exist.

    Raises OSError (disk full, read-only, folder gone, file made read-only by its owner); the old file is
    then as it was and nothing is left beside it.
    """
    target = Path(os.path.realpath(path))
    mode = _mode_of(target)
    temporary = target.with_name(f".{target.name}.{secrets.token_hex(4)}{_MARK}")
    handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        with open(handle, "wb") as file:
            file.write(text.encode())
            file.flush()
            os.fsync(handle)
        if mode is not None:
            os.chmod(temporary, mode)
        os.replace(temporary, target)
    except BaseException:
        with suppress(OSError):
            temporary.unlink()
        raise
    _flush_folder(target.parent)


def leftovers(path: Path) -> list[Path]:
    """Half-written files that a kill left beside `path`; only the holder of its lock may remove them."""
    target = Path(os.path.realpath(path))
    start = f".{target.name}."
    with suppress(OSError), os.scandir(target.parent) as entries:
        names = [entry.name for entry in entries]
        return [target.with_name(name) for name in names if name.startswith(start) and name.endswith(_MARK)]
    return []


def _mode_of(target: Path) -> int | None:
    """The permissions of the file that is there; None where there is none."""
    try:
        found = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(21, "is a folder", str(target))
    if not os.access(target, os.W_OK):
        # Renaming over it would be allowed, but whoever made the file read-only did not mean that.
        raise PermissionError(13, "the file may only be read", str(target))
    return stat.S_IMODE(found.st_mode)


def _flush_folder(folder: Path) -> None:
    """Flush the new name too, where the system knows how; the text itself is safe already."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
