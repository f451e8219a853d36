"""What every evaluator said of every dog, a point at a time; the figures come after."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.compare.agreement.by_point import Agreement, PointAgreement
from hands_on.compare.agreement.reference import against_reference
from hands_on.exam.dialogue import Line
from hands_on.tui import keys
from hands_on.tui.asks import AgreementFigures
from hands_on.tui.frame import Frame
from hands_on.tui.parts.one_dog import compare_on_one_dog
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.reading import Paragraph, ReadingScreen
from hands_on.tui.show import dotted, fitted, plain
from hands_on.tui.side_rows import Column, Part, TableRow
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording import agreement as agreed
from hands_on.wording.agreement_grid import grid_of, initials, reference_sentences, standing_words

LABEL = 10
"""Cells for a dog's name."""

LOW = 30
"""Lines under which what must be borne in mind is shortened."""

LEAST = 9
"""Cells of an evaluator's column: `as asked*`."""


class GridScreen(Frame[None]):
    """A row a dog, a column an evaluator; a tally under each dog."""

    NAME = "agree-grid"
    CSS_PATH = "agree.tcss"
    BINDINGS = keys.bindings("agree-grid")

    def __init__(self, found: Agreement) -> None:
        super().__init__()
        self.found = found
        self.only_different, self.worst_first = True, False
        self.reference: int | None = None
        self.points = self._points()
        self.at = 0

    def compose(self) -> ComposeResult:
        """Which point, the grid."""
        yield TitleLine("")
        yield Static("", id="about", markup=False)
        yield SideTable(self._columns(), about=0, mark=0, label=LABEL, least=LEAST, gap=1)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first point on which they differ."""
        self.query_one("#rows").focus()
        self.show()

    def on_resize(self) -> None:
        """Names in full where the columns have room for them."""
        if self.is_mounted:
            self.query_one(SideTable).columns = self._columns()
            self.show()

    @property
    def point(self) -> PointAgreement | None:
        """The point that shows; None where there is none."""
        return self.points[self.at] if self.points else None

    def _columns(self) -> tuple[Column, ...]:
        names = self.found.board.evaluators
        room = (self.size.width - LABEL) // max(1, len(names)) - 3
        fits = all(len(name) <= room for name in names)
        return tuple(map(Column, names if fits else initials(names)))

    def _points(self) -> list[PointAgreement]:
        return self.found.listed(only_different=self.only_different, worst_first=self.worst_first)

    # --- keys

    def action_point(self, way: int) -> None:
        """Another point."""
        self.at = max(0, min(self.at + way, len(self.points) - 1))
        self.show()

    def action_differing(self) -> None:
        """Only points with different answers, or all."""
        self.only_different = not self.only_different
        self._again()

    def action_sort(self) -> None:
        """The worst first, or in the order of the walk."""
        self.worst_first = not self.worst_first
        self._again(first=True)

    def _again(self, *, first: bool = False) -> None:
        old = self.point
        self.points = self._points()
        self.at = self.points.index(old) if old in self.points and not first else 0
        self.show()

    def action_jump(self) -> None:
        """The points by number."""
        lines = [
            Line(str(n), one.label, aside=agreed.apart_words(one)) for n, one in enumerate(self.points, 1)
        ]
        if lines:
            self.app.push_screen(NumberedScreen("Jump to", "", lines), self._jumped)

    def _jumped(self, key: str | None) -> None:
        if key is not None:
            self.at = int(key) - 1
            self.show()

    def action_columns(self, way: int) -> None:
        """Other evaluators."""
        self.query_one(SideTable).move(way)

    def action_figures(self) -> None:
        """The statistics."""
        self.program.go(AgreementFigures(self.found))

    def action_reference(self) -> None:
        """Whom the others are held against."""
        names = self.found.board.evaluators
        lines = [Line(str(n), name) for n, name in enumerate(names, 1)]
        lines.append(Line(str(len(names) + 1), "nobody"))
        ask = "Against whom are the others held? A reference may be wrong like anybody else."
        self.app.push_screen(NumberedScreen("Reference", ask, lines), self._refer)

    def _refer(self, key: str | None) -> None:
        if key is not None:
            place = int(key) - 1
            self.reference = place if place < len(self.found.board.evaluators) else None
            self.show()

    def action_standing(self) -> None:
        """Who has examined which dog."""
        board = self.found.board
        told = [agreed.remark_words(remark) for remark in self.found.remarks]
        for dog, name in enumerate(board.dogs):
            states = [
                f"{who} {standing_words(board.standing(dog, column))}"
                for column, who in enumerate(board.evaluators)
            ]
            told.append(f"{name}: {', '.join(states)}")
        self.app.push_screen(ReadingScreen("Who has examined which dog", [Paragraph(row) for row in told]))

    def action_compare(self) -> None:
        """The evaluators side by side on one dog."""
        compare_on_one_dog(self, self.found.board, self.query_one("#about", Static))

    # --- showing

    def _remarks(self) -> list[str]:
        """What must be borne in mind, what is missing first; in a low window on two lines."""
        ranked = sorted(self.found.remarks, key=lambda one: one.kind not in ("missing", "not-signed"))
        told = [agreed.remark_words(remark) for remark in ranked]
        if self.size.height >= LOW or not told:
            return told
        short = [agreed.remark_in_short(remark) for remark in ranked]
        return [fitted(" ".join([*short, "w tells all."]), max(20, self.size.width - 2), 2)]

    def show(self) -> None:
        """The point as it is now."""
        board, one = self.found.board, self.point
        dogs = f"{len(board.dogs)} dog{'' if len(board.dogs) == 1 else 's'}"
        who = dotted("Agreement", f"{len(board.evaluators)} evaluators", dogs)
        order = "worst first" if self.worst_first else "in the order of the walk"
        self.query_one(TitleLine).say(
            dotted(who, f"{self.at + 1} of {len(self.points)}, {order}") if one else who
        )
        about = self._remarks()
        table = self.query_one(SideTable)
        if one is None:
            told = (
                "Every answer is the same: d shows all points."
                if self.found.points
                else "No answers to compare."
            )
            self.query_one("#about", Static).update(plain("\n".join([*about, told])))
            table.show([Part("points", "Answers", ())])
            return
        self.query_one("#about", Static).update(plain("\n".join(about)))
        grid = grid_of(board, one, self.reference)
        rows = []
        for row in grid.rows:
            rows.append(TableRow(row.dog, row.cells))
            if row.tally:
                rows.append(TableRow("", text=row.tally, indent=LABEL + 2))
        if len(grid.rows) > 1 and grid.tally:
            rows.append(TableRow("", text=f"All dogs: {grid.tally}", bold=True))
        notes = [f"Asked: {grid.asked}"] if grid.asked else []
        notes += ["; ".join(grid.legend)] if grid.legend else []
        shown = initials(board.evaluators)
        if table.columns and table.columns[0].name == shown[0] != board.evaluators[0]:
            notes.append(
                ", ".join(f"{short} {name}" for short, name in zip(shown, board.evaluators, strict=True))
            )
        figure = f"{one.estimate.statistic} {agreed.estimate_words(one.estimate)}"
        notes.append(dotted(agreed.apart_words(one), figure, "f: all figures"))
        parts = [Part("grid", one.label, tuple(rows))]
        parts.append(Part("notes", "To read it", tuple(TableRow("", text=text) for text in notes)))
        if self.reference is not None:
            found = against_reference(board, self.found.points, self.reference)
            told_of = reference_sentences(found, board.evaluators[self.reference])
            parts.append(Part("reference", "Over all points", tuple(TableRow("", text=t) for t in told_of)))
        table.show(parts)
        table.go_to(0)
