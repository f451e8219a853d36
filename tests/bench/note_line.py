"""How soon a key in the note line is answered, with every edition's wording loaded.

    python -m tests.bench.note_line [keys]

Types notes key by key into the scribe's line of the running app (no terminal behind it) and prints
percentiles: of reading alone, of the work in the line, of all work the program does for a key (processor
time), and of the time until the screen is drawn, which includes waiting for the next frame. The last two
also for an app with nothing but a text area, as a measure of what a key costs in any case.
"""

from __future__ import annotations

import asyncio
import itertools
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from textual.app import App, ComposeResult
from textual.events import Key
from textual.keys import _character_to_key
from textual.widgets import Static, TextArea

from hands_on.exam.heard.hands import Draft
from hands_on.notes import read_note
from hands_on.tui.widgets.note_line import NoteLine, NoteText
from hands_on.tui.widgets.understood import Understood
from tests.bench.load import shipped_lexicon
from tests.tui.driving import LIBRARY, begun, sitting

NOTES = (
    "withers 64.5, chest to the elbow, a touch steep in shoulder, no cow hocks",
    "elbows and feet both turning out, left pastern weak, maybe a bit roached; neither over- nor undershot",
    'ht 25 1/2", weighs 32 kilos, tail about six inches, hocks long and cow-hocked ++, hard to say: bite',
    "sl. roachd behind the wthrs, crup falls off badly, tail gay, off hind turns out, ears set on too low",
    "lovely expression, moves freely, very honest, would like to see him again in a year. eye rather light",
)
"""Calls of a usual length, invented, with slips and shorthand."""


class Clock:
    """Times for one key."""

    def __init__(self) -> None:
        self.spent = 0.0
        self.done = asyncio.Event()
        self.work: list[float] = []
        self.processor: list[float] = []
        self.drawn: list[float] = []

    def timed(self, function: Callable[..., Any], *, after: Callable[[], None] = lambda: None) -> Any:
        """`function`, its time counted."""

        def timed(*arguments: Any) -> Any:
            begin = time.perf_counter()
            result = function(*arguments)
            self.spent += time.perf_counter() - begin
            after()
            return result

        return timed

    async def press(self, text: TextArea, character: str) -> None:
        """Press a key and wait until the screen is drawn."""
        self.done.clear()
        self.spent = 0.0
        begin, used = time.perf_counter(), time.process_time()
        text.post_message(Key(_character_to_key(character), character))
        await self.done.wait()
        self.drawn.append(time.perf_counter() - begin)
        self.processor.append(time.process_time() - used)
        self.work.append(self.spent)


class Plain(App[None]):
    """A text area and a line that tells how long its text is."""

    def __init__(self, clock: Clock) -> None:
        super().__init__()
        self.clock = clock

    def compose(self) -> ComposeResult:
        """Text and line."""
        yield TextArea(compact=True)
        yield Static("", id="told")

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """Tell something."""
        self.query_one("#told", Static).update(str(len(event.text_area.text)))
        self.call_after_refresh(self.clock.done.set)


def keys() -> Iterator[str]:
    """Characters without end; a line break after each note."""
    for note in itertools.cycle(NOTES):
        yield from note
        yield "\n"


def told(name: str, seconds: list[float]) -> None:
    """Print percentiles in milliseconds."""
    rows = sorted(seconds)
    places = [rows[min(len(rows) - 1, int(share * len(rows)))] * 1000 for share in (0.5, 0.9, 0.99, 1.0)]
    print(f"  {name:40}" + "".join(f"{place:9.2f}" for place in places))


async def plain(count: int) -> Clock:
    """Keys into an app that reads nothing."""
    clock = Clock()
    app = Plain(clock)
    async with app.run_test(size=(160, 45)) as pilot:
        text = app.query_one(TextArea)
        for character in itertools.islice(keys(), count):
            if character == "\n":
                text.text = ""
                await pilot.pause()
            else:
                await clock.press(text, character)
    return clock


async def in_the_line(folder: Path, count: int) -> tuple[Clock, list[float]]:
    """Keys into the scribe's line; its clock, and how long the reading alone takes."""
    clock, lexicon = Clock(), shipped_lexicon()
    reading: list[float] = []
    begun(folder)
    async with sitting(folder, size=(160, 45)) as table:
        await table.press("g", "c")
        await table.settle()
        screen: Any = table.app.screen
        screen.sheet.lexicon = lexicon
        line: Any = screen.query_one(NoteLine)
        understood: Any = line.query_one(Understood)
        line.show = clock.timed(line.show, after=lambda: screen.call_after_refresh(clock.done.set))
        understood.render = clock.timed(understood.render)
        for character in itertools.islice(keys(), count):
            if character == "\n":
                line.fill(Draft())
                await table.pilot.pause()
                continue
            await clock.press(line.query_one(NoteText), character)
            begin = time.perf_counter()
            read_note(line.text, lexicon)
            reading.append(time.perf_counter() - begin)
    return clock, reading


def main() -> None:
    """Run both and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 600
    nothing = asyncio.run(plain(count))
    with tempfile.TemporaryDirectory() as name:
        clock, reading = asyncio.run(in_the_line(Path(name) / "sessions", count))
    print(f"{len(clock.work)} keys, wording of {len(LIBRARY.heads())} editions; milliseconds")
    print(f"  {'':40}" + "".join(f"{head:>9}" for head in ("50 %", "90 %", "99 %", "most")))
    told("reading the note", reading)
    told("in the line: reading, changes, content", clock.work)
    told("all work for a key", clock.processor)
    told("  of an app with a text area alone", nothing.processor)
    told("until drawn, frame awaited", clock.drawn)
    told("  by an app with a text area alone", nothing.drawn)


if __name__ == "__main__":
    main()
