"""Departures with degree and side: the questions shared by graded points and choices."""

from __future__ import annotations

from typing import Literal

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Line, Prompt, Step
from hands_on.exam.dialogue.numbered import Numbered
from hands_on.exam.session import Choice, Grade, Status
from hands_on.ruleset.base import DEGREES, Degree, Sex, Side
from hands_on.ruleset.points import ChoicePoint, GradePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset

SIDES: tuple[Side, ...] = ("left", "right", "both")

Stage = Literal["answer", "degree", "side"]


class Graded(Numbered):
    """Answer, then degree, then side, where they apply."""

    def __init__(
        self, point: GradePoint | ChoicePoint | ScalePoint, ruleset: Ruleset, answers: Answers
    ) -> None:
        super().__init__(answers)
        self.ruleset = ruleset
        self.stage: Stage = "answer"
        self.unsure = False
        self.pending = ""
        """What was answered, while degree and side are still asked."""
        self.degree: Degree | None = None
        self.sided: bool = getattr(point, "sides", False)
        self.ask = point.ask or point.label

    def answer_lines(self) -> tuple[Line, ...]:
        """The answers of the first question."""
        raise NotImplementedError

    def answered(self, key: str) -> Step:
        """The first question was answered."""
        raise NotImplementedError

    def finish(self, side: Side | None) -> Step:
        """Answer, degree and side are known: record them."""
        raise NotImplementedError

    def label(self, pending: str) -> str:
        """What was answered, in words."""
        raise NotImplementedError

    def can_hold(self, fault: str | None, sex: Sex | None) -> bool:
        """Can a dog of this sex have the fault? Yes where either is not known."""
        known = self.ruleset.faults.get(fault or "")
        return sex is None or known is None or known.only_sex in (None, sex)

    @property
    def busy(self) -> bool:
        """In the middle of an answer."""
        return bool(self.typed) or self.stage != "answer"

    @property
    def status(self) -> Status:
        """The status of what is being recorded."""
        return "unsure" if self.unsure else "present"

    def lines(self) -> tuple[Line, ...]:
        """The answers to the current question."""
        if self.stage == "degree":
            return (*(Line(str(n), word) for n, word in enumerate(DEGREES, 1)), Line("0", "degree not said"))
        if self.stage == "side":
            return (*(Line(str(n), word) for n, word in enumerate(SIDES, 1)), Line("0", "side not said"))
        return self.answer_lines()

    def prompt(self) -> Prompt:
        """What to show now."""
        doubt = "  (unsure: to be seen again)" if self.unsure else ""
        if self.stage == "degree":
            ask, hint = f"{self.label(self.pending)}: how far?{doubt}", "1-4 degree · * unsure · - back"
        elif self.stage == "side":
            ask = f"{self.label(self.pending)}, {self.degree or 'no degree'}: which side?{doubt}"
            hint = "the dog's own side · Enter both sides alike or not said · - back"
        else:
            ask, hint = f"{self.ask}{doubt}", "number answers · Enter goes on · * unsure"
        return Prompt(ask, self.lines(), self.cursor, self.typed, False, "", hint, self.message)

    def press(self, key: str) -> Step:
        """Take one key."""
        if key == "*":
            self.unsure = not self.unsure
            return STAY
        if self.stage != "answer" and key in ("-", "left", "escape"):
            self.stage = "degree" if self.stage == "side" and self.asks_degree(self.pending) else "answer"
            self.cursor = None
            return STAY
        step = self.pick(key)
        if step is not None:
            return step
        return self.navigate(key) or STAY if self.stage == "answer" else STAY

    def asks_degree(self, pending: str) -> bool:
        """Does this answer need a degree?"""
        return True

    def asks_side(self, pending: str) -> bool:
        """Can this answer hold on one side alone?"""
        return self.sided

    def choose(self, key: str) -> Step:
        """A line of the current question was chosen."""
        if self.stage == "answer":
            return self.answered(key)
        if self.stage == "degree":
            self.degree = DEGREES[int(key) - 1] if key != "0" else None
            return self.next_question("side")
        return self.finish(SIDES[int(key) - 1] if key != "0" else None)

    def confirm(self) -> Step:
        """Enter alone: no degree, no side, or go on."""
        if self.stage == "answer":
            return Step("next")
        return self.choose("0")

    def next_question(self, stage: Stage) -> Step:
        """Ask for the degree or the side where they apply, else record."""
        self.cursor = None
        if stage == "degree" and self.asks_degree(self.pending):
            self.stage = "degree"
            return STAY
        if self.asks_side(self.pending):
            self.stage = "side"
            return STAY
        return self.finish(None)

    def closed(self, answers: Answers, message: str, *, go_on: bool) -> Step:
        """Record and stand at the first question again."""
        self.stage, self.pending, self.degree, self.unsure = "answer", "", None, False
        return self.record(answers, message, go_on=go_on)


def in_words(row: Grade | Choice) -> str:
    """Degree, side and doubt of a recorded row: `slight, left`."""
    words = [row.degree or "", row.side or "", "unsure" if row.status == "unsure" else ""]
    return ", ".join(word for word in words if word)
