"""Examinations side by side: a column a dog, region by region, with what differs and whether it is real."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from hands_on.compare.dogs.side_by_side import SideBySide
from hands_on.compare.examined import same_dog
from hands_on.exam.dialogue import Line
from hands_on.report.drawn_dogs import really_differ
from hands_on.tui import keys
from hands_on.tui.asks import DogsDrawn, Pairing, Project
from hands_on.tui.frame import Frame
from hands_on.tui.parts.drawn_dogs import drawn_of
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.show import dotted, fitted, plain
from hands_on.tui.side_rows import Column, Part, columns_of, compared_parts
from hands_on.tui.widgets.figure import Drawn, FigurePane
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import LEAST_COLUMN, SideTable
from hands_on.wording.agreement_grid import initials

LIST_WIDTH = 27
"""Cells of a line in the list of regions, as its style has it."""

HUGE = 150
"""Columns from which the drawing has room beside the table."""


class CompareScreen(Frame[None]):
    """Regions at the left and the dogs drawn at the right, where there is room for them."""

    NAME = "compare"
    CSS_PATH = "compare.tcss"
    BINDINGS = keys.bindings("compare")

    def __init__(self, compared: SideBySide, at: str = "") -> None:
        """`at`: the id of the part to begin with."""
        super().__init__()
        self.compared, self._begin = compared, at
        self.only_different = False

    def compose(self) -> ComposeResult:
        """The table between what stands beside it."""
        yield TitleLine(dotted("Side by side", *self.compared.dogs))
        yield Static("", id="state", markup=False)
        with Horizontal(id="body"):
            with VerticalScroll(id="regions", can_focus=False):
                yield Static("", id="list", markup=False)
            yield SideTable(self._columns(), least=12 if self.one_dog else LEAST_COLUMN)
            with Vertical(id="beside"):
                yield FigurePane()
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Show everything."""
        table = self.query_one(SideTable)
        self.set_class(len(self.compared.sessions) == 2, "-pair")
        heavy = really_differ(self.compared).get((0, 1), frozenset())
        self.query_one(FigurePane).show(self.drawn()[:2], heavy=heavy)
        table.query_one("#rows").focus()
        self.watch(table.query_one("#rows"), "scroll_y", self._say_where, init=False)
        self.show()
        if self._begin:
            self.call_after_refresh(self._go, self._begin)

    def on_resize(self) -> None:
        """More is said where there is room."""
        self.set_class(self.size.width >= HUGE, "-huge")
        self.query_one(SideTable).about = 2 if self.size.height >= 30 else 1

    def show(self) -> None:
        """The rows as the filter has them."""
        parts = compared_parts(self.compared, only_different=self.only_different)
        self.query_one(SideTable).show(parts)
        self._say_where()

    def drawn(self) -> list[Drawn]:
        """Each dog."""
        pairs = zip(self.compared.dogs, self.compared.sessions, strict=True)
        return [drawn_of(one, name) for name, one in pairs]

    def _say_where(self) -> None:
        table = self.query_one(SideTable)
        if not table.parts:
            return
        rows = [row for row in (*self.compared.rows, *self.compared.proportions) if row.given]
        differ, real = sum(row.differs for row in rows), sum(row.real for row in rows)
        filtered = "ONLY WHAT DIFFERS" if self.only_different else "d: only what differs"
        aside = self._off_screen(table) or (self._initials() if self.one_dog else "")
        counts = f"{differ} of {len(rows)} differ, {real} real"
        self.query_one("#state", Static).update(
            plain(dotted(table.part_on_top.title, counts, filtered, aside))
        )
        self.query_one("#list", Static).update(_listed(table.parts, table.place))

    @property
    def one_dog(self) -> bool:
        """Several evaluators on one and the same dog?"""
        first, *others = self.compared.sessions
        people = {one.evaluator.casefold() for one in self.compared.sessions}
        return len(people) == len(self.compared.sessions) and all(same_dog(first, one) for one in others)

    def _columns(self) -> tuple[Column, ...]:
        """A column a dog; evaluators on one dog by their initials, so that more of them fit."""
        if not self.one_dog or len(self.compared.sessions) < 3:
            return columns_of(self.compared)
        return tuple(map(Column, initials([one.evaluator for one in self.compared.sessions])))

    def _initials(self) -> str:
        names = [one.evaluator for one in self.compared.sessions]
        if len(names) < 3:
            return ""
        return ", ".join(f"{short} {name}" for short, name in zip(initials(names), names, strict=True))

    def _off_screen(self, table: SideTable) -> str:
        """Whose columns do not show."""
        shown = range(table.first, table.first + table.shown)
        hidden = [f"{n + 1} {one.name}" for n, one in enumerate(table.columns) if n not in shown]
        return f"← → for {', '.join(hidden)}" if hidden else ""

    # --- keys

    def action_region(self, way: int) -> None:
        """The next region, or the one before."""
        self.query_one(SideTable).step(way)
        self._say_where()

    def action_differing(self) -> None:
        """Only what differs, or everything."""
        self.only_different = not self.only_different
        self.show()

    def action_columns(self, way: int) -> None:
        """Other dogs."""
        self.query_one(SideTable).move(way)
        self._say_where()

    def action_jump(self) -> None:
        """The parts by number."""
        parts = self.query_one(SideTable).parts
        lines = [Line(str(n), part.title, aside=part.aside) for n, part in enumerate(parts, 1)]
        self.app.push_screen(NumberedScreen("Jump to", "", lines), self._jumped)

    def _jumped(self, key: str | None) -> None:
        if key is not None:
            self._go(self.query_one(SideTable).parts[int(key) - 1].id)

    def _go(self, part: str) -> None:
        table = self.query_one(SideTable)
        place = next((n for n, one in enumerate(table.parts) if one.id == part), None)
        if place is not None:
            table.go_to(place)
            self._say_where()

    def action_figure(self) -> None:
        """The dogs drawn large."""
        self.program.go(DogsDrawn("Dogs drawn", self.drawn(), really_differ(self.compared)))

    def action_project(self) -> None:
        """For a room."""
        at = self.query_one(SideTable).part_on_top.id
        self.program.go(Project(self.compared, at, self.only_different))

    def action_pair(self) -> None:
        """As sire and dam."""
        if len(self.compared.sessions) == 2:
            self.program.go(Pairing(self.compared.sessions))
        else:
            self.query_one("#state", Static).update("Sire and dam are two: compare just these two for that.")


def _listed(parts: tuple[Part, ...], at: int) -> Content:
    rows = []
    for number, part in enumerate(parts, 1):
        here = number - 1 == at
        told = f"  {part.aside.split(' ')[0]}" if part.aside else ""
        title = fitted(part.title, LIST_WIDTH - 4 - len(told), 1)
        text = f"{'>' if here else ' '}{number:>2} {title}{told}"
        rows.append(plain(text, "bold reverse" if here else ""))
    rows += [Content(""), Content.styled("beside each: how many differ", "dim")]
    return Content("\n").join(rows)
