"""The tooth chart, marked by Triadan number or by moving through it."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Dialogue, Line, Prompt, Recorded, Step
from hands_on.exam.session import Teeth
from hands_on.ruleset.dentition import TEETH, place_name
from hands_on.ruleset.points import TeethPoint

__all__ = ["MARKS", "ROWS", "SIGNS", "TeethDialogue"]

Mark = Literal["missing", "unseen", "worn", "broken", "extra", "milk"]

MARKS: tuple[Mark, ...] = ("missing", "unseen", "worn", "broken", "extra", "milk")
"""What can be marked on a tooth, in the order in which one key goes through them."""

SIGNS: dict[Mark, str] = {
    "missing": "-",
    "unseen": "?",
    "worn": "w",
    "broken": "b",
    "extra": "+",
    "milk": "m",
}
"""One sign for each, shown in the chart beside its word."""

ROWS: tuple[tuple[int, ...], ...] = (
    (*range(110, 100, -1), *range(201, 211)),
    (*range(411, 400, -1), *range(301, 312)),
)
"""The chart as seen from the front: the dog's right on the left, upper teeth above."""


class TeethDialogue(Dialogue):
    """Type a tooth's number and Enter to mark it, or move with the arrows."""

    def __init__(self, point: TeethPoint, answers: Answers) -> None:
        super().__init__(answers)
        self.point = point
        self.mark: Mark = "missing"
        self.at: int | None = None
        """The tooth the arrows stand on."""

    @property
    def teeth(self) -> Teeth:
        """The chart as recorded, or an empty one."""
        return self.answers.teeth or Teeth()

    def marks_on(self, tooth: int) -> tuple[Mark, ...]:
        """What is marked on a tooth."""
        return tuple(mark for mark in MARKS if tooth in getattr(self.teeth, mark))

    def prompt(self) -> Prompt:
        """What to show now; the screen draws the chart from `teeth`, `at` and `mark`."""
        marked = any(getattr(self.teeth, mark) for mark in MARKS)
        nought = "nothing more" if marked else "all 42 seen, none marked"
        lines = [Line("0", nought, self.answers.teeth is not None and not marked)]
        for mark in MARKS:
            numbers = getattr(self.teeth, mark)
            if numbers:
                named = ", ".join(f"{number} ({place_name(number)})" for number in numbers)
                lines.append(Line(SIGNS[mark], f"{mark}: {named}", True))
        where = f" Standing on {self.at}, {place_name(self.at)}." if self.at else ""
        ask = f"{self.point.ask or self.point.label} Marking: {self.mark}.{where}"
        nought = "0 nothing more" if marked else "0 all seen"
        hint = f"number, Enter marks · {nought} · * other mark · u takes a mark back"
        return Prompt(ask, tuple(lines), None, self.typed, False, "", hint, self.message)

    def take(self, key: str) -> Step:
        """Take one key."""
        if key == "0" and not self.typed:
            return self._nought()
        if len(key) == 1 and key.isascii() and key.isdigit():
            return self._digit(key)
        if key == "enter":
            return self._enter()
        if key in ("backspace", "escape"):
            self.typed = self.typed[:-1] if key == "backspace" else ""
            return STAY
        if key == "*":
            self.mark = MARKS[(MARKS.index(self.mark) + 1) % len(MARKS)]
            self.message = f"Now marking: {self.mark}."
            return STAY
        if key in ("up", "down", "left", "right"):
            return self._move(key)
        if self.typed:
            self.message = f"{self.typed}{key} is no tooth; Backspace takes a figure back."
            return STAY
        return self.navigate(key) or STAY

    def _digit(self, digit: str) -> Step:
        self.typed = (self.typed + digit)[:3]
        self.message = ""
        if self.typed.isascii() and self.typed.isdigit() and int(self.typed) in TEETH:
            self.message = f"{self.typed}: {place_name(int(self.typed))}. Enter marks it {self.mark}."
        return STAY

    def _enter(self) -> Step:
        typed, self.typed = self.typed, ""
        if typed:
            number = int(typed)
            if number not in TEETH:
                self.message = _no_tooth(number)
                return STAY
            return self._marked(number)
        if self.at is not None:
            return self._marked(self.at)
        return self.pass_on("0 is all 42 seen, a tooth's number marks it")

    def _nought(self) -> Step:
        """All teeth seen; after a mark, or when that is recorded already, nothing more."""
        if self.answers.teeth is not None:
            return Step("next")
        answers = replace(self.answers, teeth=Teeth(), skip=None)
        return self.record(answers, "Recorded: all 42 teeth seen.", go_on=True)

    def recorded(self) -> tuple[Recorded, ...]:
        """Each mark by itself, or the unmarked chart."""
        rows = []
        for mark in MARKS:
            numbers: tuple[int, ...] = getattr(self.teeth, mark)
            for tooth in numbers:
                left = tuple(number for number in numbers if number != tooth)
                rest = self.teeth.model_copy(update={mark: left, "at": None, "by": ""})
                words = f"{tooth}, {place_name(tooth)}: {mark}"
                rows.append(Recorded(words, replace(self.answers, teeth=rest)))
        if not rows and self.answers.teeth is not None:
            rows.append(Recorded("all 42 teeth seen", replace(self.answers, teeth=None)))
        return tuple(rows)

    def _marked(self, tooth: int) -> Step:
        """Mark the tooth; a mark that stands, or that cannot stand with the new one, is told."""
        name = f"{tooth}, {place_name(tooth)}"
        there = self.marks_on(tooth)
        if self.mark in there:
            self.message = f"{name}: marked {self.mark} already; u (keypad . 8) takes a mark back."
            return STAY
        against = [mark for mark in there if "milk" not in (mark, self.mark) and _exclude(mark, self.mark)]
        if against:
            self.message = f"{name} is marked {against[0]}: u (keypad . 8) takes that back first."
            return STAY
        numbers = tuple(sorted((*getattr(self.teeth, self.mark), tooth)))
        words = f"{name}: {self.mark}. 0 or Enter: nothing more."
        update: dict[str, object] = {self.mark: numbers, "at": None, "by": ""}
        at = self.at
        answers = replace(self.answers, teeth=self.teeth.model_copy(update=update), skip=None)
        step = self.record(answers, words, go_on=False)
        self.at = at
        return step

    def _move(self, key: str) -> Step:
        """Move through the chart; left and right at its ends leave it."""
        if self.at is None:
            if key in ("left", "right"):
                return Step("back" if key == "left" else "next")
            self.at = 101 if key == "up" else 401
            return STAY
        row = 0 if self.at in ROWS[0] else 1
        place = ROWS[row].index(self.at)
        if key in ("left", "right"):
            place += 1 if key == "right" else -1
            self.at = ROWS[row][place] if 0 <= place < len(ROWS[row]) else None
            return STAY
        wanted = 0 if key == "up" else 1
        if wanted == row:
            self.at = None
            return STAY
        shift = 1 if wanted == 1 else -1
        self.at = ROWS[wanted][min(max(place + shift, 0), len(ROWS[wanted]) - 1)]
        return STAY


def _exclude(one: Mark, other: Mark) -> bool:
    """A tooth that is missing or was not seen is nothing else."""
    return one in ("missing", "unseen") or other in ("missing", "unseen")


def _no_tooth(number: int) -> str:
    if number in (111, 211):
        return f"{number} does not exist in the dog: above there are two molars, to {number - 1}."
    return f"{number} is no tooth: 101-110, 201-210 above, 301-311, 401-411 below (1-3 incisors, 4 canine)."
