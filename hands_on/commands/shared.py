"""What commands share: the places they work on, and errors said in one line."""

from __future__ import annotations

import datetime
import os
import shutil
import sys
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.store import places
from hands_on.streams import takes_unicode

if TYPE_CHECKING:
    from hands_on.store.library import Library


class CommandError(Exception):
    """The command can't do what was asked; its text is printed and the exit code is 2."""


class Context:
    """Where sessions and rulesets are, for one run of the program."""

    def __init__(self, sessions: Path | None, rulesets: Path | None) -> None:
        self._sessions, self._rulesets = sessions, rulesets

    @property
    def sessions(self) -> Path:
        """The folder of sessions."""
        return places.sessions_folder(self._sessions)

    @property
    def ruleset_folders(self) -> tuple[Path, ...]:
        """The shipped rulesets' folder and the user's own.

        Raises CommandError when a folder was named and is not there.
        """
        if self._rulesets is not None and not os.path.isdir(self._rulesets):
            raise CommandError(f"--rulesets {self._rulesets}: there is no such folder.")
        return places.ruleset_folders(self._rulesets)

    @cached_property
    def library(self) -> Library:
        """The rulesets known."""
        from hands_on.store.library import Library

        return Library(self.ruleset_folders)


def text_width() -> int:
    """Columns that text may take: those of the terminal, 100 at most and where there is none."""
    return max(40, min(100, shutil.get_terminal_size((100, 24)).columns))


def print_json(document: Any) -> None:
    """One JSON document on standard output; what is no number in JSON is null."""
    sys.stdout.write(json_text(document, indent=2) + "\n")


def json_text(document: Any, indent: int | None = None) -> str:
    """The document as JSON that no terminal can take for anything else.

    What can't be shown is escaped (RFC 8259, 7), and all but ASCII where the output's character set is small.
    """
    import json

    text = json.dumps(
        _plain(document),
        ensure_ascii=not takes_unicode(sys.stdout),
        indent=indent,
        allow_nan=False,
        default=_text,
    )
    if text.isprintable():
        return text
    return "".join(char if char == "\n" or char.isprintable() else _escaped(char) for char in text)


def _escaped(char: str) -> str:
    import json

    return json.dumps(char)[1:-1]


def _text(value: Any) -> str:
    return value.isoformat() if isinstance(value, datetime.date) else str(value)


def _plain(value: Any) -> Any:
    if isinstance(value, float) and (value != value or value in (float("inf"), float("-inf"))):
        return None
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    return value
