"""What was practised: a line of JSON an answer, kept in the user's data folder."""

from __future__ import annotations

import json
import os
from dataclasses import asdict, fields
from pathlib import Path

from hands_on.figure.practice import Answered
from hands_on.store.errors import StoreError
from hands_on.store.private import close_to_others

__all__ = ["add_answer", "practice_path", "read_answers"]

_NAME = "practice.jsonl"
_MOST = 1e6
"""No answer is as large as this."""


def practice_path() -> Path:
    """The file of the user's own practice."""
    from hands_on.store import places

    return places.user_data() / _NAME


def read_answers(path: Path) -> tuple[Answered, ...]:
    """The answers kept, oldest first; a line that is none is passed over, and stays as it is.

    Raises StoreError where the file is there and cannot be read.
    """
    try:
        text = path.read_text(encoding="utf-8", errors="replace")
    except FileNotFoundError:
        return ()
    except OSError as error:
        raise StoreError(f"{path}: {error.strerror or error}") from error
    found = []
    for row in text.splitlines():
        answer = _answer(row)
        if answer is not None:
            found.append(answer)
    return tuple(found)


def _answer(row: str) -> Answered | None:
    try:
        told = json.loads(row)
    except ValueError:
        return None
    names = {field.name for field in fields(Answered)}
    if not isinstance(told, dict) or not names <= set(told) | {"repeat_of"}:
        return None
    numbers = (told["truth"], told["answer"])
    texts = (told["at"], told["edition"], told["kind"], told["about"])
    whole = (told["seed"], told["number"], told.get("repeat_of") or 0)
    if not all(isinstance(one, int | float) and abs(one) < _MOST for one in numbers):
        return None
    if not all(isinstance(one, str) for one in texts) or not all(isinstance(one, int) for one in whole):
        return None
    at, edition, kind, about = texts
    return Answered(
        at,
        edition,
        whole[0],
        whole[1],
        kind,
        about,
        float(numbers[0]),
        float(numbers[1]),
        told.get("repeat_of"),
    )


def add_answer(path: Path, answer: Answered) -> None:
    """Write an answer at the end, on disk before this returns. Raises StoreError where that fails."""
    try:
        if not path.parent.is_dir():
            path.parent.mkdir(parents=True, exist_ok=True)
            close_to_others(path.parent)
        with open(path, "a", encoding="utf-8") as out:
            out.write(json.dumps(asdict(answer), ensure_ascii=False) + "\n")
            out.flush()
            os.fsync(out.fileno())
    except OSError as error:
        raise StoreError(f"{path}: {error.strerror or error}") from error
