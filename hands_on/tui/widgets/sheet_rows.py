"""The points of a region's sheet: number, name, what is recorded or what is asked."""

from __future__ import annotations

from collections.abc import Mapping

from textual.content import Content
from textual.widgets import Static

from hands_on.exam.dialogue import Prompt
from hands_on.exam.region_sheet import RegionSheet, SheetRow
from hands_on.tui.show import fitted, plain, wrapped
from hands_on.tui.widgets.answers import RECORDED

INDENT = 7
"""Cells in front of a name: marker, number, sign."""


class SheetRows(Static):
    """In full where there is room, else one line a point."""

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._sheet: RegionSheet | None = None
        self._asked: Mapping[str, str] = {}
        self._prompt = Prompt("")
        self._room = 0

    def show(self, sheet: RegionSheet, asked: Mapping[str, str], prompt: Prompt) -> None:
        """`asked`: what the edition asks, by point."""
        self._sheet, self._asked, self._prompt = sheet, asked, prompt
        self._draw()

    def fit(self, room: int) -> None:
        """How many lines there are."""
        if room != self._room:
            self._room = room
            self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def line_of(self, row: int) -> int:
        """At which line of the widget a row begins."""
        return sum(len(lines) for lines in self._rows()[:row])

    def marked_in_full(self) -> str:
        """What the marked row says, where it is shown on one line that cuts it."""
        at = self._prompt.selected
        if self._sheet is None or at is None or at >= len(self._sheet.rows):
            return ""
        text = self._words(self._sheet.rows[at])
        return "" if len(self._rows()[at]) * self._width >= len(text) + INDENT and not self._short() else text

    @property
    def _width(self) -> int:
        return max(20, self.content_size.width)

    def _words(self, row: SheetRow) -> str:
        """The row as one text."""
        label = row.stop.point.label
        if self._sheet is not None and row.stop.region.id != self._sheet.region.id:
            label = f"{row.stop.region.label}, throughout: {label}"
        if row.state == "answered":
            return f"{label}: {'; '.join(row.recorded)}"
        if row.state == "skipped":
            skip = row.answers.skip
            return f"{label}: skipped, {skip.reason if skip and skip.reason else 'no reason given'}"
        alone = "" if row.rest is not None else "at the end; " if row.late else "enter by itself; "
        return f"{label}: {alone}asked: {self._asked.get(row.stop.point.id, '')}"

    def _full(self) -> list[list[str]]:
        if self._sheet is None:
            return []
        width = self._width - INDENT
        rows = [wrapped(self._words(row), width) for row in self._sheet.rows]
        return [*rows, *(wrapped(line.label, width) for line in self._prompt.lines[-1:])]

    def _short(self) -> bool:
        return self._room > 0 and sum(map(len, self._full())) > self._room

    def _rows(self) -> list[list[str]]:
        full = self._full()
        if not self._short() or self._sheet is None:
            return full
        width = self._width - INDENT
        return [*([fitted(self._words(row), width, 1)] for row in self._sheet.rows), full[-1]]

    def _draw(self) -> None:
        if self._sheet is None or not self.size.width:
            return
        keys = [*(str(row.number) for row in self._sheet.rows), "0"]
        rows: list[Content] = []
        for at, (key, lines) in enumerate(zip(keys, self._rows(), strict=True)):
            row = self._sheet.rows[at] if at < len(self._sheet.rows) else None
            marked = at == self._prompt.selected
            answered = row is not None and row.state == "answered"
            sign = RECORDED if answered else " "
            head = f"{'>' if marked else ' '} {key:>2} {sign} "
            style = "bold reverse" if marked else "bold" if row is None or _departs(row) else ""
            texts = [head + lines[0], *(" " * INDENT + line for line in lines[1:])]
            rows += [
                plain(text, style or ("dim" if row is not None and not answered else "")) for text in texts
            ]
        self.update(Content("\n").join(rows))


def _departs(row: SheetRow) -> bool:
    """Is something other than as asked recorded?"""
    return any(grade.fault is not None for grade in row.answers.grades)
