"""Parsed tables to a validated model, every trouble told with its line."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from hands_on.toml_text.problems import BadText, bounded

__all__ = ["validate"]

Model = TypeVar("Model", bound=BaseModel)


def validate(model: type[Model], tables: dict[str, Any], text: str, file: str) -> Model:
    """Turn parsed tables into `model`.

    Raises BadText naming the keys that do not fit, each with its line and what would be right.
    """
    try:
        return model.model_validate(tables)
    except ValidationError as error:
        # Only what does not fit pays for the part that explains it.
        from hands_on.toml_text.explain import explain
        from hands_on.toml_text.lines import key_lines

        lines = key_lines(text)
        found = (explain(detail, model, lines, file) for detail in error.errors(include_url=False))
        raise BadText(bounded(found, error.error_count(), file)) from error
