"""Driving the app in tests: keys in, what stands on the screen and on the disk out."""

from __future__ import annotations

import datetime
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from pathlib import Path

from textual.events import Key
from textual.keys import _character_to_key
from textual.pilot import Pilot
from textual.worker import WorkerCancelled

from hands_on.exam.left_out import on_walk
from hands_on.exam.session import Dog, Examination, RulesetRef, Session
from hands_on.store import places
from hands_on.store.library import Library
from hands_on.store.open_session import OpenSession
from hands_on.store.session_file import read_session
from hands_on.tui.app import HandsOn
from hands_on.tui.screens.walk import WalkScreen

NOW = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.timezone(datetime.timedelta(hours=2)))
LIBRARY = Library((places.shipped_rulesets(),))
HOVAWART = "hovawart-fci-190"


class Sitting:
    """An app under test."""

    def __init__(self, app: HandsOn, pilot: Pilot[int]) -> None:
        self.app, self.pilot = app, pilot

    async def press(self, *keys: str) -> None:
        """Press keys; the pilot lets everything settle after each."""
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def type(self, text: str) -> None:
        """Type a text as it is, one key event a character, as fast as they can be taken."""
        for character in text:
            name = "enter" if character == "\r" else _character_to_key(character)
            self.app.post_message(Key(name, character))
        await self.pilot.pause()
        for _ in range(200):
            if not self.app._order._waiting:  # keys behind one that is still on its way
                break
            await self.pilot.pause()

    async def settle(self) -> None:
        """Wait for what runs beside; what a screen began and left with it does not count."""
        with suppress(WorkerCancelled):
            await self.app.workers.wait_for_complete()
        await self.pilot.pause()

    async def stand_beyond_the_start(self) -> None:
        """Wait for the screen that was asked for to lie over the start screen."""
        for _ in range(200):
            await self.settle()
            if self.screen_name not in ("Screen", "StartScreen") and self.text.strip():
                return
        raise AssertionError("only the start screen opened")

    @property
    def text(self) -> str:
        """All that stands on the screen."""
        strips = self.app.screen._compositor.render_strips(self.app.size)
        return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)

    @property
    def screen_name(self) -> str:
        """Which screen has the focus."""
        return type(self.app.screen).__name__

    @property
    def walk(self) -> WalkScreen:
        """The walk, wherever it lies."""
        return next(screen for screen in self.app.screen_stack if isinstance(screen, WalkScreen))

    @property
    def path(self) -> Path:
        """The only session's file."""
        (path,) = self.app.sessions.glob("*.toml")
        return path

    @property
    def on_disk(self) -> Session:
        """The only session as its file has it."""
        return read_session(self.path)

    async def jump_to(self, point: str) -> None:
        """Stand at a point of the walk."""
        index = next(stop.index for stop in self.walk.sheet.stops if stop.point.id == point)
        self.walk.go_to(index)
        await self.pilot.pause()

    async def go_on_to(self, *kinds: str) -> int:
        """Go on with the examination and stand where points of these kinds follow one another.

        Tests of what keys do begin here, so that the order of the points is free to change.
        """
        await self.press("g")
        stops = self.walk.sheet.stops
        for stop in stops[: len(stops) - len(kinds) + 1]:
            following = stops[stop.index : stop.index + len(kinds)]
            if tuple(one.point.kind for one in following) == kinds:
                await self.jump_to(stop.point.id)
                return stop.index
        raise AssertionError(f"no points of {kinds} follow one another")

    def number_of(self, region: str) -> str:
        """What is typed to jump to a region."""
        return next(str(row.number) for row in self.walk.sheet.progress() if row.region.id == region)


@asynccontextmanager
async def sitting(
    folder: Path, size: tuple[int, int] = (80, 24), rulesets: tuple[Path, ...] = (), **options: object
) -> AsyncIterator[Sitting]:
    """The app on the sessions in `folder`, started and settled."""
    app = HandsOn(folder, (places.shipped_rulesets(), *rulesets), **options)  # type: ignore[arg-type]
    if not rulesets:
        app._library = LIBRARY  # the shipped editions, read once for all tests
    app.now = lambda: NOW  # type: ignore[method-assign]
    async with app.run_test(size=size) as pilot:
        table = Sitting(app, pilot)
        if options.get("opens"):
            await table.stand_beyond_the_start()
        else:
            await table.settle()
        yield table


def begun(folder: Path, edition: str = HOVAWART, walk: str = "whole", **parts: object) -> Path:
    """A session begun in `folder` on a walk of the edition, its cautions read; `parts` are put into it."""
    ruleset = LIBRARY.load(edition)
    session = Session.model_validate(
        {
            "dog": Dog(call_name="Arko", sex="male", born=datetime.date(2023, 5, 14), colour="black"),
            "examination": Examination(evaluator="E. Example", started=NOW),
            "ruleset": RulesetRef(id=edition, edition=ruleset.edition.edition, digest=ruleset.digest),
            "cautions": [
                {"id": row.id, "answer": "yes" if row.stop else "read"} for row in LIBRARY.cautions().cautions
            ],
            **parts,
        }
    )
    if walk != "whole":
        session = on_walk(session, ruleset, walk)
    with OpenSession.create(folder, session, NOW) as opened:
        assert not opened.unsaved
        return opened.path
