"""`hands-on compare FILE FILE ...`: two to six sessions side by side, or two as sire and dam."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, paragraphs, section, shared_widths
from hands_on.commands.given_sessions import held
from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import one_line

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.dogs.findings import Held
    from hands_on.compare.dogs.pairing import Pairing
    from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide


def run(files: Sequence[str], *, pairing: bool, plain: bool, as_json: bool, context: Context) -> int:
    """Print the comparison. Raises CommandError for what cannot be read or compared.

    `plain` asks for text where a screen would open; here there is only text.
    """
    from hands_on.compare.dogs.side_by_side import TooFew, side_by_side

    sessions = held(context, files)
    if pairing:
        from hands_on.compare.dogs.pairing import pairing as pair

        if len(sessions) != 2:
            raise CommandError(f"--pairing compares two sessions, sire and dam; here are {len(sessions)}.")
        found = pair(sessions[0], sessions[1])
        if as_json:
            print_json(found.as_json())
            return 0
        _print(pairing_lines(found))
        return 0
    try:
        compared = side_by_side(sessions)
    except TooFew as error:
        raise CommandError(f"{error}.") from error
    if as_json:
        from hands_on.wording.documents.dogs import comparison_document

        print_json(comparison_document(compared))
        return 0
    _print(lines(compared))
    return 0


def _print(rows: Iterator[str]) -> None:
    for row in rows:
        print(row)


# --- side by side ------------------------------------------------------------------------------------


def lines(compared: SideBySide) -> Iterator[str]:
    """The comparison as text, 100 columns wide."""
    from hands_on.wording.dogs import finding_sentences, who
    from hands_on.wording.order import order_sentences

    for one, name in zip(compared.sessions, compared.dogs, strict=True):
        yield from paragraph(f"{name}: {', '.join(who(one))}", 0)
    for remark in compared.remarks:
        yield from paragraph(f"Note: {remark}", 0)
    widths = shared_widths(24, len(compared.dogs), 22)
    yield ""
    yield from columns(["", *compared.dogs, ""], widths)
    for region, label in compared.regions:
        rows = [row for row in compared.in_region(region) if row.given]
        shown = [row for row in rows if row.differs or row.kind == "measure"]
        if shown:
            yield ""
            yield one_line(label)
        for row in shown:
            yield from columns(_cells(row), widths, 2)
    if compared.proportions:
        yield ""
        yield "Proportions"
        for row in compared.proportions:
            yield from columns(_cells(row), widths, 2)
    alike = [row for row in compared.rows if _alike(row)]
    yield ""
    yield from paragraph(f"The same in all: {len(alike)} points not shown here.", 0)
    found = compared.findings

    def told(rows: Sequence[Held]) -> Iterator[str]:
        return paragraphs(finding_sentences(compared.sessions, compared.dogs, found, rows))

    yield from section("Findings that all have", told(found.shared), "none")
    yield from section("Findings that some have", told(found.only), "none")
    yield from section("By one edition's limits", told(found.by_edition))
    yield from section("Order by the edition's classes", paragraphs(order_sentences(compared.order)))


def _alike(row: ComparedTrait) -> bool:
    return row.kind != "measure" and not row.differs and all(answer.given for answer in row.answers)


def _cells(row: ComparedTrait) -> list[str]:
    from hands_on.wording.dogs import answer_words, difference_mark

    return [row.label, *(answer_words(row, n) for n in range(len(row.answers))), difference_mark(row)]


# --- sire and dam ------------------------------------------------------------------------------------


def pairing_lines(found: Pairing) -> Iterator[str]:
    """The pairing as text."""
    from hands_on.wording.dogs import sided_parts, sided_words

    yield from paragraph(
        f"Sire {found.sire.dog} ({found.sire.age_words}, {found.sire.ruleset.edition.title})", 0
    )
    yield from paragraph(f"Dam {found.dam.dog} ({found.dam.age_words}, {found.dam.ruleset.edition.title})", 0)
    for remark in found.remarks:
        yield from paragraph(f"Note: {remark}", 0)
    yield from section("Faults they share", _shared(found), "none")
    for title, rows in sided_parts(found):
        yield from section(title, paragraphs(map(sided_words, rows)), "none" if rows is found.mended else "")
    ends = (
        f"{one.label}: both at the {one.end} end of what is asked: sire {one.sire}; dam {one.dam}"
        for one in found.same_end
    )
    yield from section("Same end of what is asked", paragraphs(ends))
    yield ""
    for caution in found.cautions:
        yield from paragraph(caution, 0)


def _shared(found: Pairing) -> Iterator[str]:
    for one in found.shared:
        adds = "; extremes that add up" if one.adds_up else ""
        yield from paragraph(f"{one.label}: sire {one.sire}; dam {one.dam}{adds}")
