"""A model: a class with fields, read from what a file holds. It behaves as pydantic's own do."""

from __future__ import annotations

import typing
from collections.abc import Iterator, Mapping
from dataclasses import FrozenInstanceError
from functools import cached_property
from typing import Any, cast

from hands_on.models.fields import MISSING, Field, checks_of

__all__ = ["Made", "Model", "ModelField", "made"]

_set = object.__setattr__


class ModelField:
    """One field: its annotation as written, its default, and its key in a file where that is another."""

    __slots__ = ("alias", "annotation", "default", "marks")

    def __init__(self, annotation: Any, given: Any) -> None:
        own = isinstance(given, Field)
        self.annotation = annotation
        self.default = given.default if own else given
        self.alias: str | None = given.alias if own else None
        self.marks: tuple[Field, ...] = (given,) if own and given.options else ()

    def new_default(self) -> Any:
        """The default, copied where it could be changed."""
        return self.default.copy() if isinstance(self.default, dict | list | set) else self.default


class Made:
    """What a model's class turns out to be, worked out when it is first needed."""

    def __init__(self, cls: type[Model], options: Mapping[str, Any]) -> None:
        self.cls, self.options = cls, options

    @cached_property
    def fields(self) -> dict[str, ModelField]:
        """The fields by name, those of the oldest class first. Raises TypeError for a field of pydantic's."""
        found = {}
        for name, annotation in typing.get_type_hints(self.cls, include_extras=True).items():
            given = getattr(self.cls, name, MISSING)
            if type(given).__module__.startswith("pydantic"):
                raise TypeError(f"{self.cls.__name__}.{name}: `Field` is that of hands_on.models")
            found[name] = ModelField(annotation, given)
        return found

    @property
    def open(self) -> bool:
        """Does it take more than its fields?"""
        return self.options.get("extra") == "allow"

    @cached_property
    def checks(self) -> tuple[list[str], dict[str, list[str]]]:
        """The methods that check it; see `fields.checks_of`."""
        return checks_of(self.cls)

    @cached_property
    def plain(self) -> Any:
        """What takes plainly right values as they are; see `hands_on.models.plain`."""
        from hands_on.models.plain import reader_of

        return reader_of(self)

    @cached_property
    def pydantic(self) -> Any:
        """Pydantic's checker and writer of it."""
        from hands_on.models.checking import adapter_of

        return adapter_of(self.cls)


class _Kind(type):
    """The class of models."""

    made: Made

    def __new__(mcs, name: str, bases: tuple[type, ...], space: dict[str, Any], **options: Any) -> Any:
        return super().__new__(mcs, name, bases, space)

    def __init__(cls, name: str, bases: tuple[type, ...], space: dict[str, Any], **options: Any) -> None:
        super().__init__(name, bases, space)
        inherited = cls.made.options if bases else {}
        cls.made = Made(cast("type[Model]", cls), {**inherited, **options})

    def __call__(cls, **given: Any) -> Any:
        """A new one from values by their keys. Raises pydantic's ValidationError, a ValueError."""
        return cast("type[Model]", cls).model_validate(given)

    @property
    def model_fields(cls) -> dict[str, ModelField]:
        """The fields by name."""
        return cls.made.fields


class Model(metaclass=_Kind):
    """Base of all models; nothing changes once made.

    `__pydantic_fields_set__` holds the names of what was given, `__pydantic_extra__` what is no field, where
    a model takes more than its fields: so pydantic names them when it makes an object.
    """

    __slots__ = ("__dict__", "__pydantic_extra__", "__pydantic_fields_set__", "__pydantic_private__")

    @classmethod
    def model_validate(cls, given: Any) -> Any:
        """The model from values by their keys. Raises pydantic's ValidationError, a ValueError."""
        found = cls.made.plain(given)
        return cls.made.pydantic.validate_python(given) if found is None else found

    @classmethod
    def model_construct(cls, **given: Any) -> Any:
        """The model from values by their fields, unchecked."""
        fields = cls.made.fields
        values = {
            name: given[name] if name in given else field.new_default()
            for name, field in fields.items()
            if name in given or field.default is not MISSING
        }
        more = {name: value for name, value in given.items() if name not in fields}
        return made(cls, values, set(given), more if cls.made.open else None)

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Any:
        """A copy with other values, unchecked."""
        values, more = dict(self.__dict__), self.__pydantic_extra__
        more = None if more is None else dict(more)
        fields = type(self).made.fields
        for name, value in (update or {}).items():
            if name in fields or more is None:
                values[name] = value
            else:
                more[name] = value
        return made(type(self), values, self.__pydantic_fields_set__ | set(update or ()), more)

    def model_dump(self, **options: Any) -> dict[str, Any]:
        """The values by field or key, as pydantic's `model_dump`."""
        from hands_on.models.written import plainly_written

        found = plainly_written(self, **options)
        return type(self).made.pydantic.dump_python(self, **options) if found is None else found

    def model_dump_json(self, **options: Any) -> str:
        """The values as JSON, as pydantic's `model_dump_json`."""
        return str(type(self).made.pydantic.dump_json(self, **options), "utf-8")

    @property
    def model_fields_set(self) -> Any:
        """The fields that were given."""
        return self.__pydantic_fields_set__

    @property
    def model_extra(self) -> Any:
        """What was given beyond the fields; None where a model takes no more."""
        return self.__pydantic_extra__

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> Any:
        from hands_on.models.checking import schema_of

        return schema_of(cls, handler)

    def __getattr__(self, name: str) -> Any:
        if not name.startswith("__"):
            more = self.__pydantic_extra__
            if more and name in more:
                return more[name]
        raise AttributeError(f"{type(self).__name__!r} object has no attribute {name!r}")

    def __setattr__(self, name: str, value: Any) -> None:
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self, name: str) -> None:
        raise FrozenInstanceError(f"cannot delete field {name!r}")

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        return self.__dict__ == other.__dict__ and self.__pydantic_extra__ == other.__pydantic_extra__

    def __hash__(self) -> int:
        return hash(tuple(self.__dict__.values()))

    def __iter__(self) -> Iterator[tuple[str, Any]]:
        yield from self.__dict__.items()
        yield from (self.__pydantic_extra__ or {}).items()

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in self)})"

    def __getstate__(self) -> tuple[dict[str, Any], set[str], dict[str, Any] | None]:
        return self.__dict__, self.__pydantic_fields_set__, self.__pydantic_extra__

    def __setstate__(self, state: tuple[dict[str, Any], set[str], dict[str, Any] | None]) -> None:
        _set(self, "__dict__", state[0])
        _set(self, "__pydantic_fields_set__", state[1])
        _set(self, "__pydantic_extra__", state[2])


def made(cls: type, values: dict[str, Any], given: set[str], more: dict[str, Any] | None) -> Any:
    """A new object of a model with these values, the names of those given, and what more was given."""
    one: Any = object.__new__(cls)
    one.__setstate__((values, given, more))
    return one
