"""A dossier as plain text of a given width; what people typed cannot move the cursor."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from hands_on.plain_text import one_line
from hands_on.report.dossier import Dossier
from hands_on.report.statement import Statement

__all__ = ["dossier_lines", "wrapped"]

_LABELS = 13
"""Columns of the labels before the five lines."""


def dossier_lines(found: Dossier, width: int) -> Iterator[str]:
    """Five lines, the sections, the sources."""
    for lead in found.lead:
        yield from wrapped(f"{lead.label + ':':{_LABELS}}{one_line(lead.text)}", width, 0, _LABELS)
    yield ""
    for section in found.sections:
        if not section.shown:
            continue
        if len(section.statements) < 2:
            said = section.empty if not section.statements else _said(section.statements[0])
            yield from wrapped(f"{section.title}: {one_line(said)}", width)
            continue
        yield section.title
        indent = 4 if any(one.heading for one in section.statements) else 2
        for one in section.statements:
            if one.heading:
                yield from wrapped(one.text, width, 2)
                continue
            yield from wrapped(_said(one), width, indent)
    if found.sources:
        yield "Sources"
        for mark, text in found.sources:
            yield from wrapped(f"[{mark}] {text}", width, 2)


def _said(one: Statement) -> str:
    """A statement with what goes below it and its sources, as one paragraph."""
    more = "; ".join(part.rstrip(".") for part in one.more if part)
    text = f"{one.text}. {more[:1].upper()}{more[1:]}" if more else one.text
    return " ".join(filter(None, (text, one.mark)))


def wrapped(text: str, width: int, indent: int = 0, later: int | None = None) -> list[str]:
    """A statement on as many lines as it needs, none longer than `width`."""
    first, rest = " " * indent, " " * (indent + 2 if later is None else later)
    return textwrap.wrap(
        _shown(text),
        width,
        initial_indent=first,
        subsequent_indent=rest,
        break_on_hyphens=False,
        drop_whitespace=True,
    )


def _shown(text: str) -> str:
    return text if text.isprintable() else one_line(text)
