"""A report as one HTML file: no script, nothing from elsewhere, for a phone, a desk and paper."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from importlib import resources

from jinja2 import BaseLoader, Environment, StrictUndefined
from markupsafe import Markup

from hands_on.plain_text import visible
from hands_on.report.blocks import Block, Report, shown
from hands_on.report.statement import Statement

__all__ = ["render", "report_html"]


def report_html(report: Report) -> str:
    """The whole page."""
    return render("report.html.j2", report=report, parts=shown(report.parts))


def render(template: str, **values: object) -> str:
    """A template of this package, filled; every value that is text is escaped."""
    return _environment().get_template(template).render(**values)


class _Loader(BaseLoader):
    """Reads from the package, also where that is a zip file."""

    def get_source(self, environment: Environment, template: str) -> tuple[str, None, None]:
        """The template's text."""
        return (resources.files(__package__) / "templates" / template).read_text(encoding="utf-8"), None, None


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=_Loader(),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["typed"] = typed
    environment.filters["drawn"] = drawn
    environment.filters["headed"] = headed
    environment.tests["block"] = _is_block
    return environment


def typed(text: str) -> str:
    """Text of people with what would turn the line round as visible signs; escaped by the template."""
    return visible(str(text), keep="\n")


def drawn(svg: str) -> Markup:
    """An SVG element that was made here: its own texts are escaped already."""
    return Markup(svg)


def headed(statements: Sequence[Statement]) -> list[tuple[str, list[Statement]]]:
    """Statements under the headings among them; the first without where none begins."""
    groups: list[tuple[str, list[Statement]]] = []
    for one in statements:
        if one.heading:
            groups.append((one.text, []))
        elif not groups:
            groups.append(("", [one]))
        else:
            groups[-1][1].append(one)
    return groups


def _is_block(block: Block, name: str) -> bool:
    return type(block).__name__ == name
