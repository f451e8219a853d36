"""Under the note line: the note with its pieces marked, what was understood, more on the marked thing.

Drawn into the room it has, so that a key pressed in the line moves nothing else on the screen.
"""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

from hands_on.exam.heard.note import Heard, Thing
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui.heard_rows import KEPT, HeardRow, about, heard_rows, in_order, marked_note, signs_of
from hands_on.tui.show import plain

FOR_INSTANCE = "For instance: withers 64.5, chest to the elbow, a touch steep in shoulder, no cow hocks"

REGION_WIDTH = 18
"""Columns for the regions' labels."""


LEAST_TEXT = 12
"""Columns that a row's words have at least; narrower than that they are cut."""

LEAST_FOR_KEPT = 5
"""Lines of which one may be spent on what is never overwritten."""


class Understood(Widget):
    """Shows what was heard; takes no keys itself."""

    DEFAULT_CSS = """
    Understood { height: 1fr; min-height: 3; padding: 0 1; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._heard: Heard | None = None
        self._ruleset: Ruleset | None = None
        self._marked: Thing | None = None
        self._message = ""

    def show(self, heard: Heard, ruleset: Ruleset, marked: Thing | None, message: str = "") -> None:
        """What was heard; `message` stands in place of what is told of the marked thing."""
        self._heard, self._ruleset, self._marked, self._message = heard, ruleset, marked, message
        self.refresh()

    def render(self) -> Content:
        """As many lines as there is room for."""
        width, height = self.content_size
        if self._heard is None or self._ruleset is None or width < 4 or height < 1:
            return Content("")
        return Content("\n").join(self._lines(self._heard, self._ruleset, width, height))

    def _lines(self, heard: Heard, ruleset: Ruleset, width: int, height: int) -> list[Content]:
        told = self._message or (about(self._marked, ruleset) if self._marked is not None else "")
        if not heard.text.strip():
            told = self._message or FOR_INSTANCE
        below = plain(told).wrap(width) if told else []
        if not heard.text.strip():
            return below[:height]
        marked = self._marked.id if self._marked is not None else ""
        below = below[: 1 if height < 8 else 3]
        sure = any(one.taken and not one.asks for one in heard.right)
        kept = plain(KEPT, "dim").wrap(width) if sure and height >= LEAST_FOR_KEPT else []
        note = marked_note(heard, marked).wrap(width)
        at = _line_with(note, signs_of(heard).get(marked, ""))
        rows = heard_rows(heard, ruleset)
        lines = [one for row in row_lines(rows, marked, width) for one in row]
        whole = window(note, at, max(1, (height - len(kept) - len(below)) // 3))
        if len(whole) + len(lines) + len(kept) + len(below) <= height:
            return [*whole, *lines, *kept, *below]
        note = window(note, at, max(1, height // 5))
        room = max(0, height - len(note) - len(below))
        return [*note, *rows_in_part(rows, marked, width, room), *below]

    @property
    def order(self) -> tuple[Thing, ...]:
        """What can be marked, in the order shown."""
        if self._heard is None or self._ruleset is None:
            return ()
        return in_order(self._heard, self._ruleset)


def row_lines(
    rows: tuple[HeardRow, ...], marked: str, width: int, column: int | None = None
) -> list[list[Content]]:
    """The lines of each row, further ones set in; a region's label stands at its first row.

    `marked` is the id of the marked one, `column` the cells for labels where other rows share them.
    """
    column = _label_width(rows) if column is None else column
    lines: list[list[Content]] = []
    before = ""
    for row in rows:
        region = row.region if row.region != before else ""
        before = row.region
        label = plain(region[:column].ljust(column) + "  " if column else "", "bold")
        chosen = bool(marked) and row.id == marked
        beside = 3 + cell_len(label.plain) + cell_len(row.sign)
        told = plain(row.text, "" if row.id else "italic").wrap(max(LEAST_TEXT, width - beside))
        texts = [Content.assemble(plain(f"{row.sign} ", "bold"), told[0]), *told[1:]]
        heads = [Content.assemble("> " if chosen else "  ", label), *[plain(" " * beside)] * len(told[1:])]
        lines.append(
            [
                Content.assemble(head, text.stylize("reverse") if chosen else text).truncate(
                    width, ellipsis=True
                )
                for head, text in zip(heads, texts, strict=True)
            ]
        )
    return lines


def _label_width(rows: tuple[HeardRow, ...]) -> int:
    return min(REGION_WIDTH, max((cell_len(row.region) for row in rows), default=0))


def rows_in_part(rows: tuple[HeardRow, ...], marked: str, width: int, room: int) -> list[Content]:
    """Whole rows, the marked one amid them, in `room` lines; the last tells how many others there are."""
    heights = [len(row) for row in row_lines(rows, "", width)]
    spare = room if room < LEAST_FOR_KEPT or sum(heights) <= room else room - 1
    first = next((n for n, row in enumerate(rows) if marked and row.id == marked), len(rows) - 1)
    last, left = first + 1, spare - heights[first]
    grown = True
    while grown:
        grown = False
        if last < len(rows) and heights[last] <= left:
            left, last, grown = left - heights[last], last + 1, True
        if first > 0 and heights[first - 1] <= left:
            left, first, grown = left - heights[first - 1], first - 1, True
    shown = [one for row in row_lines(rows[first:last], marked, width, _label_width(rows)) for one in row]
    above, below = first, len(rows) - last
    if spare < room and (above or below):
        counts = [f"{above} more above" * bool(above), f"{below} more below" * bool(below)]
        return [*shown[:spare], plain(f"{', '.join(filter(None, counts))}: ^P ^N", "dim")]
    return shown[:spare]


def window(lines: list[Content], at: int, room: int) -> list[Content]:
    """At most `room` of the lines, the one at `at` among them."""
    if len(lines) <= room:
        return lines
    first = min(max(0, at - room + 1), len(lines) - room)
    return lines[first : first + room]


def _line_with(lines: list[Content], sign: str) -> int:
    """Where the marked piece begins; else the last line, where the typing goes on."""
    return next((n for n, line in enumerate(lines) if sign and sign in line.plain), len(lines) - 1)
