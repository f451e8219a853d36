"""What was read and found sound once, kept in the user's cache under a digest of all that it came from.

    bytes of the files + the program's own reading of them -> digest -> what they gave

Reading and checking rulesets is most of the time that a command takes, and making their wording ready for
notes takes longer still. What is kept is looked at only where every byte that it came from is the same, and
this program's modules that read it too; so it is never stale, and it can be thrown away at any time.

It is stored as a pickle, which is quick, and which could run code if somebody else had written it. So it is
read only from a folder and a file that are the user's own and closed to everybody else, only where its digest
fits, and it may name no class but the parts of rulesets and of their wording (Python's documentation of
`pickle`, "Restricting Globals"). Anything else counts as not there.
"""

from __future__ import annotations

import gc
import hashlib
import io
import os
import pickle
import stat
import sys
from collections.abc import Iterable
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from hands_on import __version__
from hands_on.store.places import close_own_folders, user_cache
from hands_on.store.private import FOLDER, make_folder, new_file

__all__ = ["NOTES", "RULES", "digest_of", "keep", "kept"]

What = TypeVar("What")

_MOST = 200
"""Files kept; beyond that the oldest go."""

_ROOM = 96 * 2**20
"""Bytes of all files kept."""

_LARGE = 2**20
"""Bytes from which a file may fill that; what is kept of rules is small."""

_LARGEST = 32 * 2**20
"""Bytes; what is larger is none of ours."""

_DIGEST = hashlib.sha256().digest_size

_PACKAGE = Path(__file__).resolve().parents[1]

RULES = ("ruleset", "toml_text", "store/library.py", "store/edition_heads.py")
"""The modules whose change changes what the files of rules give."""

NOTES = ("notes", "toml_text", "store/library.py", "store/edition_heads.py", "store/wording.py")
"""The modules whose change changes what notes are read with."""

_PARTS = ("hands_on.ruleset.", "hands_on.notes.")
"""What is kept may name classes of these modules, and a date."""


def digest_of(kind: str, texts: Iterable[bytes], readers: tuple[str, ...] = RULES) -> str:
    """The name under which is kept what `texts` gave to these readers, as a thing of this kind."""
    found = hashlib.sha256(_program(readers))
    found.update(kind.encode())
    for data in texts:
        found.update(b"\0%d\0" % len(data))
        found.update(data)
    return found.hexdigest()


def kept(name: str, of: type[What]) -> What | None:
    """What was kept under this name; None where nothing is, or nothing that may be trusted."""
    try:
        data = _read(_folder() / name)
        if data is None or hashlib.sha256(data[_DIGEST:]).digest() != data[:_DIGEST]:
            return None
        found = _loaded(data[_DIGEST:])
    except Exception:  # of a pickle any can come; whatever it is, reading the files anew mends it
        return None
    return found if isinstance(found, of) else None


def keep(name: str, value: object) -> None:
    """Keep it; where that can't be done nothing is lost but time."""
    data = pickle.dumps(value, protocol=pickle.HIGHEST_PROTOCOL)
    folder = _folder()
    with suppress(OSError, ValueError):
        make_folder(folder)
        close_own_folders()
        if not _own(os.lstat(folder), stat.S_ISDIR):
            return
        temporary = folder / f".{name}.{os.getpid()}"
        try:
            with open(new_file(temporary), "wb") as file:
                file.write(hashlib.sha256(data).digest() + data)
            os.replace(temporary, folder / name)
        except BaseException:
            temporary.unlink(missing_ok=True)
            raise
        _make_room(folder, len(data))


def _folder() -> Path:
    return user_cache() / "checked"


def _read(path: Path) -> bytes | None:
    """The file's bytes, where it and its folder belong to the user alone. Raises OSError."""
    if not _own(os.lstat(path.parent), stat.S_ISDIR):
        return None
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    with open(os.open(path, flags | getattr(os, "O_BINARY", 0)), "rb") as file:
        state = os.fstat(file.fileno())
        if not _own(state, stat.S_ISREG) or state.st_size > _LARGEST:
            return None
        return file.read()


def _own(state: os.stat_result, kind: Any) -> bool:
    """Is it of this kind, the user's own, and closed to others? On Windows the profile sees to that."""
    if not kind(state.st_mode):
        return False
    return not hasattr(os, "getuid") or (state.st_uid == os.getuid() and not state.st_mode & ~FOLDER & 0o777)


class _Parts(pickle.Unpickler):
    """Knows the parts of rulesets and of their wording, and nothing else that could be made or called."""

    def find_class(self, module: str, name: str) -> Any:
        """The class. Raises pickle.UnpicklingError for any that is no such part."""
        if module.startswith(_PARTS) or (module, name) == ("datetime", "date"):
            found = super().find_class(module, name)
            if isinstance(found, type) and found.__module__ == module:
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is no part of a ruleset")


def _loaded(data: bytes) -> Any:
    # Thousands of parts come into being and none goes: looking for garbage meanwhile is all in vain.
    collecting = gc.isenabled()
    gc.disable()
    try:
        return _Parts(io.BytesIO(data)).load()
    finally:
        if collecting:
            gc.enable()


@cache
def _program(readers: tuple[str, ...]) -> bytes:
    """A digest of the program as far as these modules go."""
    found = hashlib.sha256(f"{__version__} {sys.version} {readers}".encode())
    for place in readers:
        path = _PACKAGE / place
        for module in sorted(path.rglob("*.py")) if path.suffix != ".py" else [path]:
            with suppress(OSError):  # installed without its sources: then the version tells
                found.update(module.read_bytes())
    return found.digest()


def _make_room(folder: Path, size: int) -> None:
    """Throw the oldest away where there are too many, or they take too much room; `size` is the newest's."""
    with os.scandir(folder) as found:
        entries = list(found)
    if len(entries) <= _MOST and size < _LARGE:
        return
    states = [(entry.stat(), entry.path) for entry in entries]
    taken = 0
    for n, (state, path) in enumerate(sorted(states, key=lambda one: -one[0].st_mtime_ns)):
        taken += state.st_size
        if n >= _MOST or (n and taken > _ROOM):
            with suppress(OSError):
                os.unlink(path)
