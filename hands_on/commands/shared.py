"""What commands share: the places they work on, and errors said in one line."""

from __future__ import annotations

import datetime
import json
import sys
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.store import places

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
        if self._rulesets is not None and not self._rulesets.is_dir():
            raise CommandError(f"--rulesets {self._rulesets}: there is no such folder.")
        return places.ruleset_folders(self._rulesets)

    @cached_property
    def library(self) -> Library:
        """The rulesets known."""
        from hands_on.store.library import Library

        return Library(self.ruleset_folders)


def print_json(document: Any) -> None:
    """One JSON document on standard output; what is no number in JSON is null."""
    json.dump(_plain(document), sys.stdout, ensure_ascii=False, indent=2, allow_nan=False, default=_text)
    sys.stdout.write("\n")


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
