"""A text to read: an edition, an explanation, a message that must be seen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine


@dataclass(frozen=True)
class Paragraph:
    """One piece of a text."""

    text: str
    heading: str = ""
    """Stands above it."""
    aside: str = ""
    """Stands under it: a source, a note."""


class ReadingScreen(Frame[None]):
    """Paragraphs under each other, read with arrows and page keys."""

    NAME = "reading"
    CSS_PATH = "reading.tcss"
    BINDINGS = keys.bindings("reading")

    def __init__(self, title: str, paragraphs: Sequence[Paragraph]) -> None:
        super().__init__()
        self.reading_title = title
        self.paragraphs = tuple(paragraphs)

    def compose(self) -> ComposeResult:
        """The text in one scrolling column."""
        yield TitleLine(self.reading_title)
        with VerticalScroll(id="text"):
            yield Static(as_content(self.paragraphs), id="paragraphs", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Arrow keys scroll the text."""
        self.query_one("#text").focus()

    def action_page(self, way: int) -> None:
        """A page on or back."""
        text = self.query_one("#text", VerticalScroll)
        if way > 0:
            text.scroll_page_down(animate=False)
        else:
            text.scroll_page_up(animate=False)


def as_content(paragraphs: Sequence[Paragraph]) -> Content:
    """Headings bold, asides set off with a bar."""
    rows: list[Content] = []
    for paragraph in paragraphs:
        if paragraph.heading:
            if rows:
                rows.append(Content(""))
            rows.append(plain(paragraph.heading, "bold"))
        if paragraph.text:
            rows.append(plain(paragraph.text))
        if paragraph.aside:
            rows.append(plain("  | " + paragraph.aside, "dim"))
    return Content("\n").join(rows)
