"""A graded point, and a scale with steps of its own."""

from __future__ import annotations

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import Line, Step
from hands_on.exam.dialogue.departures import Graded, in_words
from hands_on.exam.session import Grade
from hands_on.ruleset.base import Sex, Side
from hands_on.ruleset.points import GradePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset


class GradeDialogue(Graded):
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
        asked = Line("0", "as asked for", any(row.as_asked for row in rows))
        return (asked, *(self._line(n, fault) for n, fault in enumerate(self.departures, 1)))

    def _line(self, number: int, fault: str) -> Line:
        recorded = [row for row in self.answers.grades if row.fault == fault]
        aside = "; ".join(in_words(row) or "recorded" for row in recorded)
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

    def answered(self, key: str) -> Step:
        """0 records and goes on; a departure asks on."""
        if key == "0":
            grade = Grade(point=self.point.id, as_asked=True, status=self.status)
            return self.closed(Answers(grades=(grade,)), "Recorded: as asked for.", go_on=True)
        self.pending = self.departures[int(key) - 1]
        return self.next_question("degree")

    def finish(self, side: Side | None) -> Step:
        """Record the departure beside those that can stand with it."""
        grade = Grade(
            point=self.point.id, fault=self.pending, degree=self.degree, side=side, status=self.status
        )
        kept = tuple(row for row in self.answers.grades if _can_stand(row, grade, self.ruleset))
        more = len(self.departures) > 1 or (side in ("left", "right"))
        words = ", ".join(part for part in (self.ruleset.label(self.pending), in_words(grade)) if part)
        tail = " Another number adds to it, Enter goes on." if more else ""
        return self.closed(Answers(grades=(*kept, grade)), f"Recorded: {words}.{tail}", go_on=not more)


class ScaleDialogue(Graded):
    """A step of an ordered scale; its number is the answer."""

    def __init__(self, point: ScalePoint, ruleset: Ruleset, answers: Answers) -> None:
        super().__init__(point, ruleset, answers)
        self.point = point

    def answer_lines(self) -> tuple[Line, ...]:
        """The steps."""
        now = {row.step: row for row in self.answers.grades}
        asides = {step: in_words(row) for step, row in now.items()}
        return tuple(
            Line(str(step.value), step.label, step.value in now, asides.get(step.value, ""))
            for step in self.point.steps
        )

    def answered(self, key: str) -> Step:
        """Record the step and go on."""
        grade = Grade(point=self.point.id, step=int(key), status=self.status)
        return self.closed(Answers(grades=(grade,)), f"Recorded: {key}.", go_on=True)


def _can_stand(row: Grade, new: Grade, ruleset: Ruleset) -> bool:
    """Does an earlier row stay beside the new one?"""
    if row.as_asked or row.fault is None or new.fault is None:
        return False
    both = row.side in (None, "both") or new.side in (None, "both") or row.side == new.side
    if row.fault == new.fault:
        return not both
    known = ruleset.faults.get(new.fault)
    return not (both and known is not None and row.fault in known.opposite)
