"""The report of two to six dogs side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.compare.dogs.findings import Held
from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide
from hands_on.report.blocks import Drawing, Part, Report, Rows, Table
from hands_on.report.drawn_dogs import drawn_over, really_differ
from hands_on.report.statement import Statement
from hands_on.wording.dogs import (
    cell_words,
    difference_mark,
    finding_sentences,
    remark_sentences,
    same_sentence,
    who,
)
from hands_on.wording.labels import label_words
from hands_on.wording.order import order_answer, order_sentences

__all__ = ["several_dogs"]


def several_dogs(compared: SideBySide) -> Report:
    """Who stands beside whom, what differs, findings, the order and how sure it is."""
    dogs = tuple(
        (name, ", ".join(who(one))) for one, name in zip(compared.sessions, _names(compared), strict=True)
    )
    found = compared.findings
    answer = order_answer(compared.order)
    order = [*([answer] if answer else []), *order_sentences(compared.order, compared.sessions)]
    parts = (
        Part(
            "dogs",
            "The dogs",
            (Table("Who is compared", ("Dog", "Examined"), dogs), Rows(_rows(remark_sentences(compared)))),
        ),
        Part("differences", "What differs", tuple(_differences(compared))),
        Part("shared", "Findings that all have", (Rows(_found(compared, found.shared)),)),
        Part("only", "Findings that some have", (Rows(_found(compared, found.only)),)),
        Part("by-edition", "By one edition's limits", (Rows(_found(compared, found.by_edition)),)),
        Part("drawn", "Drawn over each other", tuple(_drawn(compared))),
        Part("order", "Order by the edition's rule", (Rows(_rows(order)),)),
    )
    titles = dict.fromkeys(one.ruleset.edition.title for one in compared.sessions)
    return Report(" · ".join(compared.dogs), "; ".join(titles), parts)


def _names(compared: SideBySide) -> list[str]:
    """The dogs; of more than two with the numbers by which a difference names its pair."""
    many = len(compared.dogs) > 2
    return [f"{n} {name}" if many else name for n, name in enumerate(compared.dogs, 1)]


def _differences(compared: SideBySide) -> Iterator[Table | Rows]:
    head = ("Point", *_names(compared), "Difference")
    for region, label in (*compared.regions, ("", "Proportions")):
        rows = compared.in_region(region) if region else list(compared.proportions)
        told = tuple(
            _cells(compared, row)
            for row in rows
            if row.given and (row.differs or row.kind == "measure" or not region)
        )
        if told:
            yield Table(label, head, told)
    same = same_sentence(compared)
    if same:
        yield Rows((Statement(same),))


def _cells(compared: SideBySide, row: ComparedTrait) -> tuple[str, ...]:
    mark, head = difference_mark(row), row.headline
    if head is not None and row.differs and len(row.answers) > 2:
        mark = f"{head.first + 1} and {head.second + 1}: {mark}"
    return (label_words(row.named), *(cell_words(compared, row, n) for n in range(len(row.answers))), mark)


def _drawn(compared: SideBySide) -> Iterator[Drawing]:
    """Each dog over the first; heavier where the two really differ."""
    heavy, names = really_differ(compared), _names(compared)
    first = compared.sessions[0]
    for n, one in enumerate(compared.sessions[1:], 1):
        yield drawn_over(first, one, (names[0], names[n]), heavy.get((0, n), frozenset()))


def _found(compared: SideBySide, rows: Sequence[Held]) -> tuple[Statement, ...]:
    return _rows(finding_sentences(compared.sessions, compared.dogs, compared.findings, rows))


def _rows(texts: Iterator[str] | Sequence[str]) -> tuple[Statement, ...]:
    return tuple(Statement(text) for text in texts)
