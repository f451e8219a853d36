"""Outlines to scale, large: two dogs over each other, or one over what the edition asks."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.evaluate.outlines import asked_outline, dog_outline
from hands_on.tui import keys
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.frame import Frame
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.outline import Drawn, OutlinePane
from hands_on.wording.rules import brought_words

PICTURE_ONLY = "A picture of the measured proportions, not of the dog: read the measurements."


class OutlineScreen(Frame[None]):
    """Two at a time; a key shows the next two."""

    NAME = "outline"
    CSS_PATH = "outline.tcss"
    BINDINGS = keys.bindings("outline")

    def __init__(self, title: str, drawn: Sequence[Drawn], nothing: str, told: Sequence[str] = ()) -> None:
        super().__init__()
        self.outline_title, self.nothing, self.told = title, nothing, tuple(told)
        self.drawn = tuple(one for one in drawn if one.outline.points)
        self.missing = tuple(one.label for one in drawn if not one.outline.points)
        self.pairs: list[tuple[Drawn, ...]] = [*combinations(self.drawn, 2)] or [self.drawn]
        self.at = 0

    def compose(self) -> ComposeResult:
        """The drawing, and what is said of it."""
        yield TitleLine(self.outline_title)
        yield OutlinePane()
        yield Static("", id="told", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first pair."""
        self._show()

    def action_other(self) -> None:
        """The next pair."""
        self.at = (self.at + 1) % len(self.pairs)
        self._show()

    def _show(self) -> None:
        self.query_one(OutlinePane).show(self.pairs[self.at], self.nothing)
        rows = [*self.told]
        rows += [f"{name}: not drawn, neither height nor body length was taken." for name in self.missing]
        if len(self.pairs) > 1:
            rows.append(f"Pair {self.at + 1} of {len(self.pairs)}: n shows the next.")
        if self.drawn:
            rows.append(PICTURE_ONLY)
        self.query_one("#told", Static).update(plain("\n".join(rows)))


def outline_of_sheet(sheet: CurrentExamination) -> OutlineScreen:
    """The dog on the table over what its edition asks."""
    asked = asked_outline(sheet.ruleset, sheet.evaluation)
    name = sheet.session.dog.call_name or "the dog"
    own = Drawn(name, dog_outline(sheet.evaluation))
    drawn = [own, Drawn("as the edition asks", asked.outline)] if asked.held else [own]
    if not asked.held:
        told = ["No limit of the edition that shows in the outline could be held against what was measured."]
    elif asked.changed:
        told = [f"Departs: {brought_words(one)}" for one in asked.changed]
    else:
        told = [f"As asked in all {asked.held} limits that show in the outline: both lie on each other."]
    nothing = "Take the height or the body length first: they give the scale."
    return OutlineScreen(f"Outline · {name} · {sheet.ruleset.edition.title}", drawn, nothing, told)
