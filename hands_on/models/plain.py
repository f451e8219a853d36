"""What stands in a file as it should, taken as it is: the common case, without pydantic.

A reader here knows the plain forms of values alone: a text where a text is asked for, one of the words, a
list of tables. Of anything else it says nothing, and pydantic decides.
"""

from __future__ import annotations

import datetime
import math
import types
import typing
from collections.abc import Callable
from typing import Annotated, Any

from hands_on.models.fields import MISSING, BeforeValidator, Field, Mark
from hands_on.models.model import Made, Model, made

__all__ = ["reader_of"]

Read = Callable[[Any], Any]
"""Gives the value, or raises _NotPlain or what a check of the model raises."""

_SURE = 2**53
"""Whole numbers below are told by a float to the last digit."""


class _NotPlain(Exception):
    """Whether the value is right is for pydantic to say."""


def reader_of(what: Made) -> Callable[[Any], Any]:
    """A reader of a model's values: the model, or None where they are not plainly right."""
    try:
        read = _of_model(what)
    except _NotPlain:
        return lambda given: None

    def reader(given: Any) -> Any:
        try:
            return read(given)
        except (_NotPlain, ValueError, AssertionError):
            return None

    return reader


def _of_model(what: Made) -> Read:
    cls, takes_more = what.cls, what.open
    whole, of_fields = what.checks
    checks = [getattr(cls, name) for name in whole]
    by_name = bool(what.options.get("populate_by_name"))
    rows = []
    for name, field in what.fields.items():
        read = _of(field.annotation, field.marks, [getattr(cls, check) for check in of_fields.get(name, ())])
        rows.append((name, field.alias or name, read, field))
    other_names = {name for name, key, *_ in rows if by_name and key != name}
    keys = {key for _, key, *_ in rows}

    def read_model(given: Any) -> Any:
        if type(given) is cls:
            return given
        if type(given) is not dict or not other_names.isdisjoint(given):
            raise _NotPlain
        values, named = {}, set()
        for name, key, read, field in rows:
            if key in given:
                values[name] = read(given[key])
                named.add(name)
            elif field.default is MISSING:
                raise _NotPlain
            else:
                values[name] = field.new_default()
        more = {_text(key): given[key] for key in given if key not in keys} if len(given) > len(named) else {}
        if more and not takes_more:
            raise _NotPlain
        one = made(cls, values, named | more.keys(), more if takes_more else None)
        for check in checks:
            one = check(one)
        return one

    return read_model


def _of(annotation: Any, marks: tuple[Mark, ...] = (), checks: list[Read] | None = None) -> Read:
    """The reader of a value with this annotation. Raises _NotPlain for one whose values are pydantic's."""
    if typing.get_origin(annotation) is Annotated:
        marks = (*annotation.__metadata__, *marks)
        annotation = typing.get_args(annotation)[0]
    before = [mark.given[0] for mark in marks if isinstance(mark, BeforeValidator)]
    limits = [mark for mark in marks if not isinstance(mark, BeforeValidator)]
    steps: list[Read] = [*reversed(before), _unmarked(annotation), *map(_limit, limits), *(checks or ())]
    if len(steps) == 1:
        return steps[0]

    def read_in_steps(value: Any) -> Any:
        for step in steps:
            value = step(value)
        return value

    return read_in_steps


def _limit(mark: Mark) -> Read:
    """A check that a value keeps within a field's limits."""
    if not isinstance(mark, Field) or not mark.options.keys() <= {"ge", "gt", "le", "lt", "min_length"}:
        raise _NotPlain
    low, high = mark.options.get("ge", -math.inf), mark.options.get("le", math.inf)
    above, below = mark.options.get("gt", -math.inf), mark.options.get("lt", math.inf)
    least = mark.options.get("min_length")

    def within(value: Any) -> Any:
        if len(value) < least if least is not None else not (low <= value <= high and above < value < below):
            raise _NotPlain
        return value

    return within


def _unmarked(annotation: Any) -> Read:
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    if annotation in _SIMPLE:
        return _SIMPLE[annotation]
    if isinstance(annotation, type) and issubclass(annotation, Model):
        return _late(annotation.made)
    if origin is typing.Literal and all(type(word) is str for word in inner):
        return _word(frozenset(inner))
    if origin in (typing.Union, types.UnionType):
        return _one_of(inner)
    if origin is tuple and inner[1:] == (...,):
        return _list(_of(inner[0]))
    if origin is dict:
        return _table(_of(inner[0]), _of(inner[1]))
    raise _NotPlain


def _late(what: Made) -> Read:
    """The reader of a model inside another, made when one is met first."""
    known: list[Read] = []

    def read(value: Any) -> Any:
        if not known:
            known.append(_of_model(what))
        return known[0](value)

    return read


def _word(words: frozenset[str]) -> Read:
    def read(value: Any) -> Any:
        if type(value) is str and value in words:
            return value
        raise _NotPlain

    return read


def _list(read: Read) -> Read:
    def read_list(value: Any) -> Any:
        if type(value) is list or type(value) is tuple:
            return tuple([read(one) for one in value])
        raise _NotPlain

    return read_list


def _table(read_key: Read, read_value: Read) -> Read:
    def read(value: Any) -> Any:
        if type(value) is dict:
            return {read_key(key): read_value(one) for key, one in value.items()}
        raise _NotPlain

    return read


def _one_of(kinds: tuple[Any, ...]) -> Read:
    """None, or what exactly one of the other kinds takes as it is: the first that does."""
    readers = [_of(kind) for kind in kinds if kind is not types.NoneType]
    empty = len(readers) < len(kinds)

    def read(value: Any) -> Any:
        if value is None and empty:
            return None
        for reader in readers:
            try:
                return reader(value)
            except _NotPlain:
                continue
        raise _NotPlain

    return read


def _text(value: Any) -> str:
    if type(value) is not str:
        raise _NotPlain
    if not value.isascii():
        value.encode()  # halves of characters raise UnicodeEncodeError
    return value


def _exactly(kind: type) -> Read:
    def read(value: Any) -> Any:
        if type(value) is kind:
            return value
        raise _NotPlain

    return read


def _number(value: Any) -> float:
    if type(value) is float and math.isfinite(value):
        return value
    if type(value) is int and -_SURE <= value <= _SURE:
        return float(value)
    raise _NotPlain


def _anything(value: Any) -> Any:
    return value


_SIMPLE: dict[Any, Read] = {
    Any: _anything,
    str: _text,
    bool: _exactly(bool),
    int: _exactly(int),
    float: _number,
    datetime.date: _exactly(datetime.date),
    datetime.datetime: _exactly(datetime.datetime),
}
