"""`hands-on rulesets ID --against ID`: two editions rule by rule, only where they differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from hands_on.commands.rulesets import load, wrapped
from hands_on.commands.shared import Context, print_json
from hands_on.plain_text import one_line, visible

if TYPE_CHECKING:
    from hands_on.compare.edition_rows import Comparison, Row


def run(context: Context, first: str, second: str, *, as_json: bool) -> int:
    """Print the comparison. Raises CommandError where an edition is not here or can't be used."""
    from hands_on.compare.editions import compare_editions

    found = compare_editions(load(context, first), load(context, second))
    if as_json:
        print_json(found.as_json())
        return 0
    for line in _lines(found):
        print(line)
    return 0


def _lines(found: Comparison) -> Iterator[str]:
    names = (found.a.id, found.b.id)
    yield visible(f"{found.a.edition.title} ({names[0]})")
    yield visible(f"against {found.b.edition.title} ({names[1]})")
    if found.a.edition.breed != found.b.edition.breed:
        yield visible(f"These are two breeds: {found.a.edition.breed} and {found.b.edition.breed}.")
    if not any(section.rows for section in found.sections):
        yield "\nThey say the same."
    for section in found.sections:
        if not section.rows:
            continue
        alike = f" ({section.same} alike)" if section.same else ""
        yield f"\n{section.title}{alike}\n{'-' * len(section.title)}"
        for _, group in groupby(section.rows, key=lambda row: (row.a, row.b, row.stretches)):
            yield from _rows(list(group), names)
    yield "\nSources\n-------"
    for ruleset in (found.a, found.b):
        for key, text in ruleset.edition.sources.items():
            yield wrapped(one_line(f"{ruleset.id}, {key}: {text}"), 2)


def _rows(rows: list[Row], names: Iterable[str]) -> Iterator[str]:
    """Rows on which the editions say the same two things, told once."""
    titles = [row.label + (f" ({row.when})" if row.when else "") for row in rows]
    yield wrapped(one_line("; ".join(dict.fromkeys(titles))), 2)
    row = rows[0]
    for name, text, source in zip(names, (row.a, row.b), (row.source_a, row.source_b), strict=True):
        keys = f" [{source}]" if source else ""
        yield wrapped(one_line(f"{name}: {text or 'nothing'}{keys}"), 6)
    for stretch in row.stretches:
        yield wrapped(one_line(f"{stretch.text}: {stretch.a} | {stretch.b}"), 10)
