"""A question answered by a line's number, over the screen that asks it."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.events import Key

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Line, Prompt, Step
from hands_on.exam.dialogue.base import STAY
from hands_on.exam.dialogue.numbered import Numbered
from hands_on.tui import keys
from hands_on.tui.frame import Over
from hands_on.tui.keys.dialogue import dialogue_key
from hands_on.tui.widgets.answers import AnswerPane
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class Question(Numbered):
    """A question with numbered lines that records nothing."""

    def __init__(self, ask: str, lines: Sequence[Line], hint: str = "", message: str = "") -> None:
        super().__init__(Answers())
        self.ask, self.hint, self.message = ask, hint, message
        self._lines = tuple(lines)
        self.chosen: str | None = None

    def lines(self) -> tuple[Line, ...]:
        """The answers."""
        return self._lines

    def choose(self, key: str) -> Step:
        """Remember what was chosen."""
        self.chosen = key
        return Step("next")

    def confirm(self) -> Step:
        """Enter alone chooses nothing."""
        self.message = "Type the number of a line, or mark one with the arrows."
        return STAY

    def prompt(self) -> Prompt:
        """What to show now."""
        return Prompt(self.ask, self._lines, self.cursor, self.typed, False, "", self.hint, self.message)

    def take(self, key: str) -> Step:
        """Take one key."""
        if key in ("-", "left") or (key == "backspace" and not self.typed):
            return Step("back")
        return self.pick(key) or STAY


class NumberedScreen(Over[str]):
    """Asks a question; dismissed with the key of the line chosen, or None."""

    NAME = "numbered"
    CSS_PATH = "numbered.tcss"
    BINDINGS = keys.bindings("numbered")

    def __init__(
        self,
        title: str,
        ask: str,
        lines: Sequence[Line],
        hint: str = "",
        message: str = "",
        at: int | None = None,
    ) -> None:
        super().__init__()
        self.question_title = title
        self.question = Question(ask, lines, hint, message)
        self.question.cursor = at

    def compose(self) -> ComposeResult:
        """The question in a box."""
        with Vertical(id="box"):
            yield TitleLine(self.question_title)
            yield AnswerPane()
            yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Show the question."""
        self._show()

    def on_key(self, event: Key) -> None:
        """Hand the key to the question."""
        if self.app.screen is not self:
            return
        key = dialogue_key(event)
        if key is None or key == "escape" or not (len(key) > 1 or not key.isalpha()):
            return
        event.stop()
        step = self.question.press(key)
        if step.follow == "next":
            self.dismiss(self.question.chosen)
        elif step.follow == "back":
            self.dismiss(None)
        else:
            self._show()

    def _show(self) -> None:
        self.query_one(AnswerPane).show(self.question.prompt())
