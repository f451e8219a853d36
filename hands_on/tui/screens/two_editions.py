"""Two editions rule by rule: what differs, part by part."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.compare.editions.rule_pair import Comparison
from hands_on.exam.dialogue import Line
from hands_on.tui import keys
from hands_on.tui.edition_parts import columns_of, edition_parts
from hands_on.tui.frame import Frame
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import SideTable

WIDE = 110
"""Columns of the window from which the editions stand side by side."""


class TwoEditionsScreen(Frame[None]):
    """A column an edition; in a narrow window both are named under each rule."""

    NAME = "two-editions"
    CSS_PATH = "two_editions.tcss"
    BINDINGS = keys.bindings("two-editions")

    def __init__(self, found: Comparison) -> None:
        super().__init__()
        self.found = found
        self.wide: bool | None = None

    def compose(self) -> ComposeResult:
        """The table under what part of it is seen."""
        yield TitleLine(f"{self.found.a.edition.title} against {self.found.b.edition.title}")
        yield Static("", id="state", markup=False)
        yield SideTable(columns_of(self.found), shares=(1, 1))
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Arrow keys scroll the rows."""
        rows = self.query_one(SideTable).query_one("#rows")
        rows.focus()
        self.watch(rows, "scroll_y", self._say_where, init=False)

    def on_resize(self) -> None:
        """Side by side, or one under the other."""
        wide = self.size.width >= WIDE
        if wide != self.wide:
            self.wide = wide
            self.query_one(SideTable).show(edition_parts(self.found, wide=wide))
        self._say_where()

    def _say_where(self) -> None:
        part = self.query_one(SideTable).part_on_top
        alike = next((one.same for one in self.found.sections if one.key == part.id), 0)
        told = dotted(part.title, part.aside, f"{alike} alike" if alike else "")
        self.query_one("#state", Static).update(plain(told))

    # --- keys

    def action_part(self, way: int) -> None:
        """The next part, or the one before."""
        self.query_one(SideTable).step(way)
        self._say_where()

    def action_jump(self) -> None:
        """The parts by number."""
        parts = self.query_one(SideTable).parts
        lines = [Line(str(n), part.title, aside=part.aside) for n, part in enumerate(parts, 1)]
        self.app.push_screen(NumberedScreen("Jump to", "", lines), self._jumped)

    def _jumped(self, key: str | None) -> None:
        if key is not None:
            self.query_one(SideTable).go_to(int(key) - 1)
            self._say_where()
