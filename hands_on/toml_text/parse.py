"""Text to a validated model, every trouble told with its line."""

from __future__ import annotations

import re
import tomllib
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from hands_on.toml_text.explain import explain
from hands_on.toml_text.lines import key_lines
from hands_on.toml_text.problems import BadText, Problem

Model = TypeVar("Model", bound=BaseModel)

_COMMA = re.compile(r"=\s*(\d+),(\d+)\b")
"""A decimal comma, which TOML doesn't know."""

_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")


def parse_tables(text: str, file: str) -> dict[str, Any]:
    """Parse TOML.

    Raises BadText with the line where the text stops being TOML.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadText([_syntax_problem(str(error), text, file)]) from error


def validate(model: type[Model], tables: dict[str, Any], text: str, file: str) -> Model:
    """Turn parsed tables into `model`.

    Raises BadText naming every key that does not fit, with its line and what would be right.
    """
    try:
        return model.model_validate(tables)
    except ValidationError as error:
        lines = key_lines(text)
        raise BadText([explain(detail, model, lines, file) for detail in error.errors()]) from error


def _syntax_problem(message: str, text: str, file: str) -> Problem:
    place = _PLACE.search(message)
    line = int(place[1]) if place else text.count("\n") + 1
    what = _PLACE.sub("", message).replace("(at end of document)", "").strip()
    shown = _line_text(text, line)
    hint = 'one `key = value` a line, texts in "quotes", tables named in [brackets].'
    if "end of document" in message or not shown:
        what += "; the text stops in the middle of something, as if the file had been cut off"
        hint = "the rest of the file, or the quote or bracket that is still open closed. " + hint
    elif "overwrite" in what.lower() or "declare" in what.lower() or "duplicate" in what.lower():
        hint = "each key and each table once; a list of tables is written [[like this]]."
    if comma := _COMMA.search(shown):
        hint = f"a point for the decimals: {comma[1]}.{comma[2]}."
    return Problem(file, line, "", f"this is not valid TOML: {what}. The line reads: {shown!r}.", hint)


def _line_text(text: str, line: int) -> str:
    rows = text.splitlines()
    return rows[line - 1].strip()[:80] if 0 < line <= len(rows) else ""
