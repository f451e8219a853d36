"""How well evaluators agree on the same dogs: point by point, who leans which way, the order of the dogs."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.compare.agreement.by_point import Agreement, PointAgreement
from hands_on.compare.agreement.reference import own_repeats
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.parts.one_dog import compare_on_one_dog
from hands_on.tui.show import dotted, plain
from hands_on.tui.side_rows import Column, Part, TableRow
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording import agreement as agreed
from hands_on.wording.agreement_grid import repeat_sentences

COLUMNS = (Column("Statistic"), Column("Value [95 % interval]"), Column("Answers"))


class AgreeScreen(Frame[None]):
    """What is too little to go by is said first."""

    NAME = "agree"
    CSS_PATH = "agree.tcss"
    BINDINGS = keys.bindings("agree")

    def __init__(self, found: Agreement) -> None:
        super().__init__()
        self.found = found
        self.only_different, self.worst_first = True, False

    def compose(self) -> ComposeResult:
        """Who, which dogs, the parts."""
        board = self.found.board
        yield TitleLine(dotted("Agreement", f"{len(board.evaluators)} evaluators", f"{len(board.dogs)} dogs"))
        yield Static("", id="about", markup=False)
        yield SideTable(COLUMNS, shares=(5, 4, 5), mark=7)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Everything."""
        board = self.found.board
        about = [f"Evaluators: {', '.join(board.evaluators)}", f"Dogs: {', '.join(board.dogs)}"]
        self.query_one("#about", Static).update(plain("\n".join(about)))
        self.query_one(SideTable).query_one("#rows").focus()
        self._show()

    # --- keys

    def action_part(self, way: int) -> None:
        """The next part, or the one before."""
        self.query_one(SideTable).step(way)

    def action_differing(self) -> None:
        """Only points with different answers, or all."""
        self.only_different = not self.only_different
        self._show()

    def action_sort(self) -> None:
        """The worst first, or in the order of the walk."""
        self.worst_first = not self.worst_first
        self._show()

    def action_compare(self) -> None:
        """The evaluators side by side on one dog."""
        compare_on_one_dog(self, self.found.board, self.query_one("#about", Static))

    # --- showing

    def _show(self) -> None:
        found = self.found
        parts = []
        if found.remarks:
            parts.append(_texts("remarks", "To bear in mind", tuple(map(agreed.remark_words, found.remarks))))
        worst = tuple(agreed.worst_sentences(found))
        none = "no pair of answers differs by more than hand error"
        parts.append(_texts("worst", "Disagreed on most", worst, none))
        parts += self._points()
        if found.order is not None:
            parts.append(_texts("order", "Order of the dogs", tuple(agreed.order_sentences(found.order))))
        spread = tuple(agreed.precision_sentences(found.points))
        if spread:
            parts.append(_texts("spread", "How far readings of one dog scatter", spread))
        leans = tuple(agreed.lean_sentences(found.lean))
        nobody = "nobody by more than so few dogs scatter"
        parts.append(_texts("leans", "Who leans which way", leans, nobody))
        own = tuple(repeat_sentences(own_repeats(found.board, found.points)))
        if own:
            parts.append(_texts("own", "Each hand against itself, on dogs gone over twice", own))
        strict = tuple(agreed.strict_sentences(found.strictness))
        parts.append(_texts("strict", "Over all graded points", strict, "nothing was graded"))
        parts.append(_texts("explained", "What the figures mean", (agreed.EXPLAINED,)))
        self.query_one(SideTable).show(parts)

    def _points(self) -> list[Part]:
        found = self.found
        rows = found.listed(only_different=self.only_different, worst_first=self.worst_first)
        alike = sum(one.unequal == 0 for one in found.points)
        aside = f"{alike} more with every answer the same (d)" if self.only_different and alike else ""
        notes = _Notes()
        if self.worst_first:
            parts = [Part("points", "Point by point, the worst first", _rows(rows, notes), aside)]
        else:
            regions: dict[str, list[PointAgreement]] = {}
            for one in rows:
                regions.setdefault(one.region, []).append(one)
            parts = [
                Part(name, self._label(name), _rows(inside, notes), aside if not n else "")
                for n, (name, inside) in enumerate(regions.items())
            ]
        if not rows:
            return [Part("points", "Point by point", (), aside, "no answers to compare that differ")]
        told = tuple(f"({letter}) {reason}" for reason, letter in notes.letters.items())
        return [*parts, _texts("notes", "Notes on the values", told)] if told else parts

    def _label(self, region: str) -> str:
        for one in self.found.board.cells.values():
            for known in one.ruleset.regions:
                if known.id == region:
                    return known.label
        return region


class _Notes:
    """Reasons that many values share, each by a letter."""

    def __init__(self) -> None:
        self.letters: dict[str, str] = {}

    def mark(self, reason: str) -> str:
        """The sign behind a value."""
        if not reason:
            return ""
        letter = self.letters.setdefault(reason, chr(ord("a") + len(self.letters) % 26))
        return f" ({letter})"


def _rows(points: list[PointAgreement], notes: _Notes) -> tuple[TableRow, ...]:
    rows = []
    for one in points:
        estimate = one.estimate
        dogs = f"{estimate.n} dog{'' if estimate.n == 1 else 's'}"
        value = agreed.estimate_words(estimate) + notes.mark(agreed.reason_words(estimate))
        rows.append(
            TableRow(one.label, (estimate.statistic, value, agreed.apart_words(one)), dogs, one.apart > 0)
        )
        if one.beside is not None and one.beside.value is not None:
            rows.append(TableRow("", (one.beside.statistic, agreed.estimate_words(one.beside), ""), ""))
    return tuple(rows)


def _texts(name: str, title: str, texts: tuple[str, ...], empty: str = "none") -> Part:
    return Part(name, title, tuple(TableRow("", text=text) for text in texts), empty=empty)
