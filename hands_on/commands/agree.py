"""`hands-on agree FILE ...`: how well several evaluators agree on the same dogs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, paragraphs, section
from hands_on.commands.given_sessions import held
from hands_on.commands.shared import CommandError, print_json
from hands_on.frozen import dataclass
from hands_on.plain_text import one_line

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.agreement.by_point import Agreement, PointAgreement
    from hands_on.compare.examined import Examined

_WIDTHS = [34, 20, 30, 10]


@dataclass(frozen=True)
class Request:
    """What is to be compared, and how it is to be told."""

    files: Sequence[str]
    points: tuple[str, ...] = ()
    """Points whose answers are printed; none for everything."""
    reference: str | None = None
    """The evaluator whom the others are held against."""


def sessions_of(asked: Request, context: Context) -> list[Examined]:
    """The sessions that were named. Raises CommandError for what cannot be read, and without any."""
    sessions = held(context, asked.files)
    if not sessions:
        raise CommandError("there is no session in what was named.")
    return sessions


def run(asked: Request, *, as_json: bool, context: Context) -> int:
    """Print the agreement of the sessions in files, folders, or of a seminar round.

    Raises CommandError for what cannot be read, without any session, and for a point or an evaluator that
    nobody here knows.
    """
    from hands_on.compare.agreement.by_point import agreement

    found = agreement(sessions_of(asked, context))
    reference = _column(asked.reference, found)
    unknown = [name for name in asked.points if name not in {one.id for one in found.points}]
    if unknown:
        raise CommandError(f"{unknown[0]}: two evaluators have not answered such a point here.")
    if as_json:
        from hands_on.wording.documents.agreement import agreement_document

        print_json(agreement_document(found, reference))
        return 0
    told = _asked_points(found, asked.points, reference) if asked.points else lines(found, reference)
    for line in told:
        print(line)
    return 0


def _column(name: str | None, found: Agreement) -> int | None:
    if name is None:
        return None
    names = [one.casefold() for one in found.board.evaluators]
    if name.casefold() not in names:
        known = ", ".join(found.board.evaluators)
        raise CommandError(f"{name}: nobody of that name examined here. Known: {known}.")
    return names.index(name.casefold())


def _asked_points(found: Agreement, names: Sequence[str], reference: int | None) -> Iterator[str]:
    for name in names:
        one = next(point for point in found.points if point.id == name)
        yield from _grid(found, one, reference)
        yield ""


def _grid(found: Agreement, one: PointAgreement, reference: int | None) -> Iterator[str]:
    """Who said what at a point."""
    from hands_on.wording.agreement import apart_words
    from hands_on.wording.agreement_grid import grid_of

    grid = grid_of(found.board, one, reference)
    yield f"{one_line(grid.label)}: {apart_words(one)}"
    if grid.asked:
        yield from paragraph(f"Asked: {grid.asked}", 2)
    yield from _by_evaluator(found, [(row.dog, row.cells, row.tally) for row in grid.rows])
    if grid.tally:
        yield from paragraph(f"All dogs: {grid.tally}", 2)
    if grid.legend:
        yield from paragraph("; ".join(grid.legend), 2)


def _by_evaluator(found: Agreement, rows: Sequence[tuple[str, Sequence[str], str]]) -> Iterator[str]:
    """A row a dog, a column an evaluator; of many, a block of columns under the other."""
    names = found.board.evaluators
    for start in range(0, len(names), _ACROSS):
        here = slice(start, start + _ACROSS)
        widths = [16, *[11] * len(names[here])]
        yield from columns(["", *names[here]], widths, 2)
        for dog, cells, tally in rows:
            yield from columns([dog, *cells[here]], widths, 2)
            if tally and start + _ACROSS >= len(names):
                yield from paragraph(tally, 6)


_GRIDS = 5
"""Points of which every answer is printed."""

_ACROSS = 6
"""Evaluators beside each other within 100 columns."""


def lines(found: Agreement, reference: int | None = None) -> Iterator[str]:
    """The agreement as text, 100 columns wide; with a reference's column everybody held against it."""
    from hands_on.compare.agreement.reference import against_reference, own_repeats
    from hands_on.wording import agreement as agreed
    from hands_on.wording.agreement_grid import reference_sentences, repeat_sentences, standing_words

    yield from paragraph(f"Evaluators: {', '.join(found.board.evaluators)}", 0)
    yield from paragraph(f"Dogs: {', '.join(found.board.dogs)}", 0)
    for remark in found.remarks:
        yield from paragraph(f"Note: {agreed.remark_words(remark)}", 0)
    board = found.board
    yield ""
    yield "Who has examined which dog"
    states = [
        (dog, [standing_words(board.standing(n, e)) for e in range(len(board.evaluators))], "")
        for n, dog in enumerate(board.dogs)
    ]
    yield from _by_evaluator(found, states)
    if reference is not None:
        name = board.evaluators[reference]
        against = reference_sentences(against_reference(board, found.points, reference), name)
        yield from section(f"Held against {name}", paragraphs(against))
    own = repeat_sentences(own_repeats(board, found.points))
    yield from section("Each hand against itself, on dogs gone over twice", paragraphs(own))
    none_apart = "no pair of answers differs by more than hand error"
    yield from section("Disagreed on most", paragraphs(agreed.worst_sentences(found)), none_apart)
    if found.most_apart:
        yield ""
        yield "Who said what there"
        for one in found.most_apart[:_GRIDS]:
            yield ""
            yield from _grid(found, one, reference)
    varied = found.listed(only_different=True, worst_first=False)
    yield from section("Point by point", _points(varied), "no answers to compare that differ")
    alike = len(found.points) - len(varied)
    if alike:
        yield ""
        points = "point" if alike == 1 else "points"
        yield from paragraph(f"Every answer the same at {alike} further {points}.", 0)
    if found.order is not None:
        yield from section(agreed.ORDER, paragraphs(agreed.order_sentences(found.order)))
    spread = paragraphs(agreed.precision_sentences(found.points))
    yield from section("How far readings of one dog scatter", spread, "no two dogs were measured by all")
    leans = paragraphs(agreed.lean_sentences(found.lean))
    yield from section("Who leans which way", leans, "nobody by more than so few dogs scatter")
    yield from section("Over all graded points", paragraphs(agreed.strict_sentences(found.strictness)))
    yield ""
    yield from paragraph(agreed.EXPLAINED, 0)


def _points(rows: Sequence[PointAgreement]) -> Iterator[str]:
    from hands_on.wording.agreement import estimate_words, reason_words

    if rows:
        yield from columns(["point", "statistic", "value", "dogs"], _WIDTHS, 2)
    for one in rows:
        cells = [one.label, one.estimate.statistic, estimate_words(one.estimate), str(one.estimate.n)]
        yield from columns(cells, _WIDTHS, 2)
        if one.estimate.reason is not None:
            yield from paragraph(reason_words(one.estimate), 6)
        if one.beside is not None and one.beside.value is not None:
            beside = ["", one.beside.statistic, estimate_words(one.beside), str(one.beside.n)]
            yield from columns(beside, _WIDTHS)
