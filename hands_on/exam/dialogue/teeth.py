"""The tooth chart, marked by Triadan number or by moving through it."""

from __future__ import annotations

from typing import Literal

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Dialogue, Line, Prompt, Step
from hands_on.exam.session import Teeth
from hands_on.ruleset.dentition import TEETH, place_name
from hands_on.ruleset.points import TeethPoint

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
        lines = [Line("0", "all 42 seen, none marked", self.answers.teeth == _unmarked(self.answers.teeth))]
        for mark in MARKS:
            numbers = getattr(self.teeth, mark)
            if numbers:
                named = ", ".join(f"{number} ({place_name(number)})" for number in numbers)
                lines.append(Line(SIGNS[mark], f"{mark}: {named}", True))
        where = f" Standing on {self.at}, {place_name(self.at)}." if self.at else ""
        ask = f"{self.point.ask or self.point.label} Marking: {self.mark}.{where}"
        hint = "number, Enter marks · 0 Enter none · * other mark · Enter goes on"
        return Prompt(ask, tuple(lines), None, self.typed, False, "", hint, self.message)

    def press(self, key: str) -> Step:
        """Take one key."""
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
        if typed == "0":
            note = self.teeth.note
            return self.record(Answers(teeth=Teeth(note=note)), "Recorded: all 42 teeth seen.", go_on=True)
        if typed:
            number = int(typed)
            if number not in TEETH:
                self.message = _no_tooth(number)
                return STAY
            return self._toggle(number)
        if self.at is not None:
            return self._toggle(self.at)
        return Step("next")

    def _toggle(self, tooth: int) -> Step:
        """Mark the tooth, or take the mark off."""
        now: tuple[int, ...] = getattr(self.teeth, self.mark)
        if tooth in now:
            numbers = tuple(number for number in now if number != tooth)
            words = f"{tooth}, {place_name(tooth)}: no longer {self.mark}."
        else:
            numbers = tuple(sorted((*now, tooth)))
            words = f"{tooth}, {place_name(tooth)}: {self.mark}."
        update: dict[str, object] = {self.mark: numbers, "at": None, "by": ""}
        if self.mark in ("missing", "unseen") and tooth not in now:
            for other in MARKS:
                if other != self.mark and other != "milk":
                    update[other] = tuple(n for n in getattr(self.teeth, other) if n != tooth)
        at = self.at
        step = self.record(Answers(teeth=self.teeth.model_copy(update=update)), words, go_on=False)
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


def _unmarked(teeth: Teeth | None) -> Teeth | None:
    """The same chart with no tooth marked, for comparison."""
    if teeth is None:
        return Teeth(note="not recorded")
    return teeth.model_copy(update=dict.fromkeys(MARKS, ()))


def _no_tooth(number: int) -> str:
    if number in (111, 211):
        return f"{number} does not exist in the dog: above there are two molars, to {number - 1}."
    return f"{number} is no tooth: 101-110, 201-210 above, 301-311, 401-411 below (1-3 incisors, 4 canine)."
