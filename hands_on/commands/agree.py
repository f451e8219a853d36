"""`hands-on agree FILE ...`: how well several evaluators agree on the same dogs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, paragraphs, section
from hands_on.commands.given_sessions import held
from hands_on.commands.shared import CommandError, print_json

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.agreement.by_point import Agreement, PointAgreement

_WIDTHS = [34, 20, 30, 10]


def run(files: Sequence[str], *, as_json: bool, context: Context) -> int:
    """Print the agreement of the sessions in files, folders, or of a seminar round.

    Raises CommandError for what cannot be read, and without any session.
    """
    from hands_on.compare.agreement.by_point import agreement

    sessions = held(context, files)
    if not sessions:
        raise CommandError("there is no session in what was named.")
    found = agreement(sessions)
    if as_json:
        from hands_on.wording.documents.agreement import agreement_document

        print_json(agreement_document(found))
        return 0
    for line in lines(found):
        print(line)
    return 0


def lines(found: Agreement) -> Iterator[str]:
    """The agreement as text, 100 columns wide."""
    from hands_on.wording import agreement as agreed

    yield from paragraph(f"Evaluators: {', '.join(found.board.evaluators)}", 0)
    yield from paragraph(f"Dogs: {', '.join(found.board.dogs)}", 0)
    for remark in found.remarks:
        yield from paragraph(f"Note: {agreed.remark_words(remark)}", 0)
    none_apart = "no pair of answers differs by more than hand error"
    yield from section("Disagreed on most", paragraphs(agreed.worst_sentences(found)), none_apart)
    varied = [one for one in found.points if one.unequal > 0]
    yield from section("Point by point", _points(varied), "no answers to compare that differ")
    alike = len(found.points) - len(varied)
    yield ""
    yield from paragraph(f"Every answer the same at {alike} further points.", 0)
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
