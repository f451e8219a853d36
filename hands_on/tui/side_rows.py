"""Comparisons as rows of a table with a column a dog: what stands where, not how it is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from hands_on.compare.dogs.findings import Held, looked_for
from hands_on.compare.dogs.pairing import OneSided, Pairing
from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide
from hands_on.compare.examined import Examined
from hands_on.wording.asked_beside import sentences as beside_sentences
from hands_on.wording.dogs import (
    SEXES,
    cell_words,
    difference_words,
    finding_words_in,
    not_compared_mark,
    percent,
    remark_sentences,
    same_mark,
    verdict_mark,
)
from hands_on.wording.labels import label_words
from hands_on.wording.order import order_answer, order_sentences
from hands_on.wording.pairing import (
    CAUTIONS,
    pairing_remarks,
    same_end_words,
    shared_words,
    sided_parts,
    sided_words,
)

__all__ = ["Column", "Part", "TableRow", "compared_parts", "mark_words", "pairing_parts"]

NO_CLASS = "No class"


@dataclass(frozen=True)
class Column:
    """The head of a column: who, and what else must be known of them."""

    name: str
    about: tuple[str, ...] = ()


@dataclass(frozen=True)
class TableRow:
    """One row: a label, a cell a column, and what is said of the difference."""

    label: str
    cells: tuple[str, ...] = ()
    mark: str = ""
    bold: bool = False
    """It matters: a real difference."""
    text: str = ""
    """Instead of cells: a sentence over the whole width."""
    indent: int = 0
    """Cells that `text` is set in."""


@dataclass(frozen=True)
class Part:
    """Rows under a title: a region, the findings of a class, the order."""

    id: str
    title: str
    rows: tuple[TableRow, ...]
    aside: str = ""
    """Beside the title: how many differ."""
    empty: str = field(default="nothing")
    """Said where it has no rows."""


def columns_of(compared: SideBySide) -> tuple[Column, ...]:
    """The heads of a comparison's columns."""
    return tuple(column_of(one, name) for one, name in zip(compared.sessions, compared.dogs, strict=True))


def column_of(one: Examined, name: str) -> Column:
    """The head of one session's column."""
    sex = SEXES.get(one.session.dog.sex or "", "sex not known")
    by = f"by {one.evaluator}" if one.evaluator else "evaluator not named"
    return Column(name, (f"{sex}, {_short_age(one.age)}", ", ".join(filter(None, (by, one.day)))))


def _short_age(months: float | None) -> str:
    """`4 y 5 m`, to fit a column."""
    if months is None:
        return "age not known"
    years, rest = divmod(int(months), 12)
    return " ".join([*([f"{years} y"] if years else []), *([f"{rest} m"] if rest or not years else [])])


def compared_parts(compared: SideBySide, *, only_different: bool) -> tuple[Part, ...]:
    """Regions in the order of the walk, proportions, findings by class, the order, remarks."""
    parts, unseen = [], []
    for region, label in compared.regions:
        rows = [row for row in compared.in_region(region) if row.given]
        if rows:
            parts.append(_part(region, label, rows, compared, only_different))
        else:
            unseen.append(label)
    if unseen and not only_different:
        named = (TableRow("", text=f"{', '.join(unseen)}."),)
        parts.append(Part("not-examined", "Not examined in any of them", named))
    parts.append(_part("proportions", "Proportions", compared.proportions, compared, only_different))
    parts += _findings(compared, only_different)
    parts.append(Part("order", "Order by the edition", tuple(_order(compared))))
    remarks = tuple(TableRow("", text=text) for text in remark_sentences(compared))
    if remarks:
        parts.append(Part("remarks", "To bear in mind", remarks))
    return tuple(part for part in parts if part.rows or not only_different)


def _part(
    region: str, label: str, rows: Sequence[ComparedTrait], compared: SideBySide, only_different: bool
) -> Part:
    differ = sum(row.differs for row in rows)
    real = sum(row.real for row in rows)
    shown = [row for row in rows if row.differs] if only_different else rows
    aside = f"{differ} of {len(rows)} differ" + (f", {real} real" if real else "") if differ else ""
    rows_shown = (one for row in shown for one in (_row(row, compared), *_asked(row, compared)))
    return Part(region, label, tuple(rows_shown), aside, "not examined")


def _row(row: ComparedTrait, compared: SideBySide) -> TableRow:
    cells = tuple(cell_words(compared, row, place) for place in range(len(row.answers)))
    return TableRow(label_words(row.named), cells, mark_words(row, len(row.answers) > 2), row.real)


def _asked(row: ComparedTrait, compared: SideBySide) -> Iterator[TableRow]:
    """What is asked for of a measurement, and how each stands to it."""
    for text in beside_sentences(compared, row):
        yield TableRow("", text=text, indent=4)


def mark_words(row: ComparedTrait, many: bool) -> str:
    """What is said of the difference that matters most; of more than two dogs between which."""
    head = row.headline
    if head is None:
        given = any(answer.given for answer in row.answers)
        return "" if given and not row.differs else not_compared_mark(row)
    if not row.differs:
        return same_mark(row)
    size = difference_words(head, row)
    told = ", ".join(filter(None, (size, verdict_mark(head))))
    return f"{head.first + 1} and {head.second + 1}: {told}" if many else told


BAR = 10
"""Signs of a bar that stands for a hundred per cent."""


def _order(compared: SideBySide) -> Iterator[TableRow]:
    """The answer first, then how likely each dog has each place, then what it rests on."""
    order = compared.order
    answer = order_answer(order)
    if answer:
        yield TableRow("", text=answer, bold=True)
        chances = {one.index: one.p_place for one in order.dogs}
        for place in range(len(order.dogs)):
            cells = [
                f"{'#' * round(BAR * chances[n][place])} {percent(chances[n][place])}".strip()
                if n in chances
                else ""
                for n in range(len(compared.sessions))
            ]
            yield TableRow(f"place {place + 1}", tuple(cells))
    yield from (TableRow("", text=text) for text in order_sentences(order, compared.sessions))


def _findings(compared: SideBySide, only_different: bool) -> Iterator[Part]:
    """Faults under the classes of the one edition; without one edition, in one part."""
    found = compared.findings
    rows = (
        (*found.only, *found.by_edition)
        if only_different
        else (*found.shared, *found.only, *found.by_edition)
    )
    by_class: dict[str, list[TableRow]] = {}
    for held in sorted(rows, key=lambda held: -_rank(compared, held)):
        title = _class_of(compared, held) if found.one_edition else ""
        by_class.setdefault(title, []).append(_finding(compared, held))
    if not by_class:
        yield Part(
            "findings", "Findings", (), empty="nobody has any" if not only_different else "all the same"
        )
    for number, (title, held_rows) in enumerate(by_class.items()):
        name = f"Findings: {title}" if title else "Findings (classes differ by edition and are not compared)"
        yield Part("findings" if not number else f"findings-{number}", name, tuple(held_rows))


def _rank(compared: SideBySide, held: Held) -> int:
    return max(compared.sessions[place].ruleset.rank(one.cls) for place, one in held.of)


def _class_of(compared: SideBySide, held: Held) -> str:
    place, finding = max(held.of, key=lambda pair: compared.sessions[pair[0]].ruleset.rank(pair[1].cls))
    known = compared.sessions[place].ruleset.classes.get(finding.cls or "")
    return known.label if known is not None else NO_CLASS


def _finding(compared: SideBySide, held: Held) -> TableRow:
    cells = []
    for place, one in enumerate(compared.sessions):
        own = [finding for at, finding in held.of if at == place]
        if own:
            words = [finding_words_in(one, finding, classed=False) or "yes" for finding in own]
            cells.append("; ".join(words))
        else:
            cells.append("no" if looked_for(one, held) else "not examined")
    count, all_ = len(held.sessions), len(compared.sessions)
    if count == all_:
        mark = "both" if all_ == 2 else "all have it"
    elif count == 1:
        mark = f"only {compared.dogs[held.sessions[0]]}"
    else:
        mark = f"{count} of {all_} have it"
    return TableRow(label_words(held.named), tuple(cells), mark)


# --- sire and dam ------------------------------------------------------------------------------------


def pairing_parts(found: Pairing) -> tuple[Part, ...]:
    """The faults they share, where one mends the other, and so on; the cautions stand first."""
    parts = [
        Part("cautions", "Before anything else", tuple(TableRow("", text=text) for text in CAUTIONS)),
    ]
    if found.remarks:
        parts.append(
            Part("remarks", "To bear in mind", tuple(TableRow("", text=t) for t in pairing_remarks(found)))
        )
    shared = tuple(
        TableRow(
            label_words(one.named),
            shared_words(one, found),
            "adds up" if one.adds_up else "shared",
            one.adds_up,
        )
        for one in found.shared
    )
    parts.append(Part("shared", "Faults they share", shared, empty="none"))
    for title, rows in sided_parts(found):
        parts.append(Part(title, title, tuple(_sided(one, found) for one in rows), empty="none"))
    ends = tuple(
        TableRow(label_words(one.named), same_end_words(one, found), f"both at the {one.end} end")
        for one in found.same_end
    )
    parts.append(Part("ends", "At the same end of what is asked", ends, empty="none"))
    return tuple(parts)


def _sided(one: OneSided, found: Pairing) -> TableRow:
    own, other = sided_words(one, found, named=False)
    cells = (own or "yes", other) if one.parent == "sire" else (other, own or "yes")
    return TableRow(label_words(one.named), cells, f"in the {one.parent}")
