"""A model's values written out without pydantic where all of them are plain."""

from __future__ import annotations

import datetime
import math
from typing import Any

from hands_on.models.fields import MISSING
from hands_on.models.model import Model

__all__ = ["plainly_written"]


class _NotPlain(Exception):
    """How this is written is for pydantic to say."""


def plainly_written(
    one: Model,
    *,
    mode: str = "python",
    by_alias: bool = False,
    exclude: Any = None,
    exclude_defaults: bool = False,
    exclude_none: bool = False,
    warnings: bool = True,
    **others: Any,
) -> dict[str, Any] | None:
    """What pydantic's `model_dump` with these options gives; None where that is for pydantic to say."""
    if others or mode not in ("python", "json") or not isinstance(exclude, set | None):
        return None
    without = exclude or set()

    def rows(part: Model, left_out: set[str]) -> dict[str, Any]:
        found = {}
        for name, field in type(part).made.fields.items():
            value = part.__dict__[name]
            if name in left_out or (value is None and exclude_none):
                continue
            if exclude_defaults and field.default is not MISSING and value == field.default:
                continue
            found[field.alias or name if by_alias else name] = written(value)
        for name, value in (part.model_extra or {}).items():
            if name in left_out or (value is None and exclude_none):
                continue
            found[name] = written(value)
        return found

    def written(value: Any) -> Any:
        kind = type(value)
        if kind in _AS_THEY_ARE or value is None:
            return value
        if isinstance(value, Model):
            return rows(value, set())
        if kind is tuple or kind is list:
            return list(map(written, value)) if mode == "json" else kind(map(written, value))
        if kind is dict and all(type(key) is str for key in value):
            return {key: written(part) for key, part in value.items() if part is not None or not exclude_none}
        return _number(value) if kind is float else _day(value) if mode == "json" else _dated(value)

    try:
        return rows(one, without)
    except _NotPlain:
        return None


_AS_THEY_ARE = {str, int, bool}


def _number(value: float) -> float:
    if math.isfinite(value):
        return value
    raise _NotPlain


def _dated(value: Any) -> Any:
    if type(value) in (datetime.date, datetime.datetime, datetime.time):
        return value
    raise _NotPlain


def _day(value: Any) -> str:
    """A date, or a time of whole minutes from Greenwich, by ISO 8601 as pydantic writes it."""
    if type(value) is datetime.date:
        return value.isoformat()
    if type(value) is not datetime.datetime:
        raise _NotPlain
    apart = value.utcoffset()
    if apart is None:
        return value.isoformat()
    if apart % datetime.timedelta(minutes=1):
        raise _NotPlain
    return value.replace(tzinfo=None).isoformat() + "Z" if not apart else value.isoformat()
