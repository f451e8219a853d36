"""Where the walk stands: all regions with their progress, as a column or on one line."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content
from textual.widgets import Static

from hands_on.exam.walk import RegionProgress
from hands_on.tui.show import plain


def how_far(row: RegionProgress) -> str:
    """`2/9`, and a word once nothing is open; what was wholly skipped or left out is not done."""
    if row.done and not row.answered:
        return f"0/{row.total} left out"
    skipped = f" -{row.skipped}" if row.skipped else ""
    done = " done" if row.done else ""
    return f"{row.answered}/{row.total}{skipped}{done}"


class RegionList(Static):
    """All regions under each other."""

    def __init__(self) -> None:
        super().__init__("", markup=False)

    def show(self, rows: Sequence[RegionProgress], current: str) -> None:
        """The regions; the current one is marked."""
        lines = []
        for row in rows:
            here = row.region.id == current
            text = f"{'>' if here else ' '}{row.number:>2} {row.region.label}  {how_far(row)}"
            lines.append(plain(text, "bold reverse" if here else "dim" if row.done else ""))
        lines += [Content(""), Content.styled("answered/asked, -skipped", "dim")]
        self.update(Content("\n").join(lines))


class RegionStrip(Static):
    """As many regions as fit on one line, the current one in the middle."""

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._rows: tuple[RegionProgress, ...] = ()
        self._current = ""

    def show(self, rows: Sequence[RegionProgress], current: str) -> None:
        """The regions around the current one."""
        self._rows, self._current = tuple(rows), current
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        if self._rows and self.size.width:
            self.update(strip(self._rows, self._current, self.content_size.width or self.size.width))


def strip(rows: Sequence[RegionProgress], current: str, width: int) -> Content:
    """The current region and its neighbours, as many as fit; `<` and `>` say that there are more."""
    at = next((n for n, row in enumerate(rows) if row.region.id == current), 0)
    texts = [
        f"[{row.number} {row.region.label} {how_far(row)}]"
        if n == at
        else f"{row.number} {row.region.label} {how_far(row)}"
        for n, row in enumerate(rows)
    ]
    first = last = at
    room = width - 4 - cell_len(texts[at])
    while True:
        grown = False
        for side in (first - 1, last + 1):
            if 0 <= side < len(texts) and cell_len(texts[side]) + 3 <= room and side in (first - 1, last + 1):
                room -= cell_len(texts[side]) + 3
                first, last = min(first, side), max(last, side)
                grown = True
        if not grown:
            break
    parts = [plain(texts[n], "bold reverse" if n == at else "") for n in range(first, last + 1)]
    return Content.assemble(
        "< " if first else "  ", Content("   ").join(parts), " >" if last < len(texts) - 1 else ""
    )
