"""The evaluator's word on a finding: it stands beside what was computed, with its reason."""

from __future__ import annotations

from typing import Protocol

from hands_on.evaluate.result import Finding
from hands_on.exam.dialogue import Line
from hands_on.exam.session import Decision
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.review_rows import ReviewRow
from hands_on.tui.session_screen import SessionScreen
from hands_on.wording.labels import label_words

__all__ = ["Deciding", "MayChange"]


class MayChange(Protocol):
    """Says on the screen why nothing can be changed, where that is so."""

    def __call__(self, *, after_signature: bool = False) -> bool:
        """May it be changed?"""


class Deciding:
    """Uphold, dismiss, count in another class, or take that back."""

    def __init__(self, screen: SessionScreen, can_change: MayChange) -> None:
        self.screen, self.can_change = screen, can_change

    @property
    def sheet(self) -> CurrentExamination:
        """The examination on the screen."""
        return self.screen.sheet

    def decide(self, row: ReviewRow, finding: Finding) -> None:
        """Uphold or dismiss the finding of a line."""
        if not self.can_change():
            return
        lines = [
            Line("1", "uphold: I found it and stand by it"),
            Line("2", "dismiss: it does not hold for this dog"),
            Line("3", "uphold it, in another class"),
            Line("0", "as the program has it: take my decision back"),
        ]
        ask = "Your word stands beside what was computed; both are kept."
        screen = NumberedScreen(row.text.strip(), ask, lines)
        self.screen.app.push_screen(screen, lambda key: self._decided(key, finding))

    def _decided(self, key: str | None, finding: Finding) -> None:
        if key == "0":
            for row in self.sheet.session.decisions:
                if (row.fault, row.side) == (finding.id, finding.side):
                    self.sheet.drop_decision(row)
            self.screen.say_here("Your decision is taken back.")
        elif key == "1":
            self._because(Decision(fault=finding.id, side=finding.side, decision="uphold"), "uphold it")
        elif key == "2":
            self._because(Decision(fault=finding.id, side=finding.side, decision="dismiss"), "dismiss it")
        elif key == "3":
            self._choose_class(finding)

    def _choose_class(self, finding: Finding) -> None:
        """The edition's classes, heaviest first."""
        classes = list(self.sheet.ruleset.classes.values())[::-1]
        lines = [Line(str(n), row.label, row.id == finding.cls) for n, row in enumerate(classes, 1)]

        def chosen(key: str | None) -> None:
            if key is not None:
                wanted = classes[int(key) - 1]
                decision = Decision.model_validate(
                    {"fault": finding.id, "side": finding.side, "decision": "uphold", "class": wanted.id}
                )
                self._because(decision, f"count it as: {wanted.label}")

        self.screen.app.push_screen(
            NumberedScreen(label_words(finding.named), "In which class?", lines), chosen
        )

    def _because(self, decision: Decision, words: str) -> None:
        """Ask for the reason; without one nothing is decided."""

        def put(reason: str | None) -> None:
            if reason:
                self.sheet.put_decision(decision.model_copy(update={"reason": reason}))
                self.screen.say_here(f"Decided: {words}.")

        self.screen.app.push_screen(
            TypedScreen(self.sheet.ruleset.label(decision.fault), f"Why do you {words}?"), put
        )
