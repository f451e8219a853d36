"""What is being written and not yet recorded: kept beside the session's file, so that nothing ends it.

A note or a summary may take minutes. Its words go to a small hidden file while they are written, and that is
gone once they are recorded or dropped.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from dataclasses import asdict
from pathlib import Path

from hands_on.frozen import dataclass
from hands_on.store.atomic import write_atomic
from hands_on.store.private import beside
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText


@dataclass(frozen=True)
class Written:
    """Words that are in no session yet."""

    note: str = ""
    summary: str = ""

    def __bool__(self) -> bool:
        return bool(self.note or self.summary)


class DraftFile:
    """The file beside a session that holds what is being written; only the holder of its lock writes it."""

    def __init__(self, session: Path) -> None:
        self.path = beside(Path(os.path.realpath(session)), ".draft")
        self._kept: Written | None = None

    def read(self) -> Written:
        """What was being written when the program last ended; nothing where the file is none of ours."""
        self._kept = Written()
        if os.path.islink(self.path):
            return self._kept
        with suppress(BadText, ValueError, AttributeError):
            told = json.loads(decode(read_bytes(self.path), str(self.path)))
            texts = {key: told.get(key) for key in ("note", "summary")}
            self._kept = Written(**{key: text for key, text in texts.items() if isinstance(text, str)})
        return self._kept

    def keep(self, written: Written) -> bool:
        """Put `written` on the disk, or remove the file where there is nothing; is it so now?"""
        if written == self._kept:
            return True
        try:
            if written:
                if os.path.islink(self.path):
                    self.path.unlink()
                write_atomic(self.path, json.dumps(asdict(written)))
            else:
                with suppress(FileNotFoundError):
                    self.path.unlink()
        except (OSError, ValueError):
            return False
        self._kept = written
        return True
