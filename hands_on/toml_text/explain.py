"""A validation error in words that a breed's keeper can act on."""

from __future__ import annotations

import re
import typing
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from hands_on.toml_text.lines import Path, line_of
from hands_on.toml_text.problems import Problem

__all__ = ["dotted", "explain", "listed", "nearest"]

_KINDS = {
    "string_type": 'a text in "quotes"',
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_from_float": "a whole number",
    "float_type": "a number, with a point for the decimals",
    "float_parsing": "a number, with a point for the decimals",
    "finite_number": "a number with an end",
    "bool_type": "true or false, without quotes",
    "bool_parsing": "true or false, without quotes",
    "list_type": "a list in [brackets]",
    "tuple_type": "a list in [brackets]",
    "dict_type": "a table",
    "mapping_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "date_type": "a date such as 2025-03-28, without quotes",
    "date_from_datetime_parsing": "a date such as 2025-03-28, without quotes",
    "date_parsing": "a date such as 2025-03-28, without quotes",
    "datetime_type": "a date and time such as 2026-05-02T09:30:00+02:00, without quotes",
    "datetime_from_date_parsing": "a date and time such as 2026-05-02T09:30:00+02:00, without quotes",
    "datetime_parsing": "a date and time such as 2026-05-02T09:30:00+02:00, without quotes",
    "timezone_aware": "a time with its offset, such as 2026-05-02T09:30:00+02:00",
}


def explain(error: ErrorDetails, model: type[BaseModel], lines: dict[Path, int], file: str) -> Problem:
    """One error of pydantic's as a Problem with line, what is wrong and what would be right."""
    path, holder = _readable(error["loc"], model)
    what, right = _sentences(error, path, holder)
    if error["type"] == "union_tag_invalid":
        path = (*path, "kind")
    return Problem(file, line_of(lines, path), dotted(path), what, right)


_BARE = re.compile(r"[A-Za-z0-9_-]+")
"""A key that needs no quotes."""


def dotted(path: Path) -> str:
    """`("limits", 2, "from")` as `limits[3].from`; entries of a list are counted from 1.

    A key that needs quotes in TOML has them here: `faults."neck.throaty".label`.
    """
    text = ""
    for part in path:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += ("." if text else "") + (part if _BARE.fullmatch(part) else f'"{part}"')
    return text


_LONGEST_WORD = 100
"""Characters; longer texts are no slip of a known word."""


def nearest(word: str, known: typing.Iterable[str]) -> str | None:
    """The known word that looks most like `word`, if any looks like it."""
    if len(word) > _LONGEST_WORD:
        return None
    from rapidfuzz import fuzz, process

    best = process.extractOne(word, list(known), scorer=fuzz.WRatio, score_cutoff=72)
    return best[0] if best else None


def listed(words: typing.Iterable[str]) -> str:
    """`a, b or c`."""
    rows = [str(word) for word in words]
    return rows[0] if len(rows) == 1 else f"{', '.join(rows[:-1])} or {rows[-1]}" if rows else ""


def _sentences(error: ErrorDetails, path: Path, holder: type[BaseModel] | None) -> tuple[str, str]:
    kind, given, context = error["type"], error.get("input"), error.get("ctx", {})
    name = str(path[-1]) if path else ""
    if kind == "extra_forbidden":
        known = sorted(_keys(holder)) if holder else []
        close = nearest(name, known)
        right = f"`{close}`?" if close else (f"one of {', '.join(known)}." if known else "no such key.")
        return f"there is no key `{name}` here.", right
    if kind == "missing" and name == "source":
        what = "a figure or rule without a source."
        free = '"common practice", "from memory" or "reading"'
        return what, f"source = the key of an entry under [sources], or {free}."
    if kind == "missing":
        return f"`{name}` is missing.", f"a line `{name} = ...`; the format guide tells what it holds."
    if kind in ("literal_error", "enum"):
        choices = str(context.get("expected", "")).replace("'", '"')
        words = [choice.strip(' "') for choice in choices.replace(" or ", ",").split(",")]
        close = nearest(str(given), words)
        hint = f' (did you mean "{close}"?)' if close else ""
        return f"{_shown(given)} is not one of the words known here.", f"{choices}{hint}."
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        tag = context.get("tag")
        found = f'`kind = "{tag}"` is not known.' if tag is not None else "`kind` is missing."
        return found, f"kind = {context.get('expected_tags', 'measure, grade, scale, choice or teeth')}."
    if kind == "value_error":
        text = str(context.get("error", error["msg"]))
        what, _, right = text.partition(" Right: ")
        return what, right
    if kind in _KINDS:
        return f"{_shown(given)} does not fit here.", f"{_KINDS[kind]}."
    bounds = {"greater_than": "gt", "greater_than_equal": "ge", "less_than": "lt", "less_than_equal": "le"}
    if kind in bounds:
        return f"{_shown(given)} is out of bounds.", f"a number {_bound(kind)} {context[bounds[kind]]}."
    return f"{_shown(given)} does not fit here: {error['msg']}.", "see the format guide."


def _bound(kind: str) -> str:
    return {
        "greater_than": "above",
        "greater_than_equal": "of at least",
        "less_than": "below",
        "less_than_equal": "of at most",
    }[kind]


def _shown(value: object) -> str:
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{value[:60]}"'
    return str(value)[:60]


def _readable(loc: tuple[int | str, ...], model: type[BaseModel]) -> tuple[Path, type[BaseModel] | None]:
    """Drop what pydantic adds to a path (union branches) and find the model that holds the key."""
    path: list[int | str] = []
    holders: list[Any] = [model]
    holder: type[BaseModel] | None = model
    for part in loc:
        if isinstance(part, str) and _is_branch(part, holders):
            holders = [kind for kind in holders if _branch_name(kind) == part] or holders
            continue
        holder = next((kind for kind in holders if _is_model(kind)), None)
        path.append(part)
        holders = _inside(holders, part)
    if not path:
        holder = model
    return tuple(path), holder


def _is_model(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)


def _branch_name(kind: Any) -> str:
    if _is_model(kind):
        field = kind.model_fields.get("kind")
        if field is not None and typing.get_origin(field.annotation) is typing.Literal:
            return str(typing.get_args(field.annotation)[0])
        return str(kind.__name__)
    return getattr(kind, "__name__", str(kind))


def _is_branch(part: str, holders: list[Any]) -> bool:
    if len(holders) > 1 and any(_branch_name(kind) == part for kind in holders):
        return True
    made_up = ("tuple[", "list[", "dict[", "function-", "[key]")
    return part in ("str", "int", "float", "bool") or part.startswith(made_up)


def _keys(model: type[BaseModel]) -> set[str]:
    return {field.alias or name for name, field in model.model_fields.items()}


def _inside(holders: list[Any], part: int | str) -> list[Any]:
    found: list[Any] = []
    for kind in holders:
        if _is_model(kind):
            for name, field in kind.model_fields.items():
                if (field.alias or name) == part:
                    found += _flatten(field.annotation)
            continue
        origin, arguments = typing.get_origin(kind), typing.get_args(kind)
        if origin in (list, tuple) and arguments:
            found += _flatten(arguments[0])
        elif origin in (dict, Mapping) and len(arguments) == 2:
            found += _flatten(arguments[1])
    return found


def _flatten(annotation: Any) -> list[Any]:
    import types

    origin = typing.get_origin(annotation)
    if origin is typing.Annotated:
        return _flatten(typing.get_args(annotation)[0])
    if origin in (typing.Union, types.UnionType):
        return [kind for member in typing.get_args(annotation) for kind in _flatten(member)]
    return [] if annotation is type(None) else [annotation]
