"""`hands-on rulesets ID --against ID`: two editions rule by rule, only where they differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from hands_on.commands.rulesets import load, wrapped
from hands_on.commands.shared import Context, print_json
from hands_on.plain_text import one_line, visible

if TYPE_CHECKING:
    from hands_on.compare.editions.rule_pair import Comparison
    from hands_on.wording.two_editions import ToldRule


def run(context: Context, first: str, second: str, *, as_json: bool) -> int:
    """Print the comparison. Raises CommandError where an edition is not here or can't be used."""
    from hands_on.compare.editions.rule_by_rule import compare_editions

    found = compare_editions(load(context, first), load(context, second))
    if as_json:
        from hands_on.wording.documents.editions import editions_document

        print_json(editions_document(found))
        return 0
    for line in _lines(found):
        print(line)
    return 0


def _lines(found: Comparison) -> Iterator[str]:
    from hands_on.wording.two_editions import heads_differ, told, told_once

    sections = told(found).sections
    names = (found.a.id, found.b.id)
    yield visible(f"{found.a.edition.title} ({names[0]})")
    yield visible(f"against {found.b.edition.title} ({names[1]})")
    if heads_differ(found):
        yield visible(heads_differ(found))
    if not any(section.rows for section in sections):
        yield "\nThey say the same."
    for section in sections:
        if not section.rows:
            continue
        alike = f" ({section.same} alike)" if section.same else ""
        yield f"\n{section.title}{alike}\n{'-' * len(section.title)}"
        for title, row in told_once(section):
            yield from _row(title, row, names)
    yield "\nSources\n-------"
    for ruleset in (found.a, found.b):
        for key, text in ruleset.edition.sources.items():
            yield wrapped(one_line(f"{ruleset.id}, {key}: {text}"), 2)


def _row(title: str, row: ToldRule, names: Iterable[str]) -> Iterator[str]:
    from hands_on.wording.two_editions import NOTHING

    yield wrapped(one_line(title), 2)
    for name, text, source in zip(names, (row.a, row.b), (row.source_a, row.source_b), strict=True):
        keys = f" [{source}]" if source else ""
        yield wrapped(one_line(f"{name}: {text or NOTHING}{keys}"), 6)
    for stretch in row.stretches:
        yield wrapped(one_line(f"{stretch.text}: {stretch.a} | {stretch.b}"), 10)
