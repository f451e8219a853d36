"""Files of older and newer formats: older ones are brought up to date, newer ones are left alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from hands_on.toml_text.problems import Problem

__all__ = ["Steps", "Tables", "brought_up", "format_problem"]

Tables = dict[str, Any]

Steps = Mapping[int, Callable[[Tables], Tables]]
"""By the format a step starts from: tables of format n to tables of format n + 1.

A step renames and moves; keys it does not know stay where they are, and what was signed keeps its digest.
"""


def format_problem(tables: Tables, known: int, text: str, file: str) -> Problem | None:
    """Why a file's format can't be read here; a file that names none is of the first format."""
    written = tables.get("format", 1)
    if not isinstance(written, int) or isinstance(written, bool) or 1 <= written <= known:
        return None  # what is no number at all is told with the other keys that do not fit
    from hands_on.toml_text.lines import key_lines, line_of

    line = line_of(key_lines(text), ("format",))
    what = f"the file is of format {written}; this program reads format {known} and leaves it as it is."
    right = "a newer Hands On to open it with." if written > known else f"format = {known}."
    return Problem(file, line, "format", what, right)


def brought_up(tables: Tables, known: int, steps: Steps) -> Tables:
    """The tables in the format `known`, step by step from the one they are written in.

    Raises KeyError where a step is missing.
    """
    written = tables.get("format", 1)
    if not isinstance(written, int) or isinstance(written, bool):
        return tables
    for number in range(written, known):
        tables = {**steps[number](tables), "format": number + 1}
    return tables
