"""What is wrong in a written file, said so that its writer can mend it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


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
    level: Literal["error", "warning"] = "error"
    """A warning leaves the file usable."""

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
