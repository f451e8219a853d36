"""A sound file broken in one place: what is put in, and what the check must say of it."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path

from hands_on.toml_text.problems import Problem

MARK = "#!"
"""Stands, as a comment, on the line that must be named, so that no test counts lines."""


@dataclass(frozen=True)
class Broken:
    """One mistake."""

    name: str
    old: str
    new: str
    key: str
    words: list[str]
    """What the message must hold."""
    level: str = "error"
    at: str = ""
    """Where no mark can stand: a text of the line that must be named."""
    nth: int = 1
    """Which of the lines with that text."""
    file: str = ""
    """Where one of several files is broken: its name."""

    def text(self, good: str) -> str:
        """The broken file, the line that must be named marked in it."""
        assert good.count(self.old) == 1, f"{self.name}: {self.old!r} stands {good.count(self.old)} times"
        text = good.replace(self.old, self.new)
        if self.at:
            rows = text.splitlines()
            place = [n for n, row in enumerate(rows) if self.at in row][self.nth - 1]
            rows[place] += f" {MARK}"
            text = "\n".join(rows) + "\n"
        assert text.count(MARK) == 1, f"{self.name}: one line is to be marked"
        return text


def cases(path: Path) -> list[Broken]:
    """The mistakes written in a TOML file, each under a name of its own."""
    found = [Broken(**case) for case in tomllib.loads(path.read_text(encoding="utf-8"))["broken"]]
    assert len({case.name for case in found}) == len(found)
    return found


_VALUE = re.compile(
    r'(?=(?:^|[ {,])(?:[\w-]+|"[^"]+") = ("[^"]*"|[\w.:+-]+|\[[^\]]*\]|\{.*\}))', re.MULTILINE
)

WRONG = (
    "true",
    "3",
    '"x"',
    "[]",
    "{}",
    "-1.5",
    "1979-05-27",
    '""',
    '["a", "a"]',
    "inf",
    "nan",
    "{ a = 1 }",
    "[[]]",
)
"""Values of every kind TOML knows."""


def values(text: str) -> list[tuple[int, int]]:
    """Where each value stands that is written on one line, those in inline tables too."""
    return [found.span(1) for found in _VALUE.finditer(text)]


def assert_said(found: list[Problem], broken: Broken, text: str, file: str) -> None:
    """The mistake stands once among the problems, with file, line, key, words and a way out."""
    line = next(n for n, row in enumerate(text.splitlines(), 1) if MARK in row)
    said = [
        problem
        for problem in found
        if problem.key == broken.key
        and all(word in f"{problem.what} {problem.right}" for word in broken.words)
    ]
    assert said, "\n".join(map(str, found)) or "nothing was found"
    assert {(problem.file, problem.level) for problem in said} == {(file, broken.level)}
    assert [problem.line for problem in said] == [line]
    assert all(problem.right for problem in found)
