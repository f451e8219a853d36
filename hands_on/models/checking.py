"""Models as pydantic checks and writes them; pydantic is loaded here."""

from __future__ import annotations

import types
import typing
from collections.abc import Callable
from functools import reduce
from operator import or_
from typing import Annotated, Any, cast

from pydantic import GetCoreSchemaHandler, TypeAdapter
from pydantic_core import CoreSchema, core_schema

from hands_on.models.fields import MISSING, Mark
from hands_on.models.model import Made, Model, ModelField

__all__ = ["adapter_of", "schema_of"]

_told: set[type] = set()
"""The models that the schema in the making holds already: further down they are referred to."""


def adapter_of(cls: type[Model]) -> TypeAdapter[Any]:
    """Pydantic's checker and writer of a model."""
    _told.clear()
    return TypeAdapter(cls)


def schema_of(cls: type[Model], handler: GetCoreSchemaHandler) -> CoreSchema:
    """What pydantic is to check of a model: its fields, then what its own methods say."""
    ref = f"{cls.__module__}.{cls.__qualname__}"
    if cls in _told:
        return core_schema.definition_reference_schema(ref)
    _told.add(cls)
    made: Made = cls.made
    whole, of_fields = made.checks
    fields = {
        name: _field(field, [getattr(cls, check) for check in of_fields.get(name, ())], handler)
        for name, field in made.fields.items()
    }
    config = core_schema.CoreConfig(title=cls.__name__, extra_fields_behavior=made.options["extra"])
    if "allow_inf_nan" in made.options:
        config["allow_inf_nan"] = made.options["allow_inf_nan"]
    if made.options.get("populate_by_name"):
        config["validate_by_name"] = config["validate_by_alias"] = True
    schema: CoreSchema = core_schema.model_schema(
        cls, core_schema.model_fields_schema(fields, model_name=cls.__name__), config=config, frozen=True
    )
    for check in whole:
        schema = core_schema.no_info_after_validator_function(getattr(cls, check), schema)
    return cast(CoreSchema, {**schema, "ref": ref})


def _field(
    field: ModelField, checks: list[Callable[[Any], Any]], handler: GetCoreSchemaHandler
) -> core_schema.ModelField:
    annotation = _real(field.annotation)
    for mark in field.marks:
        annotation = Annotated[annotation, mark.real()]
    schema = handler.generate_schema(annotation)
    for check in checks:
        schema = core_schema.no_info_after_validator_function(check, schema)
    if field.default is not MISSING:
        schema = core_schema.with_default_schema(schema, default=field.default)
    return core_schema.model_field(schema, validation_alias=field.alias, serialization_alias=field.alias)


def _real(annotation: Any) -> Any:
    """The annotation with pydantic's own marks for ours."""
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is Annotated:
        marks = [mark.real() if isinstance(mark, Mark) else mark for mark in annotation.__metadata__]
        return Annotated[(_real(inner[0]), *marks)]
    if origin in (typing.Union, types.UnionType):
        return reduce(or_, map(_real, inner))
    if origin is None or origin is typing.Literal:
        return annotation
    return origin[tuple(one if one is ... else _real(one) for one in inner)]
