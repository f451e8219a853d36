"""HTML pages: one file, text that is never markup, no script and nothing fetched from anywhere."""

from __future__ import annotations

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from hands_on.plain_text import visible

__all__ = ["page"]


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("hands_on.report", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        # what people typed may turn lines round or move cursors: shown as signs, as on the screen
        finalize=lambda value: visible(value, keep="\n\t") if type(value) is str else value,
    )
    environment.globals["percent"] = lambda share: f"{100 * share:.0f}"
    return environment


def page(template: str, **values: Any) -> str:
    """The page that a template makes of values. Raises jinja2's errors for a template that is wrong."""
    return _environment().get_template(template).render(**values)
