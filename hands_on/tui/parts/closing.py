"""What ends an examination beside the signature: the summary in the evaluator's words, the outcome."""

from __future__ import annotations

from hands_on.exam.answers import amended
from hands_on.exam.dialogue import Line
from hands_on.exam.session import Summary
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.parts.deciding import MayChange
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.summary import SummaryScreen
from hands_on.tui.session_screen import SessionScreen
from hands_on.wording.outcome import outcome_reasons
from hands_on.wording.outlook import outlook_lines


class Closing:
    """Summary and outcome; after the signature both become amendments."""

    def __init__(self, screen: SessionScreen, can_change: MayChange) -> None:
        self.screen, self.can_change = screen, can_change

    @property
    def sheet(self) -> CurrentExamination:
        """The examination on the screen."""
        return self.screen.sheet

    def summary(self) -> None:
        """Write the summary."""
        if not self.can_change(after_signature=True):
            return
        text = self.sheet.summary_draft
        if text is None:
            text = amended(self.sheet.session).summary.text
        self.screen.app.push_screen(SummaryScreen(text, self._writing), self._written)

    def _writing(self, text: str) -> None:
        self.sheet.summary_draft = text

    def _written(self, text: str | None) -> None:
        if text is not None:
            self._put_summary(text=text)

    def outcome(self) -> None:
        """Choose the outcome among those that the dog's age leaves."""
        left = self.sheet.evaluation.outcomes
        outcomes = [row for row in self.sheet.ruleset.edition.outcomes if row.id in left]
        if not outcomes:
            self.screen.say_here("This edition has no outcomes.")
            return
        if not self.can_change(after_signature=True):
            return
        best = self.sheet.evaluation.outcome_at_most
        order = [row.id for row in outcomes]
        given = amended(self.sheet.session).summary.outcome
        lines = [
            Line(
                str(number),
                row.label,
                row.id == given,
                "above what the rules leave open"
                if best in order and order.index(row.id) < order.index(best)
                else "",
            )
            for number, row in enumerate(outcomes, 1)
        ]
        lines.append(Line("0", "no outcome"))
        told = (*outlook_lines(self.sheet.evaluation)[:1], *outcome_reasons(self.sheet.evaluation))
        reasons = "\n".join(told)
        screen = NumberedScreen("Outcome", "Which outcome do you give?", lines, message=reasons)

        def chosen(key: str | None) -> None:
            if key is not None:
                self._put_summary(outcome="" if key == "0" else order[int(key) - 1])

        self.screen.app.push_screen(screen, chosen)

    def _put_summary(self, text: str | None = None, outcome: str | None = None) -> None:
        now = amended(self.sheet.session).summary
        changed = {"text": text, "outcome": outcome}
        new: Summary = now.model_copy(
            update={key: value for key, value in changed.items() if value is not None}
        )
        if new == now:
            self.sheet.summary_draft = None if text is not None else self.sheet.summary_draft
            return

        def put(reason: str = "") -> None:
            saved = self.sheet.put_summary(new, reason)
            if text is not None:
                self.sheet.summary_draft = None
            self.screen.say_here("Kept." if saved else self.sheet.saved_state())

        def not_put() -> None:
            waits = " What you wrote waits: s takes it up." if self.sheet.summary_draft is not None else ""
            self.screen.say_here(f"Not changed.{waits}")

        if self.sheet.signed:
            self.screen.with_reason(put, not_put)
        else:
            put()
