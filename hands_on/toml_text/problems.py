"""What is wrong in a written file, said so that its writer can mend it."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice
from typing import Literal

from hands_on.frozen import dataclass

__all__ = ["LONGEST", "MOST_SHOWN", "BadText", "Level", "Problem", "and_more", "bounded"]

Level = Literal["error", "warning"]

MOST_SHOWN = 100
"""So many problems of one level are told of one file; whoever mends those looks again."""

LONGEST = 1_000
"""Characters of a key, or of what is said of it; it may quote what the file holds."""


@dataclass(frozen=True)
class Problem:
    """One thing wrong in a ruleset or a session file."""

    file: str
    """The file's name as the user knows it."""
    line: int | None
    """Line, counted from 1; None where the trouble has no place in the text."""
    key: str
    """The dotted key, for instance `limits[2].asked.from`; empty for the file as a whole."""
    what: str
    """What is wrong."""
    right: str
    """What would be right."""
    level: Level = "error"
    """A warning leaves the file usable."""

    def __post_init__(self) -> None:
        for name in ("key", "what", "right"):
            text = getattr(self, name)
            if len(text) > LONGEST:
                object.__setattr__(self, name, f"{text[: LONGEST - 1]}…")

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        key = f" {self.key}:" if self.key else ""
        right = f" Right would be: {self.right}" if self.right else ""
        return f"{place}:{key} {self.what}{right}"

    def as_json(self) -> dict[str, object]:
        """The problem as a JSON object."""
        return {
            "file": self.file,
            "line": self.line,
            "key": self.key,
            "what": self.what,
            "right": self.right,
            "level": self.level,
        }


class BadText(ValueError):
    """A file's text can't be used; `problems` says why, worst first."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        super().__init__("\n".join(map(str, problems)))


def bounded(problems: Iterable[Problem], count: int, file: str) -> list[Problem]:
    """The first problems of `count`; the others are not even worded, only how many they are."""
    shown = list(islice(problems, MOST_SHOWN))
    return shown + and_more(count - len(shown), file, "error")


def and_more(count: int, file: str, level: Level) -> list[Problem]:
    """That there are `count` more problems; nothing where there are none."""
    if count <= 0:
        return []
    what = f"and {count} more {level}{'' if count == 1 else 's'} in this file."
    return [Problem(file, None, "", what, "those above mended first.", level)]
