"""A point drawn large: where hand or stick goes, what each answer looks like, what cannot be drawn."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.figure.looks import look_at_point, unseen_at_point
from hands_on.ruleset.base import Sex
from hands_on.ruleset.points import Point
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.show import dotted, plain, wrapped
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.point_figure import PointFigure


class PointFigureScreen(Frame[None]):
    """One departure after the other where not all fit."""

    NAME = "point-figure"
    CSS_PATH = "figure.tcss"
    BINDINGS = keys.bindings("point-figure")

    def __init__(self, ruleset: Ruleset, point: Point, sex: Sex | None) -> None:
        super().__init__()
        self.ruleset, self.point, self.sex = ruleset, point, sex
        self.looks = look_at_point(ruleset, point, sex)
        self.at = 0

    def compose(self) -> ComposeResult:
        """The pictures, and what they lack."""
        yield TitleLine(dotted("Drawn", self.point.label, self.ruleset.edition.title))
        yield PointFigure()
        yield Static("", id="told", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first departure."""
        self._show()

    def on_resize(self) -> None:
        """Fit again."""
        if self.is_mounted:
            self._show()

    def action_other(self, way: int) -> None:
        """The next departure, or the one before."""
        self.at = (self.at + way) % max(1, len(self.looks))
        self._show()

    def _show(self) -> None:
        self.query_one(PointFigure).show(self.ruleset, self.point, self.sex, self.at)
        rows = []
        if len(self.looks) > 1:
            rows.append(f"{self.at + 1} of {len(self.looks)}: n shows the next departure first.")
        unseen = unseen_at_point(self.ruleset, self.point)
        for reason in dict.fromkeys(unseen.values()):
            names = ", ".join(
                self.ruleset.label(name)
                for name, why in unseen.items()
                if why == reason and name != self.point.id
            )
            rows.append(f"Not drawn{': ' if names else ''}{names}. {reason}")
        if not self.looks and not unseen:
            rows.append("Nothing of this point can be drawn.")
        width = max(20, self.size.width - 2)
        told = [text for row in rows for text in wrapped(row, width)]
        self.query_one("#told", Static).update(plain("\n".join(told)))
