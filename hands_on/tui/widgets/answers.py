"""The dialogue at a point as lines: the question, the numbered answers, what is typed, what came of it."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from hands_on.exam.dialogue import Line, Prompt
from hands_on.tui.show import hanging, plain

RECORDED = "●"
"""Beside a line that is recorded; the word stands there too."""


LEAST_LINES = 2
"""Numbered lines that are seen at once, however little room there is."""

INSET = 7
"""Where the label of a numbered line begins."""


class AnswerPane(Vertical):
    """Shows a dialogue's prompt; takes no keys itself."""

    def __init__(self) -> None:
        super().__init__()
        self._prompt: Prompt | None = None
        self._width = 0

    def compose(self) -> ComposeResult:
        """Question above, typed text, message and hint below, the lines between scroll."""
        yield Static("", id="ask", markup=False)
        with VerticalScroll(id="lines", can_focus=False):
            yield Static("", id="answers", markup=False)
        yield Static("", id="typed", markup=False)
        yield Static("", id="message", classes="message", markup=False)
        yield Static("", id="hint", classes="hint", markup=False)

    @property
    def needed(self) -> int:
        """Lines that all of it takes, the numbered ones in full."""
        shown = ("#ask", "#answers", "#typed", "#message", "#hint")
        return sum(self._lines_of(self.query_one(name)) for name in shown if self.query_one(name).display)

    def fit(self, room: int) -> None:
        """Let the numbered lines scroll where `room` is too small for all of them, so that what the keys do
        stays on the screen.
        """
        others = self.needed - self._lines_of(self.query_one("#answers")) * self.query_one("#answers").display
        self.query_one("#lines").styles.max_height = max(LEAST_LINES, room - others)

    def _lines_of(self, part: Widget) -> int:
        """By its text: as it is laid out it may still be what stood at the point before."""
        width = max(1, self.content_size.width - part.gutter.width)
        return part.get_content_height(self.size, self.app.size, width) + part.gutter.height

    def on_resize(self) -> None:
        """The lines anew for the room there is now."""
        if self._prompt is not None and self.content_size.width != self._width:
            self.show(self._prompt)

    def show(self, prompt: Prompt) -> None:
        """Show the prompt as it is now."""
        self._prompt, self._width = prompt, self.content_size.width
        for name, text in (("#ask", prompt.ask), ("#message", prompt.message), ("#hint", prompt.hint)):
            line = self.query_one(name, Static)
            line.update(plain(text))
            line.display = bool(text)
        rows = [line_content(line, at == prompt.selected) for at, line in enumerate(prompt.lines)]
        if self._width > 20:
            rows = [hanging(row, self._width - 2, INSET) for row in rows]
        self.query_one("#answers", Static).update(Content("\n").join(rows))
        self.query_one("#answers").display = bool(rows)
        typed = self.query_one("#typed", Static)
        typed.update(typed_content(prompt))
        typed.display = prompt.typing or bool(prompt.typed)
        if prompt.selected is not None:
            lines = self.query_one("#lines", VerticalScroll)
            self.call_after_refresh(lines.scroll_to, y=max(0, prompt.selected - 2), animate=False)


def line_content(line: Line, marked: bool) -> Content:
    """One numbered line: mark, number, label, and what is said beside it."""
    number = f"{line.key:>2}" if line.key else "  "
    aside = line.aside
    if line.recorded:
        aside = f"recorded: {aside}" if aside and aside != "recorded" else "recorded"
    return Content.assemble(
        ("> " if marked else "  "),
        (number, "bold"),
        (f" {RECORDED} " if line.recorded else "   "),
        plain(line.label, "bold" if line.recorded or marked else ""),
        plain(f"  ({aside})") if aside else "",
    ).stylize("reverse" if marked else "")


def typed_content(prompt: Prompt) -> Content:
    """What has been typed, a cursor behind it, and the unit."""
    return Content.assemble(
        "  > ", plain(prompt.typed, "bold"), (" ", "reverse"), plain(f" {prompt.unit}" if prompt.unit else "")
    )
