"""A choice among options."""

from __future__ import annotations

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import Line, Step
from hands_on.exam.dialogue.departures import Graded, in_words
from hands_on.exam.session import Choice
from hands_on.ruleset.base import Sex, Side
from hands_on.ruleset.points import ChoicePoint, Option
from hands_on.ruleset.ruleset import Ruleset


class ChoiceDialogue(Graded):
    """One option, or several where the point says so."""

    def __init__(
        self, point: ChoicePoint, ruleset: Ruleset, answers: Answers, sex: Sex | None = None
    ) -> None:
        super().__init__(point, ruleset, answers)
        self.point = point
        recorded = {name for row in answers.choices for name in row.choice}
        self.options = tuple(
            option for option in point.options if option.id in recorded or self.can_hold(option.fault, sex)
        )
        """Those offered: what only the other sex can have is left out, unless it was recorded."""

    def answer_lines(self) -> tuple[Line, ...]:
        """The options, numbered from 1."""
        return tuple(self._line(n, option) for n, option in enumerate(self.options, 1))

    def _line(self, number: int, option: Option) -> Line:
        rows = [row for row in self.answers.choices if option.id in row.choice]
        aside = "; ".join(in_words(row) for row in rows)
        if not rows and option.fault and self.ruleset.waived(option.fault):
            aside = "no fault in this edition"
        return Line(str(number), option.label, bool(rows), aside)

    def _option(self, pending: str) -> Option:
        return next(option for option in self.point.options if option.id == pending)

    def label(self, pending: str) -> str:
        """The option's label."""
        return self._option(pending).label

    def asks_degree(self, pending: str) -> bool:
        """Only where the edition's class of this fault hangs on a degree the option does not give."""
        option = self._option(pending)
        if option.fault is None or option.degree is not None:
            return False
        return self.ruleset.class_hangs_on_degree(option.fault)

    def asks_side(self, pending: str) -> bool:
        """Where point and fault may differ left and right."""
        option = self._option(pending)
        fault = self.ruleset.faults.get(option.fault or "")
        return self.sided and fault is not None and fault.sides

    def answered(self, key: str) -> Step:
        """Take the option, or take it back where several may hold and it is recorded already."""
        option = self.options[int(key) - 1]
        rows = [row for row in self.answers.choices if option.id in row.choice]
        if self.point.several and rows:
            kept = tuple(row for row in self.answers.choices if option.id not in row.choice)
            return self.closed(Answers(choices=kept), f"Taken back: {option.label}.", go_on=False)
        self.pending = option.id
        return self.next_question("degree")

    def finish(self, side: Side | None) -> Step:
        """Record the option; one without a fault stands alone."""
        option = self._option(self.pending)
        choice = Choice(
            point=self.point.id, choice=(option.id,), degree=self.degree, side=side, status=self.status
        )
        kept: tuple[Choice, ...] = ()
        if option.fault and self.point.several:
            plain = {entry.id for entry in self.point.options if not entry.fault}
            kept = tuple(row for row in self.answers.choices if not plain.intersection(row.choice))
        elif side in ("left", "right"):
            other = "right" if side == "left" else "left"
            kept = tuple(row for row in self.answers.choices if row.side == other)
        more = bool(option.fault and self.point.several) or side in ("left", "right")
        tail = " Another number adds to it, Enter goes on." if more else ""
        words = ", ".join(part for part in (option.label, in_words(choice)) if part)
        return self.closed(Answers(choices=(*kept, choice)), f"Recorded: {words}.{tail}", go_on=not more)
