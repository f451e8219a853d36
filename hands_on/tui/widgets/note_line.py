"""The line for whatever the evaluator calls out. What is typed is kept word for word."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static, TextArea


class NoteText(TextArea):
    """Several lines; Enter keeps the note, Ctrl+J makes a new line, a paste keeps its lines."""

    async def _on_key(self, event: events.Key) -> None:
        line = self.parent
        if event.key in ("enter", "escape") and isinstance(line, NoteLine):
            event.stop()
            event.prevent_default()
            line.keep() if event.key == "enter" else line.put_aside()
        elif event.key in ("ctrl+j", "shift+enter"):
            event.stop()
            event.prevent_default()
            self.insert("\n")


class NoteLine(Vertical):
    """The line and, under it, what was understood of it."""

    DEFAULT_CSS = """
    NoteLine { height: auto; }
    NoteLine NoteText { height: auto; min-height: 1; max-height: 6; border: none; padding: 0 1; }
    NoteLine #note-head, NoteLine #understood { height: auto; padding: 0 1; }
    NoteLine #understood { max-height: 8; overflow-y: auto; }
    """

    @dataclass
    class Kept(Message):
        """The note is to be kept."""

        text: str

    @dataclass
    class PutAside(Message):
        """The line was left; its text waits for the next time."""

        text: str

    def __init__(self) -> None:
        super().__init__()
        self.understand: Callable[[str], Content] | None = None
        """Says what a text is understood as; without it notes are only kept as typed."""

    def compose(self) -> ComposeResult:
        """Heading, line, what was understood."""
        yield Static(
            "Note as called out · Enter keeps it, Ctrl+J new line, Esc puts it aside", id="note-head"
        )
        yield NoteText("", compact=True, soft_wrap=True, show_line_numbers=False, highlight_cursor_line=False)
        yield Static("", id="understood", markup=False)

    def on_mount(self) -> None:
        """Hidden until it is asked for."""
        self.display = False
        self.query_one("#understood").display = False

    def open(self, draft: str) -> None:
        """Show the line with a text put aside earlier."""
        self.display = True
        text = self.query_one(NoteText)
        text.text = draft
        text.move_cursor(text.document.end)
        self.screen.set_focus(text)  # at once, so that keys pressed fast go here

    def keep(self) -> None:
        """Enter: an empty note is none."""
        text = self.query_one(NoteText).text
        self._close()
        self.post_message(self.Kept(text) if text.strip() else self.PutAside(""))

    def put_aside(self) -> None:
        """Escape."""
        text = self.query_one(NoteText).text
        self._close()
        self.post_message(self.PutAside(text))

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """Show what was understood."""
        event.stop()
        if self.understand is not None:
            area = self.query_one("#understood", Static)
            area.update(self.understand(event.text_area.text))
            area.display = True

    def _close(self) -> None:
        self.display = False
        self.screen.set_focus(None)
