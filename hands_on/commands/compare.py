"""`hands-on compare FILE FILE ...`: two to six sessions side by side, or two as sire and dam."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, paragraphs, section, shared_widths
from hands_on.commands.given_sessions import held
from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import one_line
from hands_on.wording.labels import label_words

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.dogs.findings import Held
    from hands_on.compare.dogs.pairing import Pairing
    from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide


def run(
    files: Sequence[str],
    *,
    pairing: bool,
    plain: bool,
    as_json: bool,
    context: Context,
    seed: int | None = None,
) -> int:
    """Print the comparison. Raises CommandError for what cannot be read or compared.

    `seed` fixes the draws of the order; `plain` asks for text where a screen would open; here there is only
    text.
    """
    from hands_on.compare.dogs.side_by_side import WrongNumber, side_by_side

    sessions = held(context, files)
    if pairing:
        from hands_on.compare.dogs.pairing import pairing as pair

        if len(sessions) != 2:
            raise CommandError(f"--pairing compares two sessions, sire and dam; here are {len(sessions)}.")
        found = pair(sessions[0], sessions[1])
        if as_json:
            from hands_on.wording.documents.dogs import pairing_document

            print_json(pairing_document(found))
            return 0
        _print(pairing_lines(found))
        return 0
    try:
        compared = side_by_side(sessions) if seed is None else side_by_side(sessions, seed=str(seed))
    except WrongNumber as error:
        from hands_on.wording.dogs import wrong_number

        raise CommandError(wrong_number(error)) from error
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
    from hands_on.wording.dogs import finding_sentences, remark_sentences, same_sentence, who
    from hands_on.wording.order import order_answer, order_sentences

    names = _numbered(compared)
    for one, name in zip(compared.sessions, names, strict=True):
        yield from paragraph(f"{name}: {', '.join(who(one))}", 0)
    for remark in remark_sentences(compared):
        yield from paragraph(f"Note: {remark}", 0)
    widths = shared_widths(24, len(compared.dogs), 22)
    yield ""
    yield from columns(["", *names, ""], widths)
    for region, label in compared.regions:
        rows = [row for row in compared.in_region(region) if row.given]
        shown = [row for row in rows if row.differs or row.kind == "measure"]
        if shown:
            yield ""
            yield one_line(label)
        for row in shown:
            yield from columns(_cells(compared, row), widths, 2)
            yield from _asked(compared, row)
    if compared.proportions:
        yield ""
        yield "Proportions"
        for row in compared.proportions:
            yield from columns(_cells(compared, row), widths, 2)
            yield from _asked(compared, row)
    yield ""
    yield from paragraph(same_sentence(compared) or "The same in all: nothing.", 0)
    found = compared.findings

    def told(rows: Sequence[Held]) -> Iterator[str]:
        return paragraphs(finding_sentences(compared.sessions, compared.dogs, found, rows))

    yield from section("Findings that all have", told(found.shared), "none")
    yield from section("Findings that some have", told(found.only), "none")
    yield from section("By one edition's limits", told(found.by_edition))
    answer = order_answer(compared.order)
    told_of_order = order_sentences(compared.order, compared.sessions)
    yield from section(
        "Order by the edition's rule", paragraphs([*([answer] if answer else []), *told_of_order])
    )


def _asked(compared: SideBySide, row: ComparedTrait) -> Iterator[str]:
    from hands_on.wording.asked_beside import sentences

    for text in sentences(compared, row):
        yield from paragraph(text, 4)


def _numbered(compared: SideBySide) -> list[str]:
    """The dogs' names; of more than two with the numbers by which a difference names its pair."""
    many = len(compared.dogs) > 2
    return [f"{n} {name}" if many else name for n, name in enumerate(compared.dogs, 1)]


def _cells(compared: SideBySide, row: ComparedTrait) -> list[str]:
    from hands_on.wording.dogs import cell_words, difference_mark

    mark, head = difference_mark(row), row.headline
    if head is not None and row.differs and len(row.answers) > 2:
        mark = f"{head.first + 1} and {head.second + 1}: {mark}"
    return [label_words(row.named), *(cell_words(compared, row, n) for n in range(len(row.answers))), mark]


# --- sire and dam ------------------------------------------------------------------------------------


def pairing_lines(found: Pairing) -> Iterator[str]:
    """The pairing as text."""
    from hands_on.wording.ages import age_words
    from hands_on.wording.pairing import (
        CAUTIONS,
        pairing_remarks,
        same_end_sentences,
        sided_parts,
        sided_sentence,
    )

    for parent, one in (("Sire", found.sire), ("Dam", found.dam)):
        yield from paragraph(f"{parent} {one.dog} ({age_words(one.age)}, {one.ruleset.edition.title})", 0)
    yield ""
    for caution in CAUTIONS:
        yield from paragraph(caution, 0)
    yield ""
    for remark in pairing_remarks(found):
        yield from paragraph(f"Note: {remark}", 0)
    yield from section("Faults they share", _shared(found), "none")
    for title, rows in sided_parts(found):
        told = paragraphs(sided_sentence(one, found) for one in rows)
        yield from section(title, told, "none" if rows is found.mended else "")
    yield from section("Same end of what is asked", paragraphs(same_end_sentences(found)))


def _shared(found: Pairing) -> Iterator[str]:
    from hands_on.wording.pairing import shared_words

    for one in found.shared:
        sire, dam = shared_words(one, found)
        adds = "; extremes that add up" if one.adds_up else ""
        yield from paragraph(f"{label_words(one.named)}: sire {sire}; dam {dam}{adds}")
