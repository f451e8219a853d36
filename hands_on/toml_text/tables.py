"""TOML text to tables, or BadText that says where and why not. Imports no pydantic."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import tomli

from hands_on.toml_text.bounds import check_bounds, check_numbers
from hands_on.toml_text.problems import BadText, Problem

__all__ = ["explained", "parse_tables"]


def parse_tables(text: str, file: str) -> dict[str, Any]:
    """Parse TOML.

    Raises BadText with the line where the text stops being TOML, or is larger or deeper than any session or
    ruleset.
    """
    with explained(file):
        check_bounds(text, file)
        try:
            tables = tomli.loads(text)
        except tomli.TOMLDecodeError as error:
            # Only broken text pays for the part that explains it.
            from hands_on.toml_text.syntax import syntax_problem

            raise BadText([syntax_problem(str(error), text, file)]) from error
        check_numbers(tables, text, file)
        return tables


@contextmanager
def explained(file: str) -> Iterator[None]:
    """Turn what a parser or a check lets slip on freakish text into BadText."""
    try:
        yield
    except BadText:
        raise
    except RecursionError as error:
        what = "lists and tables are nested too deeply to be read."
        raise BadText([Problem(file, None, "", what, "lists and tables a few levels deep.")]) from error
    except ValueError as error:
        what = f"a value can't be read: {error}."
        raise BadText([Problem(file, None, "", what, "a usual value.")]) from error
