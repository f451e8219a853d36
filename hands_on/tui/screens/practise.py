"""Practice: drawn dogs to be graded or estimated one by one, with what was drawn told afterwards."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from textual.app import ComposeResult
from textual.widgets import Input, Static

from hands_on.figure.practice import Answered, Exercise, learned
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.errors import StoreError
from hands_on.store.practice_file import add_answer, read_answers
from hands_on.tui import keys
from hands_on.tui.frame import Unasked
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.figure import Drawn, FigurePane
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.figure import VIEWS, exaggerated_words
from hands_on.wording.practice import NO_DOGS, learned_rows, nearness, question, read_answer


class PractiseScreen(Unasked[None]):
    """Each answer is kept as soon as it is given."""

    NAME = "practise"
    CSS_PATH = "practise.tcss"
    BINDINGS = keys.bindings("practise")

    def __init__(self, ruleset: Ruleset, exercises: Sequence[Exercise], seed: int, path: Path) -> None:
        super().__init__()
        self.ruleset, self.exercises, self.seed, self.path = ruleset, tuple(exercises), seed, path
        self.at = 0
        self.told = ""
        """What the last answer was worth; empty while one is asked for."""
        self.trouble = ""

    def compose(self) -> ComposeResult:
        """The figure, the question, a line for the answer, what it was worth."""
        yield TitleLine("Practise")
        yield FigurePane(legend=False)
        yield Static("", id="question", markup=False)
        yield Input(id="answer")
        yield Static("", id="told", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first figure."""
        self.query_one(Input).focus()
        self.show()

    def typed(self) -> str:
        """An answer that was not given yet."""
        return "" if self.told else self.query_one(Input).value.strip()

    def say_typed(self, text: str) -> None:
        """Tell something under the answer."""
        self.query_one("#told", Static).update(plain(text))

    @property
    def exercise(self) -> Exercise | None:
        """What is asked; None once the series is through."""
        return self.exercises[self.at] if self.at < len(self.exercises) else None

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the answer, or go on to the next figure."""
        event.stop()
        one = self.exercise
        if one is None:
            self.dismiss(None)
            return
        if self.told:
            self.told, self.at = "", self.at + 1
            event.input.value = ""
            self.show()
            return
        value = read_answer(one, event.value)
        if isinstance(value, str):
            self.query_one("#told", Static).update(plain(value))
            return
        answer = Answered(
            self.program.now().isoformat(), self.ruleset.id, self.seed, one.number, one.kind, one.about,
            one.truth, value, one.repeat_of,
        )  # fmt: skip
        self.trouble = ""
        try:
            add_answer(self.path, answer)
        except StoreError as error:
            self.trouble = f"Not kept: {error}"
        self.told = nearness(answer)
        self.show()

    def show(self) -> None:
        """The figure as it is now, or what was learned."""
        one = self.exercise
        title, figure = self.query_one(TitleLine), self.query_one(FigurePane)
        asked, told = self.query_one("#question", Static), self.query_one("#told", Static)
        if one is None:
            title.say(dotted("Practise", "what the answers tell"))
            figure.display = False
            told.update(plain("\n".join(self._learned())))
            asked.update(plain(f"The series is through. {NO_DOGS} Enter leaves."))
            return
        place = f"{self.at + 1} of {len(self.exercises)}"
        title.say(dotted("Practise", place, VIEWS[one.view], self.ruleset.edition.title))
        figure.show([Drawn("", self.ruleset, one.figure)], view=one.view)
        asked.update(plain(question(self.ruleset, one)))
        rows = [self.told, "Enter: on."] if self.told else [NO_DOGS, exaggerated_words(self.ruleset)]
        told.update(plain("\n".join([*rows, *([self.trouble] if self.trouble else [])])))

    def _learned(self) -> list[str]:
        try:
            answers = read_answers(self.path)
        except StoreError as error:
            return [f"The answers kept can't be read: {error}"]
        about = {one.about for one in self.exercises}
        return learned_rows(self.ruleset, [row for row in learned(answers) if row.about in about])
