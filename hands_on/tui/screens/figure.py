"""Drawn dogs, large: one over what its edition asks, two over each other, then and now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.figure.asked import asked_figure
from hands_on.figure.drawn import dog_figure
from hands_on.figure.shapes import ViewName
from hands_on.tui import keys
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.frame import Frame
from hands_on.tui.parts.drawn_dogs import then_drawn
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.figure import Drawn, FigurePane
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.figure import VIEWS, rests_on
from hands_on.wording.rules import brought_words

TURNS: tuple[ViewName, ...] = ("side", "front", "rear")

ROOM = 34
"""Lines from which all is told that a dog's drawing rests on."""


class FigureScreen(Frame[None]):
    """Two at a time; keys turn them, scale them and show the next two."""

    NAME = "figure"
    CSS_PATH = "figure.tcss"
    BINDINGS = keys.bindings("figure")

    def __init__(
        self,
        title: str,
        drawn: Sequence[Drawn],
        told: Sequence[str] = (),
        *,
        heavy: Mapping[tuple[int, int], frozenset[str]] | None = None,
        first_alone: bool = False,
    ) -> None:
        """`first_alone`: what follows lies over the first only, each in its turn."""
        super().__init__()
        self.figure_title, self.told, self.heavy = title, tuple(told), dict(heavy or {})
        self.drawn = tuple(drawn)
        places = range(len(self.drawn))
        pairs = [pair for pair in combinations(places, 2) if pair[0] == 0 or not first_alone]
        self.pairs: list[tuple[int, ...]] = [*pairs] or [tuple(places)]
        self.at = 0
        self.view: ViewName = "side"
        self.one_height = False

    def compose(self) -> ComposeResult:
        """The drawing, and what is said of it."""
        yield TitleLine(self.figure_title)
        yield FigurePane()
        yield Static("", id="told", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first pair."""
        self._show()

    def on_resize(self) -> None:
        """More is told where there is room."""
        if self.is_mounted:
            self._show()

    def action_other(self) -> None:
        """The next pair."""
        self.at = (self.at + 1) % len(self.pairs)
        self._show()

    def action_turn(self) -> None:
        """The next view."""
        self.view = TURNS[(TURNS.index(self.view) + 1) % len(TURNS)]
        self._show()

    def action_scale(self) -> None:
        """To one height, or to scale."""
        self.one_height = not self.one_height
        self._show()

    def _show(self) -> None:
        pair = self.pairs[self.at]
        shown = [self.drawn[place] for place in pair]
        heavy = self.heavy.get((pair[0], pair[1]), frozenset()) if len(pair) > 1 else frozenset()
        self.query_one(TitleLine).say(dotted(self.figure_title, VIEWS[self.view]))
        self.query_one(FigurePane).show(shown, view=self.view, heavy=heavy, one_height=self.one_height)
        rows = list(self.told)
        if self.size.height >= ROOM and shown and shown[0].figure.examined:
            rows += rests_on(shown[0].ruleset, shown[0].figure)
        elif len(rows) > 2:
            rows = [*rows[:2], f"and {len(rows) - 2} more: a higher window tells them."]
        if len(self.pairs) > 1:
            rows.append(f"{self.at + 1} of {len(self.pairs)}: n shows the next over each other.")
        self.query_one("#told", Static).update(plain("\n".join(rows)))


def figure_of_sheet(sheet: CurrentExamination, at: str = "") -> FigureScreen:
    """The dog on the table over what its edition asks; of a re-check also over what it was.

    `at` is a point that is still being taken: what was found there then stays hidden.
    """
    asked = asked_figure(sheet.ruleset, sheet.evaluation)
    name = sheet.session.dog.call_name or "the dog"
    own = Drawn(name, sheet.ruleset, dog_figure(sheet.ruleset, sheet.evaluation))
    drawn = [own, Drawn("as the edition asks", sheet.ruleset, asked.figure)]
    then = then_drawn(sheet, at)
    if then is not None:
        drawn.append(then)
    if asked.changed:
        told = [f"Departs: {brought_words(one)}" for one in asked.changed]
    elif asked.held:
        many = f"all {asked.held} limits that show" if asked.held > 1 else "the one limit that shows"
        told = [f"As asked in {many} in the drawing."]
    else:
        told = ["No limit of the edition that shows in the drawing could be held against what was measured."]
    return FigureScreen(f"Drawn · {name} · {sheet.ruleset.edition.title}", drawn, told, first_alone=True)
