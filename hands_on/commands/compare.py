"""`hands-on compare FILE FILE ...`: two to six sessions side by side, or two as sire and dam."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, percent, section, shared_widths
from hands_on.commands.held import held
from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import one_line

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.differ import Difference
    from hands_on.compare.findings import Held
    from hands_on.compare.order import Order
    from hands_on.compare.pairing import OneSided, Pairing
    from hands_on.compare.side_by_side import Row, SideBySide

_MARKS = {
    "real": "real",
    "within-hand-error": "within hand error",
    "explained-by-growth": "growth",
    "too-young": "too young",
}


def run(files: Sequence[str], *, pairing: bool, plain: bool, as_json: bool, context: Context) -> int:
    """Print the comparison. Raises CommandError for what cannot be read or compared.

    `plain` asks for text where a screen would open; here there is only text.
    """
    from hands_on.compare.side_by_side import TooFew, side_by_side

    sessions = held(context, files)
    if pairing:
        from hands_on.compare.pairing import pairing as pair

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
        print_json(compared.as_json())
        return 0
    _print(lines(compared))
    return 0


def _print(rows: Iterator[str]) -> None:
    for row in rows:
        print(row)


# --- side by side ------------------------------------------------------------------------------------


def lines(compared: SideBySide) -> Iterator[str]:
    """The comparison as text, 100 columns wide."""
    for one, name in zip(compared.sessions, compared.dogs, strict=True):
        sex = {"male": "dog", "female": "bitch"}.get(one.session.dog.sex or "", "sex not known")
        by = f"examined by {one.evaluator}" if one.evaluator else "evaluator not named"
        parts = [sex, one.age_words, by, one.day, one.ruleset.edition.title]
        yield from paragraph(f"{name}: {', '.join(filter(None, parts))}", 0)
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
    yield from section("Findings that all have", _findings(compared, compared.findings.shared), "none")
    yield from section("Findings that some have", _findings(compared, compared.findings.only), "none")
    yield from section("By one edition's limits", _findings(compared, compared.findings.by_edition))
    yield from section("Order by the edition's classes", _order(compared.order))


def _alike(row: Row) -> bool:
    return row.kind != "measure" and not row.differs and all(answer.given for answer in row.answers)


def _cells(row: Row) -> list[str]:
    said = []
    for answer in row.answers:
        if answer.given:
            said.append(answer.words)
        elif answer.state == "skipped":
            said.append("(skipped)")
        else:
            said.append("-")
    return [row.label, *said, _mark(row)]


def _mark(row: Row) -> str:
    head = row.headline
    if head is None:
        return ""
    mark = _MARKS.get(head.verdict or "", "") if row.differs else "the same"
    if head.difference is not None and row.kind in ("measure", "proportion"):
        mark += f" ({_size(head, row)})"
    return mark


def _size(head: Difference, row: Row) -> str:
    from hands_on.measure.units import format_value

    size = abs(head.difference or 0.0)
    digits = 3 if row.unit == "share" else 1
    return format_value(size, row.unit, digits)


def _findings(compared: SideBySide, rows: Sequence[Held]) -> Iterator[str]:
    for row in rows:
        said = []
        for place, finding in row.of:
            ruleset = compared.sessions[place].ruleset
            known = ruleset.classes.get(finding.cls or "")
            parts: list[str] = [finding.degree or "", finding.side or ""]
            parts += ["unsure"] if finding.status == "unsure" else []
            parts += ["too young to judge"] if finding.too_young else []
            if compared.findings.one_edition and finding.counts:
                parts.append(known.label if known is not None else finding.cls or "")
            more = ", ".join(filter(None, parts))
            said.append(f"{compared.dogs[place]} ({more})" if more else compared.dogs[place])
        yield from paragraph(f"{row.label}: {'; '.join(said)}")


def _order(order: Order) -> Iterator[str]:
    from hands_on.compare.order import ASSUMED, SURE

    if order.reason:
        yield from paragraph(f"No order: {order.reason}.")
        return
    for one in order.dogs:
        shared = " (shared)" if one.tied else ""
        counts = ", ".join(f"{label} {n}" for label, n in one.counts)
        unsure = f", unsure {one.unsure}" if one.unsure else ""
        places = ", ".join(f"{n}. {percent(p)}" for n, p in enumerate(one.p_place, 1))
        yield from paragraph(f"{one.place}.{shared} {one.dog}: {counts}{unsure}; places: {places}")
    for one, after in zip(order.dogs, order.dogs[1:], strict=False):
        if one.tied and after.tied and one.place == after.place:
            yield from paragraph(f"{one.dog} and {after.dog} tie: the same number in every class and degree.")
        elif one.p_before_next is not None and one.p_before_next < SURE:
            often = percent(one.p_before_next)
            yield from paragraph(
                f"{one.dog} before {after.dog} is not settled: it holds {often} of the time."
            )
    if order.p_order is not None:
        sure = "holds" if order.settled else "is uncertain: it holds"
        yield from paragraph(
            f"This order {sure} {percent(order.p_order)} of the time when every answer varies within hand "
            f"error, first place {percent(order.p_first or 0.0)}; "
            f"were nothing overlooked at points as asked, {percent(order.p_none_overlooked or 0.0)}."
        )
    for answer in order.hangs_on[:6]:
        held_, otherwise, changes = map(percent, (answer.p_if_held, answer.p_otherwise, answer.p_changes))
        yield from paragraph(
            f"It hangs on {answer.dog}, {answer.label}: {held_} if that stands, {otherwise} if it does not "
            f"(which happens {changes} of the time)."
        )
    for remark in order.remarks:
        yield from paragraph(f"Note: {remark}")
    yield from paragraph(f"What this rests on ({order.draws} draws, always the same): {' '.join(ASSUMED)}")


# --- sire and dam ------------------------------------------------------------------------------------


def pairing_lines(found: Pairing) -> Iterator[str]:
    """The pairing as text."""
    yield from paragraph(
        f"Sire {found.sire.dog} ({found.sire.age_words}, {found.sire.ruleset.edition.title})", 0
    )
    yield from paragraph(f"Dam {found.dam.dog} ({found.dam.age_words}, {found.dam.ruleset.edition.title})", 0)
    for remark in found.remarks:
        yield from paragraph(f"Note: {remark}", 0)
    yield from section("Faults they share", _shared(found), "none")
    yield from section("One mends the other", _sided(found.mended), "none")
    yield from section("Opposite extremes", _sided(found.opposite))
    yield from section("Not known of the other", _sided(found.open))
    ends = (
        line
        for one in found.same_end
        for line in paragraph(
            f"{one.label}: both at the {one.end} end of what is asked: sire {one.sire}; dam {one.dam}"
        )
    )
    yield from section("Same end of what is asked", ends)
    yield ""
    for caution in found.cautions:
        yield from paragraph(caution, 0)


def _shared(found: Pairing) -> Iterator[str]:
    for one in found.shared:
        adds = "; extremes that add up" if one.adds_up else ""
        yield from paragraph(f"{one.label}: sire {one.sire}; dam {one.dam}{adds}")


def _sided(rows: Sequence[OneSided]) -> Iterator[str]:
    for one in rows:
        other = "dam" if one.parent == "sire" else "sire"
        yield from paragraph(f"{one.words} in the {one.parent}; {other}: {one.other}")
