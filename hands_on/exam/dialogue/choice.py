"""A choice among options."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Line, Step
from hands_on.exam.dialogue.departures import Graded, in_words, overlap
from hands_on.exam.session import Choice
from hands_on.ruleset.as_asked import right_options
from hands_on.ruleset.base import Sex, Side
from hands_on.ruleset.points import ChoicePoint, Option
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["ChoiceDialogue"]


class ChoiceDialogue(Graded[Choice]):
    """One option, or several where the point says so; 0 is the one asked for, where there is one."""

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
        said = ruleset.asked_at(point) is not None or point.id in ruleset.edition.seen
        self.right = right_options(ruleset.edition, point) if said else ()

    @property
    def rows(self) -> tuple[Choice, ...]:
        """What is recorded."""
        return self.answers.choices

    def with_rows(self, rows: Sequence[Choice]) -> Answers:
        """Answers of these rows."""
        return replace(self.answers, choices=tuple(rows), skip=None)

    def answer_lines(self) -> tuple[Line, ...]:
        """The options, numbered from 1, and 0."""
        options = tuple(self._line(n, option) for n, option in enumerate(self.options, 1))
        if self.rows:
            return (*options, Line("0", "nothing more"))
        if not self.point.as_asked:
            return options
        label = self._option(self.point.as_asked).label
        return (*options, Line("0", "as asked" if label == "As asked" else f"as asked: {label}"))

    def hint(self) -> str:
        """Says where no single option is asked for."""
        if not self.rows and not self.point.as_asked:
            what = "several answers are as asked" if self.right else "no single answer is asked for"
            return f"{what}: a number answers · * unsure"
        return super().hint()

    def _unknown(self, key: str, keys: list[str]) -> Step:
        if key == "0":
            self.refused = True
            what = "Several answers are as asked" if self.right else "No single answer is asked for"
            self.message = f"{what} here: choose {keys[0]} to {keys[-1]}."
            return STAY
        return super()._unknown(key, keys)

    def _line(self, number: int, option: Option) -> Line:
        rows = [row for row in self.answers.choices if option.id in row.choice]
        aside = "; ".join(in_words(row) for row in rows)
        if not rows and option.id in self.right and not self.point.as_asked:
            aside = "as asked"
        elif not rows and option.fault and self.ruleset.waived(option.fault):
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

    def as_asked(self) -> Step:
        """The option asked for."""
        return self.begin(self.point.as_asked)

    def answered(self, key: str) -> Step:
        """Take the option, unless a recorded finding would have to go for it."""
        option = self.options[int(key) - 1]
        for row in self.answers.choices:
            if self.fault(row) is None or option.id in row.choice:
                continue
            sides = self.asks_side(option.id) and row.side in ("left", "right")
            if not sides and not (self.point.several and (option.fault or option.beside)):
                return self.not_beside(self.words(row))
        return self.begin(option.id)

    def finish(self, side: Side | None) -> Step:
        """Record the option; a side for which another finding stands is refused."""
        option = self._option(self.pending)
        if not (self.point.several and (option.fault or option.beside)):
            for row in self.answers.choices[:-1] if self._half else self.answers.choices:
                other = self.fault(row) is not None and self.pending not in row.choice
                if other and overlap(row.side, side):
                    self.message = f"{self.words(row)} is recorded on that side: u takes it back first."
                    return STAY
        return super().finish(side)

    def row(self, side: Side | None) -> Choice:
        """The pending option as a row."""
        return Choice(
            point=self.point.id, choice=(self.pending,), degree=self.degree, side=side, status=self.status
        )

    def words(self, row: Choice) -> str:
        """Labels of the options, degree, side."""
        known = {option.id: option.label for option in self.point.options}
        names = (known.get(name, name) for name in row.choice)
        return ", ".join(part for part in (*names, in_words(row)) if part)

    def fault(self, row: Choice) -> str | None:
        """The fault of the first option that is one; what is asked for is none, whatever it is elsewhere."""
        faults = {
            option.id: option.fault for option in self.point.options if option.id != self.point.as_asked
        }
        return next((faults[name] for name in row.choice if faults.get(name)), None)

    def _marks(self, row: Choice) -> bool:
        """Is it a fault, or noted beside others?"""
        known = {option.id: option for option in self.point.options}
        return any(known[name].fault or known[name].beside for name in row.choice if name in known)

    def gives_way(self, row: Choice, new: Choice) -> bool:
        """The same option anew, and among options of which one holds those of the same side."""
        if set(row.choice) & set(new.choice):
            return overlap(row.side, new.side)
        if self.point.several:
            return not (self._marks(row) and self._marks(new))
        return overlap(row.side, new.side)
