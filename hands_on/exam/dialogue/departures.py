"""Departures with degree and side: the questions shared by graded points and choices."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, Literal, TypeVar, cast

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Line, Prompt, Recorded, Step
from hands_on.exam.dialogue.numbered import Numbered
from hands_on.exam.session import Choice, Grade, Status
from hands_on.ruleset.base import DEGREES, Degree, Sex, Side
from hands_on.ruleset.points import ChoicePoint, GradePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["NOTHING_MORE", "Graded", "in_words", "overlap"]

NOTHING_MORE = " 0 or Enter: nothing more here."

SIDES: tuple[Side, ...] = ("left", "right", "both")

Stage = Literal["answer", "degree", "side"]

Row = TypeVar("Row", bound=Grade | Choice)


class Graded(Numbered, Generic[Row]):
    """Answer, then degree, then side, where they apply.

    An answer is recorded as soon as it is chosen; degree and side are put into it as they are said. What is
    left, killed or jumped away from half-way is kept as that.
    """

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
        self._half = False
        """Is the newest row the pending answer, with what is known of it so far?"""
        self.sided: bool = getattr(point, "sides", False)
        self.ask = point.ask or point.label

    # --- what a kind of point says of itself

    @property
    def rows(self) -> tuple[Row, ...]:
        """What is recorded."""
        raise NotImplementedError

    def with_rows(self, rows: Sequence[Row]) -> Answers:
        """Answers of these rows."""
        raise NotImplementedError

    def row(self, side: Side | None) -> Row:
        """The pending answer as a row."""
        raise NotImplementedError

    def words(self, row: Row) -> str:
        """A row in words."""
        raise NotImplementedError

    def fault(self, row: Row) -> str | None:
        """The fault a row stands for; None for what is as asked."""
        raise NotImplementedError

    def gives_way(self, row: Row, new: Row) -> bool:
        """Does an earlier row make room for the new one?"""
        raise NotImplementedError

    def answer_lines(self) -> tuple[Line, ...]:
        """The answers of the first question."""
        raise NotImplementedError

    def answered(self, key: str) -> Step:
        """The first question was answered."""
        raise NotImplementedError

    def label(self, pending: str) -> str:
        """What was answered, in words."""
        raise NotImplementedError

    def asks_degree(self, pending: str) -> bool:
        """Does this answer need a degree?"""
        return True

    def asks_side(self, pending: str) -> bool:
        """Can this answer hold on one side alone?"""
        return self.sided

    def as_asked(self) -> Step:
        """0 where nothing is recorded yet."""
        raise NotImplementedError

    def can_hold(self, fault: str | None, sex: Sex | None) -> bool:
        """Can a dog of this sex have the fault? Yes where either is not known."""
        known = self.ruleset.faults.get(fault or "")
        return sex is None or known is None or known.only_sex in (None, sex)

    # --- the questions

    @property
    def busy(self) -> bool:
        """In the middle of an answer."""
        return bool(self.typed) or self.stage != "answer"

    @property
    def pending_fault(self) -> str | None:
        """The departure whose degree or side is being asked."""
        return None if self.stage == "answer" else self.fault(self.row(None))

    @property
    def status(self) -> Status:
        """The status of what is being recorded."""
        return "unsure" if self.unsure else "present"

    def recorded(self) -> tuple[Recorded, ...]:
        """Each row by itself."""
        rows: tuple[Row, ...] = self.rows
        return tuple(
            Recorded(self.words(row), self.with_rows((*rows[:n], *rows[n + 1 :])))
            for n, row in enumerate(rows)
        )

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
            ask, hint = f"{self.label(self.pending)}: how far?{doubt}", "1-4 degree · 0 not said · * unsure"
        elif self.stage == "side":
            ask = f"{self.label(self.pending)}, {self.degree or 'no degree'}: which side?{doubt}"
            hint = "the dog's own side · 0 both sides alike or not said"
        else:
            ask, hint = f"{self.ask}{doubt}", self.hint()
        return Prompt(ask, self.lines(), self.cursor, self.typed, False, "", hint, self.message)

    def hint(self) -> str:
        """What the keys do at the first question."""
        if self.rows:
            return "0 or Enter: nothing more, go on · number adds · u takes back · * unsure"
        return "0 as asked · number answers · * unsure"

    def take(self, key: str) -> Step:
        """Take one key."""
        if key == "*":
            self.unsure = not self.unsure
            return STAY
        if self.stage != "answer" and key in ("-", "left", "escape"):
            return self._back()
        step = self.pick(key)
        if step is not None:
            return step
        return self.navigate(key) or STAY

    def _back(self) -> Step:
        """A question back; what was chosen stays recorded as far as it was said."""
        if self.stage == "side" and self.asks_degree(self.pending):
            self.stage = "degree"
        else:
            kept = self.label(self.pending)
            self._begin_anew()
            self.message = f"{kept} stays recorded; u takes it back."
        self.cursor = None
        return STAY

    def choose(self, key: str) -> Step:
        """A line of the current question was chosen."""
        if self.stage == "answer":
            if key == "0":
                return self._nought()
            return self.answered(key)
        if self.stage == "degree":
            self.degree = DEGREES[int(key) - 1] if key != "0" else None
            if self.asks_side(self.pending):
                return self._ask("side")
            return self.finish(None)
        return self.finish(SIDES[int(key) - 1] if key != "0" else None)

    def _nought(self) -> Step:
        """As asked; after an answer nothing more."""
        if not self.rows:
            return self.as_asked()
        if not self.unsure or any(self.fault(row) is not None for row in self.rows):
            return Step("next")
        doubted = {"status": self.status, "at": None, "by": ""}
        rows = [cast("Row", row.model_copy(update=doubted)) for row in self.rows]
        self._begin_anew()
        return self.record(self.with_rows(rows), "Recorded: as asked, but unsure.", go_on=True)

    def confirm(self) -> Step:
        """Enter alone: go on from what is recorded; degree and side unsaid only when pressed twice."""
        if self.stage == "answer":
            return self.pass_on("0 is as asked, a number says what departs")
        if self._passing:
            self._passing = False
            return self.choose("0")
        self._passing = True
        needed = "1-4 say how far" if self.stage == "degree" else "1-3 say which side"
        self.message = f"{needed}; 0, or Enter once more, leaves it unsaid."
        return STAY

    def begin(self, pending: str) -> Step:
        """An answer was chosen: record it, and ask for what belongs to it."""
        self.pending, self.degree, self._half = pending, None, False
        if self.asks_degree(pending):
            return self._ask("degree")
        if self.asks_side(pending):
            return self._ask("side")
        return self.finish(None)

    def _ask(self, stage: Stage) -> Step:
        """Record what is known so far and ask on."""
        new = self.row(None)
        kept: tuple[Row, ...] = self.rows[:-1] if self._half else self.rows
        fault = self.fault(new)
        if not self._half and not self.sided and any(self.fault(row) == fault for row in kept):
            step = STAY  # it stands already; the degree is only changed once it is said
        else:
            kept = tuple(row for row in kept if self.fault(row) is not None or not self.gives_way(row, new))
            message = (
                f"Recorded: {self.words(new)}; {'degree' if stage == 'degree' else 'side'} not said yet."
            )
            step = self.record(self.with_rows((*kept, new)), message, go_on=False)
            self._half = True
        self.stage, self.cursor = stage, None
        return step

    def finish(self, side: Side | None) -> Step:
        """Answer, degree and side are known: record them."""
        new = self.row(side)
        others: tuple[Row, ...] = self.rows[:-1] if self._half else self.rows
        kept = tuple(row for row in others if not self.gives_way(row, new))
        answers = self.with_rows((*kept, new))
        plain = self.fault(new) is None and side not in ("left", "right")
        words = self.words(new)
        self._begin_anew()
        tail = "" if plain else NOTHING_MORE
        return self.record(answers, f"Recorded: {words}.{tail}", go_on=plain)

    def _begin_anew(self) -> None:
        self.stage, self.pending, self.degree = "answer", "", None
        self.unsure = self._half = False

    def take_back(self, number: int | None = None) -> Step:
        """Take back, and stand at the first question again."""
        self._begin_anew()
        return super().take_back(number)

    def not_beside(self, recorded: str) -> Step:
        """What was chosen cannot stand with what is recorded."""
        self.message = (
            f"{recorded} is recorded here and cannot stand with it: u (keypad . 8) takes it back first."
        )
        return STAY


def in_words(row: Grade | Choice) -> str:
    """Degree, side and doubt of a recorded row, and that it came with its region: `slight, left`."""
    words = [
        row.degree or "",
        row.side or "",
        "unsure" if row.status == "unsure" else "",
        "by region" if row.by_region else "",
    ]
    return ", ".join(word for word in words if word)


def overlap(one: Side | None, other: Side | None) -> bool:
    """Can two rows speak of the same side?"""
    return one in (None, "both") or other in (None, "both") or one == other
