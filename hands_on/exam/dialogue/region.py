"""The dialogue at a region's sheet: a number opens a point, 0 says that the rest is as asked."""

from __future__ import annotations

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Line, Prompt, Step
from hands_on.exam.dialogue.numbered import Numbered
from hands_on.exam.region_sheet import RegionSheet, SheetRow

__all__ = ["RegionDialogue"]

NAMED = 4
"""Open points named one by one; of more the first, and how many there are."""


class RegionDialogue(Numbered):
    """The grammar of the single point, one level up.

    0 gives the rest as asked; once that is done it opens what has to be entered by itself, and then goes on.
    Enter leaves a region with open points only when pressed twice.
    """

    def __init__(self, sheet: RegionSheet, message: str = "") -> None:
        super().__init__(Answers())
        self.sheet, self.message = sheet, message

    def lines(self) -> tuple[Line, ...]:
        """The points, and 0."""
        return (*(_line(row) for row in self.sheet.rows), Line("0", self._nought_says()))

    def _nought_says(self) -> str:
        rest, alone = self.sheet.rest, self.sheet.stays_open
        then = f"; then {_named(alone)}" if alone else ""
        if rest:
            points = "1 point" if len(rest) == 1 else f"{len(rest)} points"
            return f"the rest of this region is as asked: {points}{then}"
        return f"enter what is open: {_named(alone)}" if alone else "nothing more, go on"

    def prompt(self) -> Prompt:
        """What to show now."""
        hint = "number opens a point · 0 the rest as asked · Enter go on"
        return Prompt(
            "What departs here?", self.lines(), self.cursor, self.typed, False, "", hint, self.message
        )

    def take(self, key: str) -> Step:
        """Take one key."""
        if key == "backspace" and not self.typed:
            return STAY
        return self.pick(key) or self.navigate(key) or STAY

    def choose(self, key: str) -> Step:
        """A point, or the rest."""
        if key != "0":
            return Step("open", stop=self.sheet.rows[int(key) - 1].stop.index)
        if self.sheet.rest:
            return Step("rest")
        alone = self.sheet.stays_open
        return Step("in turn", stop=alone[0].stop.index) if alone else Step("next")

    def confirm(self) -> Step:
        """Enter alone: on from a region without open points; open ones are left by the second press."""
        left = self.sheet.open
        if not left or self._passing:
            return Step("next")
        self._passing = True
        self.message = (
            f"Nothing is recorded at {_named(left)}: 0 is as asked, a number opens a point. "
            "Enter once more leaves them open."
        )
        return STAY


def _line(row: SheetRow) -> Line:
    return Line(str(row.number), row.stop.point.label, row.state == "answered", "; ".join(row.recorded))


def _named(rows: tuple[SheetRow, ...]) -> str:
    labels = [row.stop.point.label for row in rows]
    if len(labels) > NAMED:
        return f"{labels[0]} and {len(labels) - 1} more"
    return ", ".join(labels)
