"""How many keys a walk takes in a real terminal, and how long an operator needs for them.

    python -m tests.bench.keystrokes [--edition ID ...] [--walk WALK ...]

Walks of one dog are pressed into the program in a pseudo-terminal of 80 by 24: all as asked point by point;
six faults; the structure walk; by regions' sheets; with all takes. Each answer is pressed once the screen
shows its question, however long that takes. Keys are counted from the first point to the offer at the end of
the walk.

The operator's time is that of the keystroke-level model: Card, Moran, Newell, The keystroke-level model for
user performance time with interactive systems, Communications of the ACM 23(7):396-410, 1980. Its operators,
with the figures of that paper: K 0.28 s (an average typist who is no typist by trade, 40 words a minute),
H 0.40 s (the hand goes from one thing to another), M 1.35 s (to make up one's mind), R the time the program
keeps one waiting. Here an answer is M, its keys K each, and H twice: from the dog to the keypad and back.
R is what was measured in this run, so far as it is longer than the hand needs to go back.

Seconds at the dog are an assumption of ours, printed as such: nothing published was found.
"""

from __future__ import annotations

import argparse
import re
import signal
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import dialogue_for
from hands_on.exam.left_out import left_out
from hands_on.exam.likely import likely_range
from hands_on.exam.region_sheet import region_sheet, sheets
from hands_on.exam.session import Session, Take
from hands_on.exam.walk import Stop, stops
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, TeethPoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.session_file import read_session
from tests.terminal import terminal as real
from tests.terminal.terminal import Terminal
from tests.tui.driving import HOVAWART, LIBRARY, begun

K, H, M = 0.28, 0.40, 1.35
"""Seconds; Card, Moran, Newell 1980."""

AT_THE_DOG = {"grade": 4.0, "choice": 4.0, "scale": 10.0, "teeth": 30.0, "take": 15.0}
"""Assumed seconds that hand and eye are with the dog, by kind of point; of a measurement for each take."""

EDITIONS = (HOVAWART, "german-shepherd-fci-166", "poodle-fci-172", "border-terrier-fci-10", "any-dog")
"""A long walk, the one with most measurements, one of several sizes, a short one, and that for any dog."""

STRUCTURE_AT_MOST, SHEETS_AT_MOST = 60, 90
"""Keys asked for: the structure walk, and the whole walk by sheets, of a dog without faults."""


@dataclass
class Count:
    """What a walk took."""

    keys: int = 0
    answers: int = 0
    waited: float = 0.0
    """Seconds the program kept one waiting beyond the hand's way back."""
    dog: float = 0.0

    @property
    def operator(self) -> float:
        """Seconds by the keystroke-level model."""
        return self.keys * K + self.answers * (M + 2 * H) + self.waited


class Walker:
    """Presses a walk into the program, each key only when its question stands on the screen."""

    def __init__(self, terminal: Terminal, walk: tuple[Stop, ...]) -> None:
        self.terminal, self.walk, self.count = terminal, walk, Count()

    def press(self, keys: str, shows: Callable[[str], bool]) -> None:
        """Send the keys of one answer once the screen shows its question."""
        begun_at = time.monotonic()
        self.terminal.wait(lambda text: shows(" ".join(text.split())))
        self.count.waited += max(0.0, time.monotonic() - begun_at - H)
        self.terminal.send(keys)
        self.count.keys += len(keys)
        self.count.answers += 1

    def at(self, stop: Stop) -> Callable[[str], bool]:
        """Does the screen stand at a point?"""
        inside = [one.index for one in self.walk if one.region.id == stop.region.id]
        place = f"{stop.region.label}, point {inside.index(stop.index) + 1} of {len(inside)}"
        return lambda text: place in text

    def answer(self, stop: Stop, session: Session, ruleset: Ruleset, takes: int, fault: bool) -> Session:
        """Answer a point; the session with what was measured there."""
        keys = keys_for(stop, ruleset, takes, fault, session)
        self.press(keys, self.at(stop))
        if not isinstance(stop.point, MeasurePoint) or not takes:
            return session
        readings = [float(text.replace("+", ".5")) for text in keys.replace("*", "\r").split("\r") if text]
        rows = tuple(Take(point=stop.point.id, value=value) for value in readings)
        return session.model_copy(update={"takes": (*session.takes, *rows)})


def keys_for(stop: Stop, ruleset: Ruleset, takes: int, fault: bool, session: Session | None = None) -> str:
    """What answers a point and leads to the next, from a keypad; 0 takes leave a measurement open.

    A reading is the middle of what the edition asks of the dog as measured so far, as fine as the point's
    instrument is read (its `resolution`).
    """
    point = stop.point
    if isinstance(point, MeasurePoint):
        low, high = point.plausible
        likely = likely_range(ruleset, session, point) if session is not None else None
        asked = [end for end in likely.asked if end is not None] if likely is not None else []
        middle = sum(asked or (low, high)) / len(asked or (low, high))
        reading = f"{round(round(middle / point.resolution) * point.resolution, 6):g}"
        reading = re.sub(r"\.5$", "+", reading)  # and a half
        return f"{reading}\r" * (min(takes, point.takes) - 1) + f"{reading}*" if takes else "\r\r"
    if fault and isinstance(point, GradePoint):
        return departure(stop, ruleset)
    if isinstance(point, ChoicePoint) and not point.as_asked:
        number = next(n for n, option in enumerate(point.options, 1) if option.fault is None)
        return str(number) if len(point.options) < 10 else f"{number}\r"
    return "0"


def departure(stop: Stop, ruleset: Ruleset) -> str:
    """The first departure, moderate, of no side said, and on."""
    dialogue = dialogue_for(stop.point, ruleset, Answers(), None, "male")
    pressed = ""
    for key in "12":
        pressed += key
        dialogue.press(key)
    if "which side" in dialogue.prompt().ask:
        pressed += "0"
    return pressed + "0"


def seconds_at_dog(walk: list[Stop], takes: int) -> float:
    """What is assumed of the time at the dog itself."""
    total = 0.0
    for stop in walk:
        if isinstance(stop.point, MeasurePoint):
            total += AT_THE_DOG["take"] * min(takes, stop.point.takes)
        else:
            kind = "teeth" if isinstance(stop.point, TeethPoint) else stop.point.kind
            total += AT_THE_DOG[kind]
    return total


def walked(edition: str, walk: str, *, takes: int = 0, faults: int = 0, sheets: bool = False) -> Count:
    """One walk, from its first point to its end."""
    ruleset = LIBRARY.load(edition)
    with tempfile.TemporaryDirectory() as home:
        path = begun(Path(home) / "sessions", edition, walk)
        session = read_session(path)
        every = stops(ruleset, session)
        asked = [stop for stop in every if not left_out(session, stop.point)]
        arguments = ["examine", str(path), *(["--sheets"] if sheets else [])]
        walker = Walker(Terminal(arguments, Path(home), columns=80, lines=24), every)
        try:
            if sheets:
                by_sheets(walker, session, ruleset, takes)
            else:
                graded = [stop.index for stop in asked if isinstance(stop.point, GradePoint)]
                departing = set(graded[:: max(1, len(graded) // max(faults, 1))][:faults])
                for stop in asked:
                    session = walker.answer(stop, session, ruleset, takes, stop.index in departing)
            walker.terminal.wait("The end of the walk")
        finally:
            walker.terminal.kill(signal.SIGKILL)
        count = walker.count
    count.dog = seconds_at_dog(asked, takes)
    return count


def by_sheets(walker: Walker, session: Session, ruleset: Ruleset, takes: int) -> None:
    """0 at each region, then what stands alone."""
    for region in sheets(walker.walk, session):
        sheet = region_sheet(ruleset, session, walker.walk, region)
        title = f"{sheet.region.label}: What departs here?"
        walker.press("0", lambda text, title=title: title in text)  # type: ignore[misc]
        alone = [row.stop for row in sheet.stays_open]
        if not sheet.rest:
            walker.count.answers -= 1  # the key that opens is no answer of its own
        for stop in alone:
            session = walker.answer(stop, session, ruleset, takes, fault=False)


WALKS: dict[str, tuple[str, dict[str, Any], int | None]] = {
    "all as asked": ("whole", {}, None),
    "six faults": ("whole", {"faults": 6}, None),
    "structure": ("structure", {}, STRUCTURE_AT_MOST),
    "structure, by sheets": ("structure", {"sheets": True}, STRUCTURE_AT_MOST),
    "by sheets": ("whole", {"sheets": True}, SHEETS_AT_MOST),
    "by sheets, one take": ("whole", {"sheets": True, "takes": 1}, SHEETS_AT_MOST),
    "all takes": ("whole", {"takes": 9}, None),
}
"""Each walk: which points, how they are answered, how many keys it may take. Point by point unless by sheets;
measurements stay open unless takes are named."""


def main() -> None:
    """Print the counts."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--edition", nargs="+", default=EDITIONS)
    parser.add_argument(
        "--walk", nargs="+", choices=WALKS, default=list(WALKS), metavar="WALK", help=", ".join(WALKS)
    )
    options = parser.parse_args()
    real.DEADLINE = 180  # a busy machine is waited for; R tells how long
    print(f"K {K} s, H {H} s, M {M} s (Card, Moran, Newell 1980)")
    print(f"assumed at the dog: {', '.join(f'{kind} {s:g} s' for kind, s in AT_THE_DOG.items())}")
    for edition in options.edition:
        print(f"\n{edition}")
        print(
            f"{'walk':22} {'keys':>5} {'asked':>6} {'answers':>8} {'R':>6} {'operator':>9} {'at the dog':>11}"
        )
        for name in options.walk:
            print(told(edition, name), flush=True)


def told(edition: str, name: str) -> str:
    """The counts of one walk as a row; what the screen showed where it did not come to its end."""
    walk, how, at_most = WALKS[name]
    try:
        count = walked(edition, walk, **how)
    except AssertionError as stuck:
        return f"{name:22} stuck: {stuck}"
    wanted = "" if at_most is None else f"<={at_most}" if count.keys <= at_most else f"OVER {at_most}"
    return (
        f"{name:22} {count.keys:5} {wanted:>6} {count.answers:8} {count.waited:5.1f}s "
        f"{count.operator / 60:6.1f} min {count.dog / 60:7.1f} min"
    )


if __name__ == "__main__":
    main()
