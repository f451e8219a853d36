"""The signature: what is still open, the name, and once more to make sure."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Input, Static

from hands_on.plain_text import visible
from hands_on.tui import keys
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.frame import Over, Unasked
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class SignScreen(Unasked[str], Over[str]):
    """Dismissed with the name of who signs, or None."""

    NAME = "sign"
    CSS_PATH = "sign.tcss"
    BINDINGS = keys.bindings("sign")

    def __init__(self, sheet: CurrentExamination) -> None:
        super().__init__()
        self.sheet = sheet
        self.start = visible(sheet.session.examination.evaluator)
        self.sure = ""
        """The name as it stood when Enter was pressed first."""

    def compose(self) -> ComposeResult:
        """What is open, the name."""
        with Vertical(id="box"):
            yield TitleLine("Sign the examination")
            yield Static(plain("\n".join(self._open())), id="open", markup=False)
            yield Static("Name of who signs:", id="ask", markup=False)
            yield Input(self.start, select_on_focus=False)
            yield Static("", id="message", classes="message", markup=False)
            yield FooterLine(self.NAME)

    def _open(self) -> list[str]:
        answered, skipped, left = self.sheet.counts()
        alarms = len(self.sheet.evaluation.alarms)
        rows = [f"{answered} points answered, {skipped} skipped with a reason, {left} left open."]
        if alarms:
            stand = "1 thing stands" if alarms == 1 else f"{alarms} things stand"
            rows.append(f"{stand} in the review to look at again.")
        if not self.sheet.session.summary.text:
            rows.append("No summary is written.")
        if self.sheet.ruleset.edition.outcomes and not self.sheet.session.summary.outcome:
            rows.append("No outcome is given.")
        rows.append("After the signature nothing is changed silently: a change is kept as an amendment.")
        return rows

    def typed(self) -> str:
        """The name."""
        return self.query_one(Input).value

    def say_typed(self, text: str) -> None:
        """Tell something under the name."""
        self.query_one("#message", Static).update(plain(text))

    def on_input_changed(self, event: Input.Changed) -> None:
        """Another name is asked about anew."""
        event.stop()
        if self.sure and event.value.strip() != self.sure:
            self.sure = ""
            self.query_one("#message", Static).update("")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """The first Enter asks once more, the second signs."""
        event.stop()
        name = event.value.strip()
        message = self.query_one("#message", Static)
        if not name:
            message.update("Type the name of who signs.")
        elif self.sure != name:
            self.sure = name
            message.update(plain(f"Sign as {name}? Enter once more signs, Esc goes back."))
        else:
            self.dismiss(name)
