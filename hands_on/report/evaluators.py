"""The report of how well evaluators agree."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hands_on.compare.agreement.by_point import Agreement
from hands_on.report.blocks import Part, Report, Rows, Table, Text
from hands_on.report.statement import Statement
from hands_on.wording import agreement as agreed
from hands_on.wording.agreement_grid import grid_of, standing_words

__all__ = ["evaluators_report"]

_GRIDS = 8
"""Points of which every answer is printed."""


def evaluators_report(found: Agreement) -> Report:
    """Who examined which dog, where they part, each point's statistic, who leans which way."""
    board = found.board
    standing = tuple(
        (dog, *(standing_words(board.standing(n, e)) for e in range(len(board.evaluators))))
        for n, dog in enumerate(board.dogs)
    )
    head = ("Dog", *board.evaluators)
    order = agreed.order_sentences(found.order) if found.order is not None else ()
    parts = (
        Part(
            "board",
            "Who has examined which dog",
            (Table("Examinations", head, standing), _said(map(agreed.remark_words, found.remarks))),
        ),
        Part("worst", "Disagreed on most", (_said(agreed.worst_sentences(found)),)),
        Part("grids", "Who said what there", tuple(_grids(found))),
        Part("points", "Point by point", (_points(found),)),
        Part("order", agreed.ORDER, (_said(order),)),
        Part(
            "scatter",
            "How far readings of one dog scatter",
            (_said(agreed.precision_sentences(found.points)),),
        ),
        Part("lean", "Who leans which way", (_said(agreed.lean_sentences(found.lean)),)),
        Part("strict", "Over all graded points", (_said(agreed.strict_sentences(found.strictness)),)),
        Part("explained", "How to read this", (Text((agreed.EXPLAINED,)),)),
    )
    title = f"Agreement of {len(board.evaluators)} evaluators on {len(board.dogs)} dogs"
    return Report(title, ", ".join(board.evaluators), parts)


def _said(texts: Iterable[str]) -> Rows:
    return Rows(tuple(Statement(text) for text in texts))


def _grids(found: Agreement) -> Iterator[Table]:
    for one in found.most_apart[:_GRIDS]:
        grid = grid_of(found.board, one)
        rows = tuple((row.dog, *row.cells, row.tally) for row in grid.rows)
        asked = f"; asked: {grid.asked}" if grid.asked else ""
        yield Table(
            f"{grid.label}: {agreed.apart_words(one)}{asked}",
            ("Dog", *found.board.evaluators, "Together"),
            rows,
        )


def _points(found: Agreement) -> Table:
    rows = tuple(
        (
            one.label,
            one.estimate.statistic,
            agreed.estimate_words(one.estimate),
            str(one.estimate.n),
            agreed.reason_words(one.estimate) if one.estimate.reason is not None else "",
        )
        for one in found.points
        if one.unequal > 0
    )
    return Table(
        "Points at which answers differ", ("Point", "Statistic", "Value", "Dogs", "Remark"), rows, (3,)
    )
