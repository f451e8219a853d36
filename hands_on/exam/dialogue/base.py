"""What all dialogues share: prompt, keys, steps."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import Literal

from hands_on.exam.answers import Answers, without_answer

Follow = Literal["stay", "record", "next", "back", "skip", "jump", "explain"]

NAVIGATION: dict[str, Follow] = {"-": "back", "left": "back", "/": "jump", ".": "skip", "right": "next"}
"""Keys that mean the same at every point while nothing is being typed."""


@dataclass(frozen=True)
class Line:
    """One numbered answer that can be given."""

    key: str
    label: str
    recorded: bool = False
    """Already recorded at this point."""
    aside: str = ""
    """Said beside it: what is recorded, or that it is no fault in this edition."""


@dataclass(frozen=True)
class Prompt:
    """What the screen shows of the dialogue."""

    ask: str
    lines: tuple[Line, ...] = ()
    selected: int | None = None
    """Index of the line that Enter would take."""
    typed: str = ""
    """What has been typed so far; shown with a cursor when `typing`."""
    typing: bool = False
    """Letters go into the text and are no commands."""
    unit: str = ""
    hint: str = ""
    """What the keys do just now, in a few words."""
    message: str = ""
    """What the last key led to: what is odd, what was recorded."""


@dataclass(frozen=True)
class Step:
    """What follows from a key."""

    follow: Follow
    answers: Answers | None = None
    """With `record`: what now stands at the point."""
    go_on: bool = False
    """With `record`: then go to the next point."""


STAY = Step("stay")


class Dialogue(ABC):
    """The dialogue at one point."""

    def __init__(self, answers: Answers) -> None:
        self.answers = answers
        self.message = ""
        self.cursor: int | None = None
        self.typed = ""
        self.refused = False
        """The last key was a figure that no line has."""

    @abstractmethod
    def prompt(self) -> Prompt:
        """What to show now."""

    @abstractmethod
    def press(self, key: str) -> Step:
        """Take one key: a character, or `enter`, `backspace`, `escape`, `up`, `down`, `left`, `right`."""

    @property
    def busy(self) -> bool:
        """In the middle of an answer, so that letters and `-` belong to it."""
        return bool(self.typed)

    def take_back(self) -> Step:
        """Take back what is recorded here; takes stay on record as struck."""
        return self.record(without_answer(self.answers), "Taken back; nothing is recorded here.", go_on=False)

    def record(self, answers: Answers, message: str, *, go_on: bool) -> Step:
        """Note that `answers` now stand."""
        self.answers = answers
        self.message = message
        self.cursor = None
        self.typed = ""
        return Step("record", answers, go_on)

    def move_cursor(self, key: str, count: int) -> Step:
        """Up and down through `count` lines, round at the ends."""
        step = 1 if key == "down" else -1
        if count:
            start = -1 if self.cursor is None and step > 0 else (self.cursor or 0)
            self.cursor = (start + step) % count
        return STAY

    def navigate(self, key: str) -> Step | None:
        """The step for a key that means the same at every point, or None."""
        follow = NAVIGATION.get(key)
        return Step(follow) if follow else None
