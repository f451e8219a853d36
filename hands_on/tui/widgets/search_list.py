"""A line to type in and the list of what fits it, best first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from hands_on.tui.show import hanging, plain


@dataclass(frozen=True)
class FoundRow:
    """One row of the list."""

    id: str
    content: Content


class SearchList(Vertical):
    """Typing searches, the arrows move through what was found, Enter takes it."""

    DEFAULT_CSS = """
    SearchList { height: 1fr; }
    SearchList OptionList { height: 1fr; }
    SearchList #count { height: 1; padding: 0 1; color: $text-muted; }
    """

    @dataclass
    class Chosen(Message):
        """A row was taken."""

        id: str

    @dataclass
    class Marked(Message):
        """Another row is marked; None when there is none."""

        id: str | None

    def __init__(
        self, find: Callable[[str], Sequence[FoundRow]], asks: str, nothing: str = "Nothing fits."
    ) -> None:
        """`find` gives the rows for a text, best first; `asks` stands in the empty line."""
        super().__init__()
        self._find, self._asks, self._nothing = find, asks, nothing
        self._rows: Sequence[FoundRow] = ()

    def compose(self) -> ComposeResult:
        """Line, count, list."""
        yield Input(placeholder=self._asks, select_on_focus=False)
        yield Static("", id="count", markup=False)
        yield OptionList()

    def on_mount(self) -> None:
        """All rows at first; typing goes to the line."""
        self.query_one(OptionList).can_focus = False
        self.query_one(Input).focus()
        self.search()

    def search(self) -> None:
        """Look again for what is typed."""
        rows = self._rows = self._find(self.query_one(Input).value.strip())
        self._fill(0 if rows else None)
        self.query_one("#count", Static).update(plain(self._nothing if not rows else f"{len(rows)} found"))
        self.post_message(self.Marked(rows[0].id if rows else None))

    def _fill(self, marked: int | None) -> None:
        """The rows in the room there is; what goes on below a line is set in."""
        options = self.query_one(OptionList)
        width = options.scrollable_content_region.width - 1
        options.clear_options()
        shown = [hanging(row.content, width) if width > 20 else row.content for row in self._rows]
        options.add_options([Option(text, id=row.id) for text, row in zip(shown, self._rows, strict=True)])
        options.highlighted = marked

    def on_resize(self) -> None:
        """Set anew for the room there is now."""
        self.call_after_refresh(self._refit)

    def _refit(self) -> None:
        if self.is_attached and self.query(OptionList):
            with self.prevent(OptionList.OptionHighlighted):
                self._fill(self.query_one(OptionList).highlighted)

    @property
    def marked(self) -> str | None:
        """The id of the marked row."""
        options = self.query_one(OptionList)
        at = options.highlighted
        return None if at is None else options.get_option_at_index(at).id

    def on_input_changed(self, event: Input.Changed) -> None:
        """Search as it is typed."""
        event.stop()
        self.search()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the marked row."""
        event.stop()
        if self.marked is not None:
            self.post_message(self.Chosen(self.marked))

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Tell which row is marked."""
        event.stop()
        self.post_message(self.Marked(event.option_id))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Take a row that was clicked."""
        event.stop()
        if event.option_id is not None:
            self.post_message(self.Chosen(event.option_id))

    def on_key(self, event: Key) -> None:
        """Arrows and page keys move through the list while the line keeps the focus."""
        options = self.query_one(OptionList)
        moves: dict[str, Callable[[], None]] = {
            "down": options.action_cursor_down,
            "up": options.action_cursor_up,
            "pagedown": options.action_page_down,
            "pageup": options.action_page_up,
        }
        move = moves.get(event.key)
        if move is not None:
            event.stop()
            event.prevent_default()
            move()
