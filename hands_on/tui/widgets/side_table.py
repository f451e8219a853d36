"""A table with a column a dog: heads that stay, parts that are jumped to, as many columns as fit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import zip_longest

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from hands_on.plain_text import one_line
from hands_on.tui.show import plain, wrapped
from hands_on.tui.side_rows import Column, Part, TableRow

LEAST_COLUMN = 18
"""Cells that a dog's column has at least."""

NARROW, NARROW_COLUMN = 70, 12
"""Under so many cells labels, marks and columns are narrower, so that two dogs still stand side by side."""

MORE = 12
"""Cells for how many columns do not show."""

GAP = 2

HELD = "\ue000"
"""Stands for a blank at which no line ends; a sign that nobody types (Unicode, private use)."""

BRACKETS = re.compile(r"\[[^\[\]]*\]")

BESIDE = 4
"""Cells that the rows leave free for their margins and the bar to scroll by."""


class SideTable(Vertical):
    """Heads above, the parts below in one scrolling text."""

    DEFAULT_CSS = """
    SideTable { height: 1fr; }
    SideTable #heads { height: auto; padding: 0 1; background: $panel; }
    SideTable #rows { height: 1fr; padding: 0 1; }
    SideTable #text { height: auto; width: 100%; }
    """

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        about: int = 1,
        shares: Sequence[int] = (),
        mark: int | None = None,
        label: int | None = None,
        least: int = LEAST_COLUMN,
        gap: int = GAP,
    ) -> None:
        """`about`: how many lines of what is said of each dog stand in the heads.

        With `shares` all columns show, their widths in these proportions so far as they need it. `mark`:
        cells for what is said of the difference; `label`: for what a row is of; `least`: what a column has
        at least; `gap`: between.
        """
        super().__init__()
        self.columns, self.about = tuple(columns), about
        self.shares, self.mark, self.label, self.least = tuple(shares), mark, label, least
        self._gap = gap
        self.parts: tuple[Part, ...] = ()
        self.first = 0
        """The first dog's column that shows."""
        self.starts: list[int] = []
        """The line on which each part begins."""

    def compose(self) -> ComposeResult:
        """Heads, rows."""
        yield Static("", id="heads", markup=False)
        with VerticalScroll(id="rows"):
            yield Static("", id="text", markup=False)

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def show(self, parts: Sequence[Part]) -> None:
        """Other rows; the part that was on top stays there."""
        at = self.part_on_top.id if self.parts else ""
        self.parts = tuple(parts)
        self._draw()
        place = next((n for n, part in enumerate(self.parts) if part.id == at), None)
        if place is not None:
            self.go_to(place)

    @property
    def part_on_top(self) -> Part:
        """The part whose rows begin or go on in the first line."""
        return self.parts[self.place]

    @property
    def place(self) -> int:
        """Its place among the parts."""
        top = self.query_one("#rows", VerticalScroll).scroll_target_y
        return max((n for n, start in enumerate(self.starts) if start <= top), default=0)

    @property
    def shown(self) -> int:
        """How many dogs' columns fit."""
        if not self.size.width or self.shares:
            return len(self.columns)
        room = self.size.width - 2 - self._label_width - self._mark_width - self.gap
        least = min(self.least, NARROW_COLUMN) if self.size.width < NARROW else self.least
        return max(1, min(len(self.columns), room // (least + self.gap)))

    def move(self, step: int) -> None:
        """Other dogs' columns."""
        self.first = max(0, min(len(self.columns) - self.shown, self.first + step))
        self._draw()

    def go_to(self, place: int) -> None:
        """Show a part from its title on."""
        if self.starts:
            place = max(0, min(place, len(self.starts) - 1))
            self.query_one("#rows", VerticalScroll).scroll_to(y=self.starts[place], animate=False, force=True)

    def step(self, way: int) -> None:
        """The next part, or the one before; from within a part first back to its title."""
        rows = self.query_one("#rows", VerticalScroll)
        inside = rows.scroll_target_y > self.starts[self.place] if self.starts else False
        self.go_to(self.place if way < 0 and inside else self.place + way)

    @property
    def gap(self) -> int:
        """Cells between two columns."""
        return 1 if self.shares and self.size.width < NARROW else self._gap

    @property
    def _label_width(self) -> int:
        if self.label is not None:
            return self.label
        return 14 if self.size.width < NARROW else 20 if self.size.width < 110 else 24

    @property
    def _mark_width(self) -> int:
        if self.mark is not None:
            return self.mark
        return 11 if self.size.width < NARROW else 16 if self.size.width < 110 else 22

    def _widths(self) -> list[int]:
        room = self.size.width - BESIDE - self._label_width - self._mark_width - self.gap
        if self.shares:
            return self._shared_widths(room - self.gap * len(self.shares))
        each = max(8, room // self.shown - self.gap)
        return [self._label_width, *[each] * self.shown, self._mark_width]

    def _shared_widths(self, room: int) -> list[int]:
        rows = [row for part in self.parts for row in part.rows if not row.text]
        heads = [(one.name, *one.about[: self.about]) for one in self.columns]
        cells = [
            [*head, *(row.cells[n] for row in rows if n < len(row.cells))] for n, head in enumerate(heads)
        ]
        own = shared_out(room, self.shares, cells)
        label = max((cell_len(row.label) for row in rows), default=0)
        wider = max(0, min(label - self._label_width, room - sum(own)))
        return [self._label_width + wider, *own, self._mark_width]

    def _draw(self) -> None:
        if not self.size.width or not self.is_mounted:
            return
        self.first = max(0, min(self.first, len(self.columns) - self.shown))
        widths = self._widths()
        self.query_one("#heads", Static).update(Content("\n").join(self._heads(widths)))
        lines: list[Content] = []
        self.starts = []
        for part in self.parts:
            if lines:
                lines.append(Content(""))
            self.starts.append(len(lines))
            lines += self._part(part, widths)
        # Room below, so that the last part can stand on top too.
        lines += [Content("")] * max(0, self.query_one("#rows").size.height - 4)
        self.query_one("#text", Static).update(Content("\n").join(lines))

    def _heads(self, widths: list[int]) -> list[Content]:
        columns = self.columns[self.first : self.first + self.shown]
        numbered = len(self.columns) > 2 and not self.shares and self.about > 0
        names = [f"{n} {one.name}" if numbered else one.name for n, one in enumerate(columns, self.first + 1)]
        hidden = len(self.columns) - self.shown
        aside = f"{hidden} more: ← →" if hidden else ""
        # Without room for what is said of the difference it stands over the labels.
        ends = (aside, "") if aside and widths[-1] < MORE else ("", aside)
        lines = list(row_lines([ends[0], *names, ends[1]], widths, "bold", self.gap))
        for n in range(self.about):
            about = [one.about[n] if n < len(one.about) else "" for one in columns]
            lines += row_lines(["", *about, ""], widths, gap=self.gap)
        return lines

    def _part(self, part: Part, widths: list[int]) -> list[Content]:
        title = Content.assemble(plain(one_line(part.title), "bold underline"), plain(f"  {part.aside}"))
        lines = [title]
        if not part.rows:
            return [*lines, plain(f"  {part.empty}", "dim")]
        for row in part.rows:
            lines += self._row(row, widths)
        return lines

    def _row(self, row: TableRow, widths: list[int]) -> list[Content]:
        if row.text:
            room = min(110, sum(widths) + self.gap * (len(widths) - 1) - 2) - row.indent
            texts = wrapped(one_line(row.text), room)
            style = "bold" if row.bold else ""
            return [plain(" " * (row.indent + (2 if n else 0)) + text, style) for n, text in enumerate(texts)]
        cells = list(row.cells)
        if len(cells) == len(self.columns):
            cells = cells[self.first : self.first + self.shown]
        return list(row_lines([row.label, *cells, row.mark], widths, "bold" if row.bold else "", self.gap))


def row_lines(cells: Sequence[str], widths: Sequence[int], style: str = "", gap: int = GAP) -> list[Content]:
    """One row of a table: each cell wrapped within its width; measured in cells of the terminal."""
    parts = [in_cell(one_line(cell), width) for cell, width in zip(cells, widths, strict=True)]
    lines = []
    for row in zip_longest(*parts, fillvalue=""):
        text = (" " * gap).join(
            part + " " * max(0, width - cell_len(part)) for part, width in zip(row, widths, strict=True)
        )
        lines.append(plain(text.rstrip(), style))
    return lines


def in_cell(text: str, width: int) -> list[str]:
    """A text wrapped within a cell; an interval in brackets stays on one line where that holds it."""

    def kept(found: re.Match[str]) -> str:
        return held(found[0]) if cell_len(found[0]) <= width else found[0]

    return [line.replace(HELD, " ") for line in wrapped(BRACKETS.sub(kept, text), width)]


def held(text: str) -> str:
    """A text at whose blanks no line ends."""
    return text.replace(" ", HELD)


def shared_out(room: int, shares: Sequence[int], cells: Sequence[Sequence[str]]) -> list[int]:
    """Widths of columns with these cells, in the proportions of `shares`.

    None is wider than its longest cell, nor, where there is room for all, narrower than its longest word.
    """
    needs = [max(6, *map(cell_len, column)) for column in cells]
    whole = [[BRACKETS.sub(lambda found: held(found[0]), cell) for cell in column] for column in cells]
    least = (_longest_words(whole), _longest_words(cells))
    words = next((each for each in least if sum(each) <= room), None)
    if words is None:
        return [max(6, room * share // sum(shares)) for share in shares]
    settled: dict[int, int] = {}
    while left := [n for n in range(len(shares)) if n not in settled]:
        rest, parts = room - sum(settled.values()), sum(shares[n] for n in left)
        each = {n: rest * shares[n] // parts for n in left}
        narrow = {n: words[n] for n in left if each[n] < words[n]}
        settled |= narrow or {n: needs[n] for n in left if needs[n] <= each[n]} or each
    return [settled[n] for n in range(len(shares))]


def _longest_words(cells: Sequence[Sequence[str]]) -> list[int]:
    return [max(6, *(cell_len(word) for cell in column for word in cell.split())) for column in cells]
