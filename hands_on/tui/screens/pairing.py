"""Sire and dam: faults they share, where one mends the other, extremes that add up."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.compare.dogs.pairing import Pairing
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.show import dotted, plain
from hands_on.tui.side_rows import column_of, pairing_parts
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import SideTable


class PairingScreen(Frame[None]):
    """The cautions come first, every time."""

    NAME = "pairing"
    CSS_PATH = "compare.tcss"
    BINDINGS = keys.bindings("pairing")

    def __init__(self, found: Pairing) -> None:
        super().__init__()
        self.found = found

    def compose(self) -> ComposeResult:
        """The table."""
        sire, dam = self.found.sire, self.found.dam
        yield TitleLine(dotted("Sire and dam", sire.dog, dam.dog))
        yield Static("", id="state", markup=False)
        yield SideTable((column_of(sire, f"Sire: {sire.dog}"), column_of(dam, f"Dam: {dam.dog}")))
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Everything."""
        table = self.query_one(SideTable)
        table.show(pairing_parts(self.found))
        table.query_one("#rows").focus()
        found = self.found
        told = (
            f"{len(found.shared)} shared",
            f"{len(found.mended)} mended",
            f"{len(found.opposite)} opposite",
            f"{len(found.open)} not known of the other",
        )
        self.query_one("#state", Static).update(plain(dotted(*told)))

    def action_region(self, way: int) -> None:
        """The next part, or the one before."""
        self.query_one(SideTable).step(way)
