"""Two editions as parts of a table: side by side where there is room, else one under the other."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.compare.editions.rule_pair import Comparison
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui.side_rows import Column, Part, TableRow
from hands_on.wording.two_editions import (
    NOTHING,
    ToldRule,
    ToldSection,
    difference_words,
    heads_differ,
    told,
    told_once,
)

BLANK = TableRow("", ("", ""))

FIRST, SECOND = "the first", "the second"
"""What the editions are called where their names stand above."""


def columns_of(found: Comparison) -> tuple[Column, ...]:
    """The heads: title, id."""
    return tuple(Column(one.edition.title, (one.id,)) for one in (found.a, found.b))


def edition_parts(found: Comparison, *, wide: bool) -> tuple[Part, ...]:
    """What differs, section by section; then how much is alike, and the sources."""
    sections = told(found).sections
    parts = [_part(found, section, wide) for section in sections if section.rows]
    breeds = heads_differ(found)
    if breeds:
        parts.insert(0, Part("breeds", "Two breeds", (TableRow("", text=breeds),)))
    if not parts:
        parts.append(Part("same", "They say the same", (), empty="no rule differs"))
    alike = tuple(
        TableRow("", text=f"{section.title}: {section.same}") for section in sections if section.same
    )
    parts.append(Part("alike", "Rules that say the same in both", alike, empty="none"))
    sources = tuple(row for one in (found.a, found.b) for row in _sources(one))
    return (*parts, Part("sources", "Sources", sources))


def _part(found: Comparison, section: ToldSection, wide: bool) -> Part:
    rules = list(told_once(section))
    rows: list[TableRow] = []
    for title, row in rules:
        rows += _side_by_side(title, row) if wide else _under_each_other(found, title, row)
        rows.append(BLANK)
    count = f"{len(rules)} differ{'s' if len(rules) == 1 else ''}"
    return Part(section.key, section.title, tuple(rows[:-1]), count)


def _side_by_side(title: str, row: ToldRule) -> Iterator[TableRow]:
    yield TableRow(title, _cells(row), difference_words(row, FIRST, SECOND), bold=True)
    for stretch in row.stretches:
        yield TableRow(f"· {stretch.text}", (stretch.a, stretch.b))


def _under_each_other(found: Comparison, title: str, row: ToldRule) -> Iterator[TableRow]:
    names = (found.a.id, found.b.id)
    yield TableRow("", text=f"{title}: {difference_words(row, *names)}", bold=True)
    for name, cell in zip(names, _cells(row), strict=True):
        yield TableRow("", text=f"{name}: {cell}", indent=2)
    for stretch in row.stretches:
        yield TableRow("", text=f"· {stretch.text}: {stretch.a} | {stretch.b}", indent=4)


def _cells(row: ToldRule) -> tuple[str, str]:
    first, second = (
        (text or NOTHING) + (f" [{source}]" if source else "")
        for text, source in ((row.a, row.source_a), (row.b, row.source_b))
    )
    return first, second


def _sources(ruleset: Ruleset) -> Iterator[TableRow]:
    for key, text in ruleset.edition.sources.items():
        yield TableRow("", text=f"{ruleset.id}, {key}: {text}")
