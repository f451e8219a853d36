"""`hands-on agree FILE ...`: how well several evaluators agree on the same dogs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, percent, section
from hands_on.commands.held import held
from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import one_line

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.agreement import Agreement, PointAgreement
    from hands_on.compare.estimate import Estimate
    from hands_on.compare.lean import Lean

_WIDTHS = [34, 20, 30, 10]
_MOST = 10
"""Points named among those the group disagrees on most."""


def run(files: Sequence[str], *, as_json: bool, context: Context) -> int:
    """Print the agreement of the sessions in files, folders, or of a seminar round.

    Raises CommandError for what cannot be read, and without any session.
    """
    from hands_on.compare.agreement import agreement

    sessions = held(context, files)
    if not sessions:
        raise CommandError("there is no session in what was named.")
    found = agreement(sessions)
    if as_json:
        print_json(found.as_json())
        return 0
    for line in lines(found):
        print(line)
    return 0


def lines(found: Agreement) -> Iterator[str]:
    """The agreement as text, 100 columns wide."""
    yield from paragraph(f"Evaluators: {', '.join(found.board.evaluators)}", 0)
    yield from paragraph(f"Dogs: {', '.join(found.board.dogs)}", 0)
    for remark in found.remarks:
        yield from paragraph(f"Note: {remark}", 0)
    yield from section(
        "Disagreed on most", _worst(found), "no pair of answers differs by more than hand error"
    )
    varied = [one for one in found.points if one.unequal > 0]
    yield from section("Point by point", _points(varied), "no answers to compare that differ")
    alike = len(found.points) - len(varied)
    yield ""
    yield from paragraph(f"Every answer the same at {alike} further points.", 0)
    if found.order is not None:
        yield from section("Order of the dogs", _order(found.order))
    yield from section("Who leans which way", _leans(found.lean), "nobody by more than so few dogs scatter")
    yield from section("Over all graded points", _strict(found.strictness))
    yield ""
    yield from paragraph(
        "ICC: how much of the spread of readings is between dogs. Kappa, alpha: agreement beyond chance, "
        "1 full, 0 none. AC1, AC2: the same where nearly all dogs get one answer. In brackets: the 95 % "
        "interval.",
        0,
    )


def _worst(found: Agreement) -> Iterator[str]:
    for one in found.most_apart[:_MOST]:
        if one.level == "nominal" or not one.apart:
            told = f"{percent(one.unequal)} of pairs differ"
        else:
            told = f"{percent(one.apart)} of pairs differ by more than hand error"
        yield from paragraph(f"{one.label}: {told}")


def _points(rows: Sequence[PointAgreement]) -> Iterator[str]:
    yield from columns(["point", "statistic", "value", "dogs"], _WIDTHS, 2)
    for one in rows:
        cells = [one.label, one.estimate.statistic, _value(one.estimate), str(one.estimate.n)]
        yield from columns(cells, _WIDTHS, 2)
        if one.estimate.reason:
            yield from paragraph(one.estimate.reason, 6)
        if one.beside is not None and one.beside.value is not None:
            yield from columns(["", one.beside.statistic, _value(one.beside), str(one.beside.n)], _WIDTHS)


def _value(one: Estimate) -> str:
    if one.value is None:
        return "not defined"
    if one.low is None or one.high is None:
        return f"{one.value:.2f}"
    return f"{one.value:.2f} [{one.low:.2f} to {one.high:.2f}]"


def _order(one: PointAgreement) -> Iterator[str]:
    chance = (
        f"; chance alone gives as much {percent(one.p_chance)} of the time"
        if one.p_chance is not None
        else ""
    )
    yield from paragraph(
        f"{one.estimate.statistic} {_value(one.estimate)} over {one.estimate.n} dogs{chance}"
    )
    if one.estimate.reason:
        yield from paragraph(one.estimate.reason, 6)


def _leans(rows: Sequence[Lean]) -> Iterator[str]:
    from hands_on.measure.units import format_measured

    for one in rows:
        if one.clear and one.u is not None:
            if one.unit == "degree":
                size = f"{abs(one.value):.1f} ± {one.u:.1f} degrees"
            else:
                size = format_measured(abs(one.value), one.u, one.unit)
            way = "above" if one.value > 0 else "below"
            yield from paragraph(f"{one.evaluator}, {one.label}: {size} {way} the others, over {one.n} dogs")


def _strict(rows: Sequence[Lean]) -> Iterator[str]:
    for one in rows:
        u = f" ± {one.u:.2f}" if one.u is not None else ""
        way = "further from as asked" if one.value > 0 else "nearer to as asked"
        told = f"{abs(one.value):.2f}{u} degrees a point {way} than the others"
        clear = "" if one.clear else "; not clear of what so few dogs scatter"
        yield from paragraph(one_line(f"{one.evaluator}: {told}{clear}"))
