"""The file of the evaluator's own words, in the user's data folder: read, changed whole, carried along."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from hands_on.notes.own_words import OwnWords, dump_own_words, parse_own_words, remembered, without
from hands_on.store.atomic import write_atomic
from hands_on.store.errors import NotSaved, StoreError, reason_of, saving_anew
from hands_on.store.private import FILE, beside, make_folder
from hands_on.store.text_file import decode, read_bytes

__all__ = ["OwnWordsFile"]

_WAIT = 3.0
"""Seconds that another program may take over its change."""

Words = tuple[OwnWords, ...]


class OwnWordsFile:
    """The phrases in one file; one that is not there yet holds none."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def read(self) -> Words:
        """The phrases, oldest first. Raises BadText where the file can't be read or is no such list."""
        if not os.path.lexists(self.path):
            return ()
        return parse_own_words(decode(read_bytes(self.path), str(self.path)), str(self.path))

    def remember(self, more: Iterable[OwnWords]) -> Words:
        """Add phrases; one that is there gives way. Raises as `change` does."""
        return self.change(lambda words: remembered(words, more))

    def replace(self, old: OwnWords, new: OwnWords) -> Words:
        """Put another phrase in the place of one. Raises as `change` does."""

        def put(words: Words) -> Words:
            kept = [one for one in words if one.key != new.key or one == old]
            return tuple(new if one == old else one for one in kept)

        return self.change(put)

    def remove(self, gone: OwnWords) -> Words:
        """Take one out. Raises as `change` does."""
        return self.change(lambda words: without(words, gone))

    def change(self, how: Callable[[Words], Sequence[OwnWords]]) -> Words:
        """Change the list as it is on the disk now, whoever wrote it last; the new list.

        Raises BadText where the file can't be read (it stays as it is), NotSaved where the new one can't be
        written, StoreError where another program keeps it.
        """
        from filelock import FileLock, Timeout

        try:
            make_folder(self.path.parent)
            lock = FileLock(beside(Path(os.path.realpath(self.path)), ".lock"), timeout=_WAIT, mode=FILE)
            with lock:
                new = tuple(how(self.read()))
                write_atomic(self.path, dump_own_words(new))
        except Timeout as error:
            raise StoreError(f"{self.path}: another program is changing it; nothing was changed.") from error
        except OSError as error:
            raise NotSaved(self.path, reason_of(error)) from error
        return new

    def carry_to(self, path: Path) -> Words:
        """Write the phrases into a file that is not there yet. Raises BadText, NotSaved."""
        words = self.read()
        with saving_anew(path):
            write_atomic(path, dump_own_words(words), new=True)
        return words
