"""A file written whole or not at all.

The text goes to a new file beside the old one, is flushed to the disk, and takes the old one's name in
one step (POSIX rename(2): the name always refers to the old or the new file). A power cut or a kill
leaves the old or the new text, never half of one.
"""

from __future__ import annotations

import errno
import os
import secrets
import stat
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from hands_on.store.private import beside, new_file

_MARK = ".saving"

Stamp = tuple[int, int, int]
"""Last changed in ns, size, inode: another file, or an edit, has another stamp."""

_NO_LINKS = frozenset(
    {errno.EPERM, errno.ENOSYS, errno.EOPNOTSUPP, errno.ENOTSUP, errno.EACCES, errno.EMLINK}
)
"""What a disk answers that knows no second name for a file."""


def write_atomic(
    path: Path, text: str, *, new: bool = False, last_look: Callable[[], None] | None = None
) -> Stamp:
    """Put `text` into `path` as UTF-8; the stamp of what was written, as it was before others could see it.

    A symbolic link stays one: what it points at is written. Permissions are kept; a file that was not there
    can be read by its owner alone. The folder must exist. With `new` the name must be free: a file that is
    there stays. `last_look` is called when all is on disk but the name; what it raises ends the writing.

    Raises OSError (disk full, read-only, folder gone, file made read-only by its owner; FileExistsError with
    `new`); the old file is then as it was and nothing is left beside it.
    """
    target = Path(os.path.realpath(path))
    mode = _mode_of(target)
    temporary = beside(target, f".{secrets.token_hex(4)}{_MARK}")
    handle = new_file(temporary)
    try:
        with open(handle, "wb") as file:
            file.write(text.encode())
            file.flush()
            if mode is not None:
                os.chmod(temporary, mode)
            os.fsync(handle)
            stamp = stamp_of(os.fstat(handle))
        if last_look is not None:
            last_look()
        if new:
            _name_anew(temporary, target)
        else:
            os.replace(temporary, target)
    except BaseException:
        with suppress(OSError):
            temporary.unlink()
        raise
    _flush_folder(target.parent)
    return stamp


def leftovers(path: Path) -> list[Path]:
    """Half-written files that a kill left beside `path` or for its draft.

    Only the holder of its lock may remove them.
    """
    target = Path(os.path.realpath(path))
    start = f"{beside(target, '').name}."
    with suppress(OSError), os.scandir(target.parent) as entries:
        names = [entry.name for entry in entries]
        ours = (start, f".{start}")
        return [target.parent / name for name in names if name.startswith(ours) and name.endswith(_MARK)]
    return []


def stamp_of(state: os.stat_result) -> Stamp:
    """Changes whenever the file does."""
    return state.st_mtime_ns, state.st_size, state.st_ino


def _name_anew(temporary: Path, target: Path) -> None:
    """Give the file its name, unless there is such a file by now.

    A second name is refused where the first is taken (POSIX link(2)), and so is renaming on Windows. Where
    the disk knows no links a file made in the same instant can't be told.
    """
    if os.name == "nt":
        os.rename(temporary, target)
        return
    try:
        os.link(temporary, target, follow_symlinks=False)
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        if os.path.lexists(target):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target)) from error
        os.replace(temporary, target)
    else:
        with suppress(OSError):  # the next holder of the lock clears it away
            temporary.unlink()


def _mode_of(target: Path) -> int | None:
    """The permissions of the file that is there; None where there is none."""
    try:
        found = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(errno.EISDIR, "is a folder", str(target))
    if not os.access(target, os.W_OK):
        # Renaming over it would be allowed, but whoever made the file read-only did not mean that.
        raise PermissionError(errno.EACCES, "the file may only be read", str(target))
    return stat.S_IMODE(found.st_mode)


def _flush_folder(folder: Path) -> None:
    """Flush the new name too, where the system knows how; the text itself is safe already."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
