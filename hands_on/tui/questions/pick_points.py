"""Marking points of a walk: which of them a round asks."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from hands_on.exam.dialogue import Line
from hands_on.ruleset.points import Point, Region
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui import keys
from hands_on.tui.frame import Unasked
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.show import line, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine


@dataclass(frozen=True)
class _Row:
    region: Region
    point: Point | None
    """None: the region itself."""


class PickPoints(Unasked[tuple[str, ...]]):
    """Dismissed with the ids of the points marked, in the order of the walk, or None."""

    NAME = "pick-points"
    CSS_PATH = "pick_sessions.tcss"
    BINDINGS = keys.bindings("pick-points")
    AUTO_FOCUS = "OptionList"

    def __init__(self, ruleset: Ruleset, marked: Collection[str]) -> None:
        super().__init__()
        self.ruleset = ruleset
        self.marked = set(marked)
        self.start = self.typed()
        self.rows: list[_Row] = []
        for region in ruleset.regions:
            inside = [point for point in ruleset.walk_points if point.region == region.id]
            if inside:
                self.rows += [_Row(region, None), *(_Row(region, point) for point in inside)]

    def compose(self) -> ComposeResult:
        """The list, how many are marked."""
        yield TitleLine(f"Points of the round · {self.ruleset.edition.title}")
        yield Static("Only what is marked is examined; the rest is skipped in everybody's session.", id="ask")
        yield OptionList(*[Option(self._line(row)) for row in self.rows], id="points")
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first region."""
        self.query_one(OptionList).highlighted = 0
        self._tell()

    def _inside(self, row: _Row) -> list[str]:
        if row.point is not None:
            return [row.point.id]
        return [one.point.id for one in self.rows if one.region == row.region and one.point is not None]

    def _line(self, row: _Row) -> Content:
        inside = self._inside(row)
        taken = sum(name in self.marked for name in inside)
        mark = "x" if taken == len(inside) else "-" if taken else " "
        if row.point is None:
            return Content.assemble(
                f"[{mark}] ", line(row.region.label, "bold"), f"  {taken} of {len(inside)}"
            )
        return Content.assemble(f"     [{mark}] ", line(row.point.label))

    def _tell(self) -> None:
        every = sum(row.point is not None for row in self.rows)
        self.query_one("#message", Static).update(plain(f"{len(self.marked)} of {every} points are marked."))

    def typed(self) -> str:
        """What is marked."""
        return " ".join(sorted(self.marked))

    def say_typed(self, text: str) -> None:
        """Tell something under the list."""
        self.query_one("#message", Static).update(plain(text))

    def _again(self) -> None:
        options = self.query_one(OptionList)
        for n, row in enumerate(self.rows):
            options.replace_option_prompt_at_index(n, self._line(row))
        self._tell()

    # --- keys

    def action_mark(self) -> None:
        """The point, or all of the region."""
        at = self.query_one(OptionList).highlighted
        if at is None:
            return
        inside = self._inside(self.rows[at])
        if all(name in self.marked for name in inside):
            self.marked.difference_update(inside)
        else:
            self.marked.update(inside)
        self._again()

    def action_all(self) -> None:
        """All, or none."""
        every = {row.point.id for row in self.rows if row.point is not None}
        self.marked = set() if self.marked >= every else every
        self._again()

    def action_walk(self) -> None:
        """Those of a shorter walk."""
        walks = list(self.ruleset.walks.values())
        lines = [Line(str(n), walk.label) for n, walk in enumerate(walks, 1)]

        def chosen(key: str | None) -> None:
            if key is not None:
                walk = walks[int(key) - 1]
                points = (row.point for row in self.rows)
                self.marked = {point.id for point in points if point is not None and walk.asks(point)}
                self._again()

        if lines:
            self.app.push_screen(NumberedScreen("The points of which walk?", "", lines), chosen)

    def action_region(self, way: int) -> None:
        """The line of the next region, or of the one before."""
        options = self.query_one(OptionList)
        heads = [n for n, row in enumerate(self.rows) if row.point is None]
        at = options.highlighted or 0
        if way > 0:
            options.highlighted = next((n for n in heads if n > at), heads[-1])
        else:
            options.highlighted = next((n for n in reversed(heads) if n < at), 0)

    def on_option_list_option_selected(self) -> None:
        """Enter."""
        self.action_take()

    def action_take(self) -> None:
        """Take what is marked."""
        if not self.marked:
            self.query_one("#message", Static).update("At least one point must be marked: Space.")
            return
        order = [row.point.id for row in self.rows if row.point is not None]
        self.dismiss(tuple(name for name in order if name in self.marked))
