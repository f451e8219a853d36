"""What all dialogues share: prompt, keys, steps."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Literal

from hands_on.exam.answers import Answers, without_answer
from hands_on.frozen import dataclass

__all__ = ["STAY", "Dialogue", "Line", "Prompt", "Recorded", "Step"]

Follow = Literal[
    "stay", "record", "next", "back", "skip", "jump", "measures", "explain", "open", "in turn", "rest"
]
"""What a key leads to. At a region's sheet: `open` shows a point, `in turn` one after the other those that
have no answer, `rest` gives the others as asked."""

NAVIGATION: dict[str, Follow] = {
    "-": "back",
    "left": "back",
    "/": "jump",
    ".": "skip",
    ",": "skip",
    "right": "next",
    "+": "measures",
}
"""Keys that mean the same at every point while nothing is being typed; some keypads have a comma there."""


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
    stop: int | None = None
    """With `open` and `in turn`: the index of the stop."""


STAY = Step("stay")


@dataclass(frozen=True)
class Recorded:
    """One thing recorded at a point, and what stands without it."""

    words: str
    without: Answers


TAKEN_BACK = "Taken back; nothing is recorded here."


class Dialogue(ABC):
    """The dialogue at one point.

    One grammar everywhere: 0 is as asked or, after an answer, nothing more; digits choose; Enter goes on from
    what is recorded and passes an open question only when pressed twice. No answer removes a recorded
    finding; only taking it back does.
    """

    def __init__(self, answers: Answers) -> None:
        self.answers = answers
        self.message = ""
        self.cursor: int | None = None
        self.typed = ""
        self.refused = False
        """The last key was a figure that no line has."""
        self._passing = False
        """Enter was pressed at a question that is still open."""

    @abstractmethod
    def prompt(self) -> Prompt:
        """What to show now."""

    def press(self, key: str) -> Step:
        """Take one key: a character, or `enter`, `backspace`, `escape`, `up`, `down`, `left`, `right`."""
        if key != "enter":
            self._passing = False
        return self.take(key)

    @abstractmethod
    def take(self, key: str) -> Step:
        """What a key does at this kind of point."""

    def pass_on(self, needed: str) -> Step:
        """Enter with nothing typed: on from an answer or a skip; an open point is left by the second press.

        `needed` names the answers there are.
        """
        if self.answers.given or self.answers.skip is not None or self._passing:
            return Step("next")
        self._passing = True
        self.message = f"Nothing is recorded here: {needed}. Enter once more leaves it open."
        return STAY

    def recorded(self) -> tuple[Recorded, ...]:
        """What is recorded here and can be taken back, each thing by itself."""
        return ()

    @property
    def busy(self) -> bool:
        """In the middle of an answer, so that letters and `-` belong to it."""
        return bool(self.typed)

    def take_back(self, number: int | None = None) -> Step:
        """Take back one thing of `recorded`, or all that is recorded here; takes stay on record as struck."""
        if number is None:
            return self.record(without_answer(self.answers), TAKEN_BACK, go_on=False)
        gone = self.recorded()[number]
        return self.record(gone.without, f"Taken back: {gone.words}.", go_on=False)

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
