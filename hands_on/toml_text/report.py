"""Where problems are collected, each with its line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from typing import Any

from pydantic import BaseModel

from hands_on.toml_text.explain import dotted, listed, nearest
from hands_on.toml_text.lines import Path, key_lines, line_of
from hands_on.toml_text.problems import MOST_SHOWN, Level, Problem, and_more

__all__ = ["Report", "offer", "parts"]

MOST_LISTED = 12
"""So many known words are listed when none is near; more help nobody."""


class Report:
    """The problems found in one file; of each level so many are told, the rest are counted."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.text = text
        self.problems: list[Problem] = []
        self._counts: dict[Level, int] = {"error": 0, "warning": 0}

    @cached_property
    def _lines(self) -> dict[Path, int]:
        return key_lines(self.text)

    def error(self, path: Path, what: str, right: str, *, level: Level = "error") -> None:
        """Note what is wrong at `path` and what would be right."""
        self._counts[level] += 1
        if self._counts[level] > MOST_SHOWN:
            return
        line = line_of(self._lines, path)
        self.problems.append(Problem(self.file, line, dotted(path), what, right, level))

    def warn(self, path: Path, what: str, right: str) -> None:
        """Note what looks wrong but leaves the file usable."""
        self.error(path, what, right, level="warning")

    def expect(self, path: Path, word: str, known: Iterable[str], thing: str, hint: str = "") -> bool:
        """Note an error unless `word` is one of `known`; the nearest known word is offered."""
        names = list(known)
        if word in names:
            return True
        self.error(path, f'there is no {thing} "{word}".', self.offer(word, names, thing, hint))
        return False

    def offer(self, word: str, names: list[str], thing: str, hint: str = "") -> str:
        """What would be right instead of an unknown word; not looked for once nobody will read it."""
        return hint if self._counts["error"] >= MOST_SHOWN else offer(word, names, thing, hint)

    def unique(self, named: Iterable[tuple[Path, str]], thing: str) -> None:
        """Note each name that was already given."""
        seen: dict[str, Path] = {}
        for path, name in named:
            if name in seen:
                first = line_of(self._lines, seen[name])
                self.error(
                    path,
                    f'the {thing} "{name}" stands here a second time; the first is on line {first}.',
                    f"another id, or one {thing} that says both.",
                )
            else:
                seen[name] = path

    def sorted(self) -> list[Problem]:
        """All problems in the order of the file, and at the end how many more there are."""
        rows = sorted(self.problems, key=lambda problem: problem.line or 0)
        for level, count in self._counts.items():
            rows += and_more(count - MOST_SHOWN, self.file, level)
        return rows


def offer(word: str, names: list[str], thing: str, hint: str = "") -> str:
    """What would be right instead of an unknown word."""
    close = nearest(word, names)
    if close is not None:
        return f'"{close}"?'
    if hint:
        return hint
    if not names:
        return f"leave it out: no {thing} is declared."
    if len(names) <= MOST_LISTED:
        return listed(f'"{name}"' for name in names) + "."
    return f"the id of a known {thing}."


def parts(value: Any, path: Path = ()) -> Iterator[tuple[Path, BaseModel]]:
    """Every table of a model with the path at which its file holds it."""
    found: list[tuple[Path, BaseModel]] = []
    _gather(value, path, found)
    return iter(found)


def _gather(value: Any, path: Path, found: list[tuple[Path, BaseModel]]) -> None:
    if value is None or isinstance(value, str | int | float):
        return
    if isinstance(value, BaseModel):
        found.append((path, value))
        for name, field in type(value).model_fields.items():
            if entry := getattr(value, name):
                _gather(entry, (*path, field.alias or name), found)
    elif isinstance(value, tuple | list):
        for position, entry in enumerate(value):
            _gather(entry, (*path, position), found)
    elif isinstance(value, Mapping):
        for key, entry in value.items():
            _gather(entry, (*path, key), found)
