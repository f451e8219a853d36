"""Random keys and pastes on every screen: does any of them end in anything but a screen?

    python -m tests.bench.random_keys [--keys 2000] [--only scribe] [--seed 1]

Every screen is opened on copies of the demo's sessions and gets so many keys, in bursts that run ahead of it.
Where the keys lead elsewhere they go on there; once the screen is left for good it is opened again. Every
session's file must be readable afterwards. Exit code 1 if a screen ended in an error, or stands still.
"""

from __future__ import annotations

import argparse
import asyncio
import random
import sys
import tempfile
import time
import traceback
from collections import deque
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from textual.events import Key, Paste
from textual.keys import _character_to_key

from hands_on.compare.examined import Examined
from hands_on.notes import OwnWords
from hands_on.store import places
from hands_on.store.new_edition import begin
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.store.session_file import read_session
from hands_on.tui import asks
from hands_on.tui.screens.too_small import LEAST_WIDTH
from tests.tui.demo import BRUMO, BRUMO_BY_ANOTHER, FENJA, FENJA_BY_ANOTHER, TOVIK, copied, demo, held
from tests.tui.driving import HOVAWART, LIBRARY, Sitting, begun, sitting
from tests.tui.settling import settle_by_queues

CHARACTERS = "0123456789" * 3 + "abcdefghijklmnoprstuvwxyz.,-+*/?²٣½'\"[]=ß"
NAMES = (
    *("enter",) * 6, *("up", "down", "left", "right") * 2, "backspace", "delete", "tab", "shift+tab", "home",
    "end", "pageup", "pagedown", "space", "f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "ctrl+n",
    "ctrl+t", "ctrl+s", "ctrl+d", "ctrl+r", "ctrl+a", "ctrl+k", "ctrl+w",
)  # fmt: skip
LEAVING = ("escape", "escape", "q", "ctrl+q")
PASTES = (
    "withers 64.5, a touch steep in shoulder", "²", "\x1b[2J\x1b]0;x\x07", "[b]bold[/b] [/x]", "=cmd()",
    "\t\n\n", "9" * 400, "68,5\r\n70\r\n", "\ud800", "1/2", "~nosuchuser/x.toml", "x" * 300, "", "-1e999",
)  # fmt: skip
BURSTS = (1, 2, 3, 5, 8, 13)
"""So many keys at once, before the program gets to the first."""
STILL = 120.0
"""Seconds in which a screen has to be done with a burst."""


class Stage:
    """The program on a folder of sessions, and what openers need of it."""

    def __init__(self, table: Sitting, folder: Path, chance: random.Random) -> None:
        self.table, self.folder, self.chance = table, folder, chance
        self.app = table.app
        self.opened = 0

    async def go(self, ask: asks.Ask, *keys: str) -> None:
        """Ask for a screen, then press keys."""
        self.app.go(ask)
        await self.table.settle()
        await self.press(*keys)

    async def press(self, *keys: str) -> None:
        """Press keys one after the other."""
        for key in keys:
            await self.table.press(key)
            await self.table.settle()

    async def walk(self, *keys: str, **parts: object) -> None:
        """A session just begun, at any point of its walk."""
        await self.go(asks.OpenFile(begun(self.folder, **parts)))
        walk = self.table.walk
        walk.go_to(self.chance.choice(walk.sheet.stops).index)
        await self.press(*keys)

    def unsigned(self) -> Path:
        """A copy of an examination that was all but signed."""
        self.opened += 1
        (path,) = demo(self.folder, BRUMO)
        copy = copied(path, self.folder / f"copy-{self.opened}.toml")
        copy.write_text(path.read_text("utf-8").partition("[signature]")[0], "utf-8")
        return copy

    async def review(self, *keys: str) -> None:
        """What was found in an examination that was all but signed."""
        await self.go(asks.OpenFile(self.unsigned()))
        if self.table.screen_name != "ReviewScreen":
            await self.press("r")
        await self.press(*keys)

    async def edition(self, *keys: str) -> None:
        """An edition being written."""
        self.opened += 1
        own = self.app.own_rulesets / f"own-{self.opened}.toml"
        begin(own.stem, self.app.library.heads(), None, own)
        await self.go(asks.WriteEdition(own, lambda: None), *keys)

    async def standard_text(self) -> None:
        """A standard's text with its proposals."""
        await self.edition("2", "2")
        self.app.post_message(Paste(TEXT.read_text("utf-8")))
        await self.table.settle()
        await self.press("f2")

    async def host(self, *keys: str) -> None:
        """A round being set up."""
        await self.go(asks.SeminarRound(), "1")
        await self.table.type("hovawart")
        await self.press("enter", *keys)

    async def round(self) -> None:
        """A round, with another evaluator's sessions to be gathered."""
        path = self.folder.parent / "spring.toml"
        path.write_text(ROUND, "utf-8")
        await self.go(asks.OpenFile(path), "escape")

    async def projector(self) -> None:
        """Two dogs in large letters."""
        await self.go(asks.ShowSideBySide(self.two()), "p")

    async def message(self) -> None:
        """Something that must be read."""
        self.app.say("A message", "[b]text[/b] " * 300)
        await self.table.settle()

    async def small(self) -> None:
        """A terminal in which nothing fits; it grows again when the keys are through."""
        await self.table.pilot.resize_terminal(30, 5)
        await self.table.settle()

    async def own_words(self) -> None:
        """Two phrases of the evaluator's own."""
        file = OwnWordsFile(places.own_words_path(self.folder))
        own = {"like a plank": "back.roached", "a bit off": "movement.lame"}
        file.remember(OwnWords(said=said, means=means) for said, means in own.items())
        await self.go(asks.OwnWordsList())

    def two(self) -> list[Examined]:
        """Two examined dogs."""
        return held(demo(self.folder, BRUMO, FENJA))

    def several(self) -> list[Examined]:
        """Two dogs by two evaluators."""
        return held(demo(self.folder, BRUMO, FENJA, BRUMO_BY_ANOTHER, FENJA_BY_ANOTHER))

    def signed(self) -> Path:
        """An examination that was signed."""
        return demo(self.folder, TOVIK)[0]

    def twice(self) -> Path:
        """An examination of a dog that was examined before."""
        path = self.signed()
        copied(path, self.folder / "2025-07-01-tovik.toml", ("2025-09-19", "2025-07-01"))
        return path

    def all(self) -> list[Path]:
        """Every demo session."""
        return demo(self.folder)


TEXT = Path(__file__).parents[1] / "data" / "standards" / "tarn-spaniel.txt"
ROUND = """
format = 1
[round]
id = "spring"
title = "Spring"
[ruleset]
id = "hovawart-fci-190"
[[dogs]]
number = "1"
call_name = "Arko"
sex = "male"
born = 2023-05-14
[[dogs]]
number = "2"
sex = "female"
"""


@dataclass(frozen=True)
class Way:
    """Where keys are pressed: the class of the screen, and what leads to it."""

    screen: str
    open: Callable[[Stage], Awaitable[None]]


SCREENS: dict[str, Way] = {
    "start": Way("StartScreen", lambda at: at.press()),
    "too small": Way("TooSmallScreen", lambda at: at.small()),
    "help": Way("HelpScreen", lambda at: at.go(asks.Help("walk"))),
    "a message": Way("ReadingScreen", lambda at: at.message()),
    "records": Way("RecordsScreen", lambda at: at.go(asks.Records())),
    "editions": Way("EditionsScreen", lambda at: at.go(asks.Editions())),
    "own words": Way("OwnWordsScreen", lambda at: at.own_words()),
    "choose edition": Way("ChooseEdition", lambda at: at.go(asks.NewExamination())),
    "new dog": Way("DogScreen", lambda at: at.go(asks.NewExamination(HOVAWART))),
    "cautions": Way("CautionsScreen", lambda at: at.go(asks.OpenFile(begun(at.folder, cautions=())))),
    "walk": Way("WalkScreen", lambda at: at.walk()),
    "walk, signed": Way("WalkScreen", lambda at: at.go(asks.OpenFile(at.signed()), "w")),
    "note": Way("WalkScreen", lambda at: at.walk("n")),
    "save elsewhere": Way("TypedScreen", lambda at: at.walk("f6")),
    "fault": Way("FaultScreen", lambda at: at.walk("f")),
    "point drawn": Way("PointFigureScreen", lambda at: at.walk("k")),
    "dog drawn": Way("FigureScreen", lambda at: at.walk("l")),
    "scribe": Way("ScribeScreen", lambda at: at.walk("c")),
    "sheet": Way("SheetScreen", lambda at: at.go(asks.OpenFile(begun(at.folder), sheets=True))),
    "review": Way("ReviewScreen", lambda at: at.review()),
    "review, signed": Way("ReviewScreen", lambda at: at.go(asks.OpenFile(at.signed()))),
    "summary": Way("SummaryScreen", lambda at: at.review("s")),
    "outcome": Way("NumberedScreen", lambda at: at.review("o")),
    "sign": Way("SignScreen", lambda at: at.review("g")),
    "critique": Way("CritiqueScreen", lambda at: at.review("t")),
    "another edition, picking": Way("ChooseEdition", lambda at: at.review("e")),
    "another edition": Way("UnderAnotherScreen", lambda at: at.review("e", "down", "enter")),
    "compare, picking": Way("PickSessions", lambda at: at.go(asks.Compare())),
    "compare": Way("CompareScreen", lambda at: at.go(asks.ShowSideBySide(at.several()))),
    "compare, drawn": Way("FigureScreen", lambda at: at.go(asks.ShowSideBySide(at.two()), "o")),
    "projector": Way("ProjectorScreen", lambda at: at.projector()),
    "pairing": Way("PairingScreen", lambda at: at.go(asks.Pairing(at.two()))),
    "re-check": Way("RecheckScreen", lambda at: at.go(asks.Recheck(at.signed()))),
    "history": Way("HistoryScreen", lambda at: at.go(asks.History(at.twice()))),
    "cohort": Way("CohortScreen", lambda at: at.go(asks.Cohort(at.all()), "1")),
    "agreement, picking": Way("NumberedScreen", lambda at: at.go(asks.Agreement())),
    "grid": Way("GridScreen", lambda at: at.go(asks.ShowAgreement(at.several()))),
    "agreement": Way("AgreeScreen", lambda at: at.go(asks.ShowAgreement(at.several()), "f")),
    "seminar": Way("NumberedScreen", lambda at: at.go(asks.SeminarRound())),
    "host": Way("HostScreen", lambda at: at.host()),
    "points of a round": Way("PickPoints", lambda at: at.host("f4")),
    "round": Way("RoundScreen", lambda at: at.round()),
    "edition in full": Way(
        "ReadingScreen", lambda at: at.go(asks.ReadEdition(at.app.library.heads()[at.opened % 5]))
    ),
    "two editions": Way(
        "TwoEditionsScreen",
        lambda at: at.go(
            asks.TwoEditions(LIBRARY.load("weimaraner-fci-99"), LIBRARY.load("weimaraner-american"))
        ),
    ),
    "new edition": Way("TypedScreen", lambda at: at.go(asks.NewEdition(None, lambda _: None))),
    "wizard": Way("NumberedScreen", lambda at: at.edition()),
    "wizard, head": Way("TypedScreen", lambda at: at.edition("1")),
    "wizard, sizes": Way("NumberedScreen", lambda at: at.edition("3")),
    "wizard, proportions": Way("NumberedScreen", lambda at: at.edition("4")),
    "wizard, teeth": Way("NumberedScreen", lambda at: at.edition("5")),
    "wizard, regions": Way("NumberedScreen", lambda at: at.edition("6")),
    "wizard, classes": Way("NumberedScreen", lambda at: at.edition("8")),
    "standard's text, pasted": Way("PastedScreen", lambda at: at.edition("2", "2")),
    "standard's text": Way("StandardTextScreen", lambda at: at.standard_text()),
    "practise": Way("PractiseScreen", lambda at: at.go(asks.Practise(HOVAWART, 3, 3))),
}
"""Each screen, and the questions where keys mean something of their own; all of them are named here."""


class Watch:
    """What one screen was given, and how that ended."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.pressed = self.starts = self.opened = 0
        self.last: deque[str] = deque(maxlen=40)
        self.bad: list[str] = []


async def press(name: str, keys: int, seed: int, home: Path) -> Watch:
    """So many keys from one screen on; where the program ends it is started again."""
    watch, chance = Watch(name), random.Random(f"{name} {seed}")
    while watch.pressed < keys and len(watch.bad) < 3:
        folder = home / str(watch.starts) / "sessions"
        folder.mkdir(parents=True)
        watch.starts += 1
        try:
            async with (
                asyncio.timeout(None) as limit,
                sitting(folder, rulesets=(folder.parent / "own",)) as table,
            ):
                demo(folder)
                await _press_on(watch, keys, Stage(table, folder, chance), limit)
        except Exception:
            told = " ".join(watch.last)
            watch.bad.append(f"{name}, seed {seed}, after {told}:\n{traceback.format_exc(limit=-6)}")
        for path in sorted(folder.glob("*.toml")):
            try:
                read_session(path)
            except ValueError as error:
                watch.bad.append(f"{name}, seed {seed}: {error}")
    return watch


async def _press_on(watch: Watch, keys: int, stage: Stage, limit: asyncio.Timeout) -> None:
    table, app, chance = stage.table, stage.app, stage.chance
    away = 1000
    while watch.pressed < keys and app.is_running:
        limit.reschedule(asyncio.get_running_loop().time() + STILL)
        if (len(app.screen_stack) <= 1 and watch.name != "start") or away > 150:
            if away > 150 and watch.opened and len(app.screen_stack) > 1:
                return
            if app.size.width < LEAST_WIDTH:
                await table.pilot.resize_terminal(80, 24)
            way = SCREENS[watch.name]
            await way.open(stage)
            watch.opened, away = watch.opened + 1, 0
            top = app.screen
            if type(top).__name__ != way.screen:
                watch.bad.append(f"{watch.name} leads to {type(top).__name__}, not to {way.screen}")
                return
        for _ in range(chance.choice(BURSTS)):
            watch.pressed += 1
            away = 0 if top in app.screen_stack else away + 1
            drawn = chance.random()
            if drawn < 0.02:
                text = chance.choice(PASTES)
                watch.last.append(f"paste {text[:20]!r}")
                app.post_message(Paste(text))
                continue
            kind = LEAVING if drawn < 0.05 else NAMES if drawn < 0.4 else CHARACTERS
            key = chance.choice(kind)
            watch.last.append(key)
            single = len(key) == 1
            app.post_message(Key(_character_to_key(key) if single else key, key if single else None))
        await table.pilot.pause()


def run(keys: int, seed: int, names: tuple[str, ...] = tuple(SCREENS)) -> list[Watch]:
    """Keys for each of the screens, in folders of their own."""
    found = []
    for name in names:
        with tempfile.TemporaryDirectory() as place:
            home = Path(place)
            with pytest.MonkeyPatch.context() as patch:
                patch.setattr("hands_on.store.places.user_data", lambda home=home: home / "data")
                patch.setattr("hands_on.store.places.user_cache", lambda home=home: home / "cache")
                settle_by_queues(patch)
                found.append(asyncio.run(press(name, keys, seed, home)))
    return found


def main() -> int:
    """Press, and print what ended in an error."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--keys", type=int, default=2000, help="on each screen")
    parser.add_argument("--only", choices=SCREENS, metavar="SCREEN", help=", ".join(SCREENS))
    parser.add_argument("--from", dest="first", choices=SCREENS, metavar="SCREEN", help="go on at this one")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    began, bad, pressed = time.monotonic(), 0, 0
    names = [options.only] if options.only else list(SCREENS)
    for name in names[names.index(options.first) if options.first else 0 :]:
        (watch,) = run(options.keys, options.seed, (name,))
        pressed += watch.pressed
        bad += len(watch.bad)
        print(f"{name:20}{watch.pressed:7} keys, opened {watch.opened} times", flush=True)
        for told in watch.bad:
            print("BAD", told, flush=True)
    print(f"{pressed} keys, {time.monotonic() - began:.0f} s: {bad} ended in an error")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
