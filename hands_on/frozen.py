"""Frozen dataclasses whose `__init__` is compiled when the first of them is made.

The standard library looks at every class and compiles six methods for it as its module is imported, and that
is a sixth of the time that a short command takes; most of these classes are of something that seldom happens.
For the type checker, and in use, this is `dataclasses.dataclass`.
"""

from __future__ import annotations

import dataclasses
from dataclasses import MISSING, Field, FrozenInstanceError
from functools import partial
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(cls: type | None = None, /, **options: Any) -> Any:
        """As `dataclasses.dataclass`; with `frozen=True` (and `eq=False`) the methods are made late."""
        if options in ({"frozen": True}, {"frozen": True, "eq": False}):
            return partial(_made, equal=options.get("eq", True))
        return dataclasses.dataclass(cls, **options)


class _Late:
    """An attribute that the standard library gives a dataclass, worked out when it is asked for."""

    def __init__(self, cls: type, name: str) -> None:
        self.cls, self.name = cls, name

    def __get__(self, one: object, owner: type) -> Any:
        _process(self.cls)
        return getattr(owner, self.name)


_LATE = ("__dataclass_fields__", "__dataclass_params__", "__match_args__")


def _process(cls: type) -> None:
    """Let the standard library look at the class: its fields, and their defaults."""
    for name in _LATE:
        if isinstance(vars(cls).get(name), _Late):
            delattr(cls, name)
    dataclasses.dataclass(cls, init=False, repr=False, eq=False)


def _made(cls: type, equal: bool) -> type:
    own = vars(cls)

    def first(self: Any, *given: Any, **named: Any) -> None:
        init = _init_of(cls)
        cls.__init__ = init  # type: ignore[misc]
        init(self, *given, **named)

    methods: dict[str, Any] = {"__repr__": _repr, "__setattr__": _refuse_set, "__delattr__": _refuse_delete}
    if equal:
        methods["__eq__"] = _equal
        if "__eq__" not in own:
            methods["__hash__"] = _hash
    late = {name: _Late(cls, name) for name in _LATE}
    for name, method in {"__init__": first, **methods, **late}.items():
        if name not in own:
            setattr(cls, name, method)
    return cls


def _init_of(cls: type) -> Any:
    """The `__init__` that the dataclass would have."""
    known: dict[str, Any] = {"_missing": MISSING}
    places: list[str] = []
    named: list[str] = []
    body = ["_own = self.__dict__"]
    for field in _fields(cls):
        name, value = field.name, field.name
        if field.default is not MISSING:
            known[f"_default_{name}"] = field.default
            given = f"{name}=_default_{name}"
        elif field.default_factory is not MISSING:
            known[f"_make_{name}"] = field.default_factory
            given = f"{name}=_missing"
            value = f"_make_{name}() if {name} is _missing else {name}"
        else:
            given = name
        if not field.init:
            if given == name:
                continue
            value = f"_make_{name}()" if field.default is MISSING else f"_default_{name}"
        else:
            (named if field.kw_only else places).append(given)
        body.append(f"_own[{name!r}] = {value}")
    if hasattr(cls, "__post_init__"):
        body.append("self.__post_init__()")
    arguments = ", ".join(["self", *places, *(["*", *named] if named else [])])
    exec(f"def __init__({arguments}):\n " + "\n ".join(body), known)
    return known["__init__"]


def _fields(cls: type) -> tuple[Field[Any], ...]:
    return dataclasses.fields(cls)


def _compared(one: Any) -> tuple[Any, ...]:
    return tuple(getattr(one, field.name) for field in _fields(type(one)) if field.compare)


def _equal(self: Any, other: object) -> Any:
    return _compared(self) == _compared(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    fields = _fields(type(self))
    return hash(tuple(getattr(self, f.name) for f in fields if (f.compare if f.hash is None else f.hash)))


@recursive_repr()
def _repr(self: Any) -> str:
    told = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in _fields(type(self)) if f.repr)
    return f"{type(self).__qualname__}({told})"


def _refuse_set(self: Any, name: str, value: Any) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(self: Any, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")
