"""Many dogs together: how often which fault, how large, what moves over the years."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from textual import work
from textual.app import ComposeResult
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from hands_on.compare.cohort.cohort import Cohort, cohort
from hands_on.compare.cohort.members import Member, Wanted, member_of
from hands_on.store.errors import StoreError
from hands_on.store.examined import examined_file
from hands_on.toml_text.problems import BadText
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.show import dotted, plain
from hands_on.tui.side_rows import Column, Part, TableRow
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording.cohort import (
    about_sentences,
    frequency_cells,
    spread_cells,
    trend_sentences,
    wanted_words,
)

COLUMNS = (Column("How often, mean [95 %]"), Column("Degrees, ends"), Column("Class, asked"))


class CohortScreen(Frame[None]):
    """Reads the sessions beside, and then shows what they give together."""

    NAME = "cohort"
    CSS_PATH = "agree.tcss"
    BINDINGS = keys.bindings("cohort")

    @dataclass
    class Read(Message):
        """So many are read."""

        count: int

    @dataclass
    class Ready(Message):
        """All is read."""

        found: Cohort
        labels: dict[str, str]
        left_out: int

    def __init__(self, paths: Sequence[Path], wanted: Wanted) -> None:
        super().__init__()
        self.paths, self.wanted = tuple(paths), wanted
        self.found: Cohort | None = None

    def compose(self) -> ComposeResult:
        """What it is of, the tables."""
        yield TitleLine(dotted("Many dogs together", wanted_words(self.wanted)))
        yield Static("Reading the examinations ...", id="about", markup=False)
        yield SideTable(COLUMNS, shares=(9, 4, 5), mark=0)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Begin to read."""
        self.query_one("#rows").focus()
        self._read()

    @work(thread=True, exclusive=True, exit_on_error=False, group="cohort")
    def _read(self) -> None:
        worker = get_current_worker()
        library = self.program.library
        members: list[Member] = []
        labels: dict[str, str] = {}
        left_out = 0
        for count, path in enumerate(self.paths, 1):
            if worker.is_cancelled:
                return
            try:
                one = examined_file(path, library)
                members.append(member_of(one))
            except (StoreError, BadText):
                left_out += 1
                continue
            for cls in one.ruleset.classes.values():
                labels.setdefault(cls.id, cls.label)
            if count % 25 == 0:
                self.post_message(self.Read(count))
        found = cohort(members, self.wanted)
        if not worker.is_cancelled:
            self.post_message(self.Ready(found, labels, left_out))

    def on_cohort_screen_read(self, message: Read) -> None:
        """How far the reading is."""
        if self.found is None:
            told = f"Reading the examinations: {message.count} of {len(self.paths)}"
            self.query_one("#about", Static).update(told)

    def on_cohort_screen_ready(self, message: Ready) -> None:
        """Show what they give."""
        found = self.found = message.found
        about = list(about_sentences(found)) if found.members else ["No dog here fits."]
        if message.left_out:
            about.append(f"{message.left_out} files can't be read and are left out.")
        self.query_one("#about", Static).update(plain(" ".join(about)))
        faults = tuple(_row(frequency_cells(one, message.labels)) for one in found.frequencies)
        sizes = tuple(_row(spread_cells(one)) for one in found.spreads)
        trends = tuple(TableRow("", text=text) for text in trend_sentences(found))
        parts = [
            Part("faults", "How often which fault", faults, empty="no fault in any of them"),
            Part("sizes", "Measurements and proportions", sizes, empty="nothing was measured"),
            Part("trends", "Over the years", trends),
        ]
        self.query_one(SideTable).show(parts)

    # --- keys

    def action_part(self, way: int) -> None:
        """The next part, or the one before."""
        self.query_one(SideTable).step(way)


def _row(cells: tuple[str, str, str, str]) -> TableRow:
    return TableRow(cells[0], cells[1:])
