"""The examinations kept, found as you type."""

from __future__ import annotations

import os
from contextlib import suppress

from textual.app import ComposeResult
from textual.content import Content

from hands_on.store import places
from hands_on.store.errors import StoreError
from hands_on.store.headers import SessionHeader
from hands_on.store.records import Records
from hands_on.tui import keys
from hands_on.tui.asks import Cohort, Compare, CritiqueOf, History, OpenFile, Recheck
from hands_on.tui.frame import Frame
from hands_on.tui.kept import own_first
from hands_on.tui.show import dotted, line
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.search_list import FoundRow, SearchList

MOST = 500
"""Rows shown at once; typing narrows the rest."""


class RecordsScreen(Frame[None]):
    """Newest first; Enter opens."""

    NAME = "records"
    BINDINGS = keys.bindings("records")

    def __init__(self) -> None:
        super().__init__()
        self._rows: dict[str, SessionHeader] = {}
        self._listed: dict[str, SessionHeader] = {}
        self._records: Records | None = None

    def compose(self) -> ComposeResult:
        """Search line and list."""
        yield TitleLine(f"Records in {self.program.sessions}")
        yield SearchList(
            self._fitting, "name, evaluator, place, number, date, ruleset", "No examination fits."
        )
        yield FooterLine(self.NAME)

    def on_unmount(self) -> None:
        """Close the index."""
        if self._records is not None:
            self._records.close()

    def on_screen_resume(self) -> None:
        """Back from an examination: read what has changed."""
        super().on_screen_resume()
        if self._records is not None:
            with suppress(StoreError):  # another program keeps the index: what was listed stays
                self._records.refresh()
            self.query_one(SearchList).search()

    def _fitting(self, text: str) -> list[FoundRow]:
        try:
            if self._records is None:
                folder = self.program.sessions
                self._records = Records(folder, places.index_path(folder))
                self._records.refresh()
            rows = own_first(self._records.find(text, MOST), self.program.examiner)
        except (StoreError, OSError) as error:
            self.program.say("The records can't be read", str(error))
            return []
        self._rows = {os.fsdecode(row.path.name): row for row in rows}
        self._listed |= self._rows
        return [FoundRow(name, row_content(row)) for name, row in self._rows.items()]

    @property
    def _marked(self) -> SessionHeader | None:
        """The marked examination, where it can be opened."""
        name = self.query_one(SearchList).marked
        row = self._rows.get(name or "")
        return row if row is not None and row.problem is None else None

    def action_recheck(self) -> None:
        """The dog again."""
        if self._marked is not None:
            self.program.go(Recheck(self._marked.path))

    def action_compare(self) -> None:
        """It and others side by side."""
        if self._marked is not None:
            self.program.go(Compare(self._marked.path))

    def action_cohort(self) -> None:
        """All dogs found, or some of them, together."""
        paths = [row.path for row in self._rows.values() if row.problem is None]
        if paths:
            self.program.go(Cohort(paths, self._marked.path if self._marked is not None else None))

    def action_critique(self) -> None:
        """What is written for its owner."""
        if self._marked is not None:
            self.program.go(CritiqueOf(self._marked.path))

    def action_history(self) -> None:
        """The dog over all its examinations."""
        if self._marked is not None:
            self.program.go(History(self._marked.path))

    def on_search_list_chosen(self, event: SearchList.Chosen) -> None:
        """Open it; a broken file is told about and left as it is."""
        row = self._listed[event.id]  # keys typed behind Enter may have changed the list by now
        if row.problem is not None:
            self.program.say("This session can't be opened", f"{row.problem}\n\nThe file is left as it is.")
            return
        self.program.go(OpenFile(row.path))


def row_content(row: SessionHeader) -> Content:
    """An examination in two lines."""
    if row.problem is not None:
        return Content.assemble(
            line(row.path.name, "bold"),
            "  BROKEN\n    ",
            line(f"{row.problem.what} (line {row.problem.line or '?'})"),
        )
    date = f"{row.started:%Y-%m-%d}" if row.started else "no date   "
    state = "signed" if row.signed else "unfinished"
    first = Content.assemble(
        line(date),
        "  ",
        line(row.call_name or "no call name", "bold"),
        "  ",
        line(row.registered_name),
        f"  {state}",
        *(("  ", line(f"CONFLICT COPY of {row.copy_of}", "bold")) if row.copy_of else ()),
    )
    answers = f"{row.answers} answer" + ("" if row.answers == 1 else "s")
    return Content.assemble(
        first, "\n            ", line(dotted(row.evaluator, row.place, row.ruleset, answers))
    )
