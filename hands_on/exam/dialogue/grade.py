"""A graded point, and a scale with steps of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Line, Step
from hands_on.exam.dialogue.departures import NOTHING_MORE, Graded, in_words, overlap
from hands_on.exam.session import Grade
from hands_on.ruleset.base import Sex, Side
from hands_on.ruleset.points import GradePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["GradeDialogue", "ScaleDialogue"]


class _GradeRows(Graded[Grade]):
    """Rows that are grades."""

    @property
    def rows(self) -> tuple[Grade, ...]:
        """What is recorded."""
        return self.answers.grades

    def with_rows(self, rows: Sequence[Grade]) -> Answers:
        """Answers of these rows."""
        return replace(self.answers, grades=tuple(rows), skip=None)


class GradeDialogue(_GradeRows):
    """0 as the standard asks, or a departure with its degree and side."""

    def __init__(self, point: GradePoint, ruleset: Ruleset, answers: Answers, sex: Sex | None = None) -> None:
        super().__init__(point, ruleset, answers)
        self.point = point
        recorded = {row.fault for row in answers.grades}
        self.departures = tuple(
            fault for fault in point.departures if fault in recorded or self.can_hold(fault, sex)
        )
        """Those that can hold in a dog of this sex, and what is recorded all the same."""

    def answer_lines(self) -> tuple[Line, ...]:
        """0 and the departures, with what is recorded."""
        rows = self.answers.grades
        found = any(row.fault for row in rows)
        given = [row for row in rows if row.as_asked]
        aside = in_words(given[0]) if given else ""
        asked = Line("0", "nothing more" if found else "as asked for", bool(given), aside)
        return (asked, *(self._line(n, fault) for n, fault in enumerate(self.departures, 1)))

    def _line(self, number: int, fault: str) -> Line:
        recorded = [row for row in self.answers.grades if row.fault == fault]
        aside = "; ".join(in_words(row) or "degree not said" for row in recorded)
        if not aside and self.ruleset.waived(fault):
            aside = "no fault in this edition"
        return Line(str(number), self.ruleset.label(fault), bool(recorded), aside)

    def label(self, pending: str) -> str:
        """The departure's label."""
        return self.ruleset.label(pending)

    def asks_side(self, pending: str) -> bool:
        """Where both point and fault may differ left and right."""
        fault = self.ruleset.faults.get(pending)
        return self.sided and fault is not None and fault.sides

    def as_asked(self) -> Step:
        """Record and go on."""
        grade = Grade(point=self.point.id, as_asked=True, status=self.status)
        self._begin_anew()
        return self.record(self.with_rows((grade,)), "Recorded: as asked for.", go_on=True)

    def answered(self, key: str) -> Step:
        """A departure; one whose opposite is recorded is refused."""
        fault = self.departures[int(key) - 1]
        against = self._against(fault)
        if against is not None:
            return self.not_beside(against)
        return self.begin(fault)

    def _against(self, fault: str, side: Side | None = None) -> str | None:
        """The label of a recorded departure that cannot stand with `fault`."""
        known = self.ruleset.faults.get(fault)
        for row in self.answers.grades:
            if known is None or row.fault is None or row.fault not in known.opposite:
                continue
            if row.side in (None, "both") or (side is not None and overlap(row.side, side)):
                return self.ruleset.label(row.fault)
        return None

    def finish(self, side: Side | None) -> Step:
        """Record the departure; a side on which the opposite is recorded is refused."""
        against = self._against(self.pending, side)
        if against is not None:
            self.message = f"{against} is recorded on that side: u takes it back first."
            return STAY
        return super().finish(side)

    def row(self, side: Side | None) -> Grade:
        """The pending departure."""
        return Grade(
            point=self.point.id, fault=self.pending, degree=self.degree, side=side, status=self.status
        )

    def words(self, row: Grade) -> str:
        """A row in words."""
        name = "as asked for" if row.fault is None else self.ruleset.label(row.fault)
        return ", ".join(part for part in (name, in_words(row)) if part)

    def fault(self, row: Grade) -> str | None:
        """The departure."""
        return row.fault

    def gives_way(self, row: Grade, new: Grade) -> bool:
        """As asked gives way to a departure, an earlier word on the same departure to a later one."""
        return row.fault is None or (row.fault == new.fault and overlap(row.side, new.side))


class ScaleDialogue(_GradeRows):
    """A step of an ordered scale; its number is the answer."""

    def __init__(self, point: ScalePoint, ruleset: Ruleset, answers: Answers) -> None:
        super().__init__(point, ruleset, answers)
        self.point = point

    def answer_lines(self) -> tuple[Line, ...]:
        """0 and the steps."""
        now = {row.step: row for row in self.answers.grades}
        asides = {step: in_words(row) for step, row in now.items()}
        steps = tuple(
            Line(str(step.value), step.label, step.value in now, asides.get(step.value, ""))
            for step in self.point.steps
        )
        if self.answers.grades:
            return (*steps, Line("0", "nothing more", any(row.as_asked for row in self.answers.grades)))
        right = " or ".join(map(str, self.point.right_steps))
        return (*steps, Line("0", f"as asked: {right}")) if right else steps

    def label(self, pending: str) -> str:
        """The step."""
        return f"step {pending}"

    def asks_degree(self, pending: str) -> bool:
        """The step says it all."""
        return False

    def as_asked(self) -> Step:
        """The step asked for; where several are right, only that it is one of them."""
        if len(self.point.right_steps) == 1:
            return self.begin(str(self.point.right_steps[0]))
        grade = Grade(point=self.point.id, as_asked=True, status=self.status)
        self._begin_anew()
        return self.record(self.with_rows((grade,)), "Recorded: as asked for.", go_on=True)

    def answered(self, key: str) -> Step:
        """The step; it takes the place of one that is no fault or is the same fault."""
        new = self._fault_of(int(key))
        for row in self.answers.grades:
            standing = self.fault(row)
            if standing is not None and standing != new:
                return self.not_beside(f"Step {row.step} ({self.ruleset.label(standing)})")
        step = self.begin(key)
        if step.go_on:
            self.message += NOTHING_MORE
        # A number never leads on: what is typed behind it (4.5) still belongs to this point.
        return replace(step, go_on=False)

    def row(self, side: Side | None) -> Grade:
        """The step as a row."""
        return Grade(point=self.point.id, step=int(self.pending), status=self.status)

    def words(self, row: Grade) -> str:
        """The step."""
        name = "as asked for" if row.as_asked else f"step {row.step}"
        return ", ".join(part for part in (name, in_words(row)) if part)

    def fault(self, row: Grade) -> str | None:
        """The fault of the step."""
        return None if row.step is None else self._fault_of(row.step)

    def _fault_of(self, value: int) -> str | None:
        return next((step.fault for step in self.point.steps if step.value == value), None)

    def gives_way(self, row: Grade, new: Grade) -> bool:
        """There is one step."""
        return True
