"""What a field of a model says of its values, until pydantic is told."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

__all__ = [
    "MISSING",
    "BeforeValidator",
    "Field",
    "Mark",
    "StringConstraints",
    "checks_of",
    "field_validator",
    "model_validator",
]

MISSING: Any = object()
"""The default of a field that has none."""


class Mark:
    """Something said of a value, under pydantic's own name for it."""

    def __init__(self, name: str, *given: Any, **options: Any) -> None:
        self.name, self.given, self.options = name, given, options

    def real(self) -> Any:
        """The same as pydantic says it."""
        import pydantic

        return getattr(pydantic, self.name)(*self.given, **self.options)


class Field(Mark):
    """As `pydantic.Field`, with as much of it as models here use."""

    def __init__(self, *, default: Any = MISSING, alias: str | None = None, **limits: Any) -> None:
        super().__init__("Field", **limits)
        self.default, self.alias = default, alias


class BeforeValidator(Mark):
    """As `pydantic.BeforeValidator`."""

    def __init__(self, check: Callable[[Any], Any]) -> None:
        super().__init__("BeforeValidator", check)


class StringConstraints(Mark):
    """As `pydantic.StringConstraints`."""

    def __init__(self, **limits: Any) -> None:
        super().__init__("StringConstraints", **limits)


def model_validator(*, mode: str) -> Callable[[Callable[..., Any]], Any]:
    """As `pydantic.model_validator` after the fields; there is no other mode here."""
    if mode != "after":
        raise TypeError(f"models are checked after their fields, not {mode!r}")

    def marked(check: Callable[..., Any]) -> Any:
        setattr(check, _OF_MODEL, True)
        return check

    return marked


def field_validator(*names: str) -> Callable[[Any], Any]:
    """As `pydantic.field_validator` after the field, on a class method that takes the value alone."""

    def marked(check: Any) -> Any:
        setattr(check, _OF_FIELDS, names)
        return check

    return marked


_OF_MODEL, _OF_FIELDS = "_checks_the_model", "_checks_fields"


def checks_of(cls: type) -> tuple[list[str], dict[str, list[str]]]:
    """The names of the methods that check a model once made, the oldest class's first; and by field those
    that check its value."""
    whole: dict[str, None] = {}
    fields: dict[str, dict[str, None]] = {}
    for base in reversed(cls.__mro__):
        for name, value in vars(base).items():
            if getattr(value, _OF_MODEL, False):
                whole[name] = None
            for field in getattr(value, _OF_FIELDS, ()):
                fields.setdefault(field, {})[name] = None
    return list(whole), {field: list(names) for field, names in fields.items()}
