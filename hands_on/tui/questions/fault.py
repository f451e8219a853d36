"""A fault from the list of all, found as you type."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content

from hands_on.ruleset.base import Sex
from hands_on.ruleset.find_fault import FaultFinder
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.search_list import FoundRow, SearchList
from hands_on.wording.point import fault_class_words


class FaultScreen(Frame[str]):
    """Dismissed with the fault's id, or None."""

    NAME = "fault"
    BINDINGS = keys.bindings("fault")

    def __init__(
        self, ruleset: Ruleset, region: str, first: Sequence[str] = (), sex: Sex | None = None
    ) -> None:
        """`first`: the likeliest, above all others until something is typed. `sex` leaves out what only the
        other can have."""
        super().__init__()
        self.ruleset, self.body_region = ruleset, region
        self.first = tuple(name for name in first if name in ruleset.faults)
        self._finder = FaultFinder(ruleset, sex)
        self._regions = {row.id: row.label for row in ruleset.regions}

    def compose(self) -> ComposeResult:
        """Search line and list; the region on screen comes first."""
        yield TitleLine("Pick a fault")
        yield SearchList(
            self._fitting, "what is it called? label, id or any wording", "No fault is called like this."
        )
        yield FooterLine(self.NAME)

    def _fitting(self, text: str) -> list[FoundRow]:
        likeliest = [] if text else [FoundRow(name, self._row(name)) for name in self.first]
        return [*likeliest, *(row for row in self._found(text) if text or row.id not in self.first)]

    def _found(self, text: str) -> list[FoundRow]:
        return [FoundRow(name, self._row(name)) for name in self._finder.find(text, self.body_region)]

    def _row(self, name: str) -> Content:
        fault = self.ruleset.faults[name]
        region = self._regions.get(fault.region, fault.region)
        aside = dotted(region, fault_class_words(self.ruleset, name), fault.meaning)
        return Content.assemble(plain(fault.label, "bold"), plain(f"  {aside}"))

    def on_search_list_chosen(self, event: SearchList.Chosen) -> None:
        """Take it."""
        self.dismiss(event.id)
