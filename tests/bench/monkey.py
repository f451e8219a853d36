"""A monkey at a numeric keypad: does any recorded finding ever go without the key that takes back?

    python -m tests.bench.monkey [--keys 10000] [--screens 0] [--seed 1] [--edition ID ...] [--walk ID ...]

Random keys of a keypad go to the dialogues of all points and regions' sheets, each answer into the session as
on the screen; with --screens so many go to the program itself: the walk, its sheets and menus, the review and
what they open, shared out evenly among dogs and bitches of the editions and walks. After each key every
finding, mark, reading and note that stood before must stand still, unless what is taken back was chosen for
it. Where the monkey leaves the examination it is opened again. Nothing is painted meanwhile, which would take
most of the time.
"""

from __future__ import annotations

import argparse
import asyncio
import datetime
import random
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from unittest.mock import patch

from textual._compositor import Compositor
from textual.events import Key

from hands_on.exam.answers import Answers, Stamp, amended, answers_at, put
from hands_on.exam.dialogue import Dialogue, dialogue_for
from hands_on.exam.dialogue.region import RegionDialogue
from hands_on.exam.region_sheet import region_sheet, rest_as_asked
from hands_on.exam.session import Dog, Session, Skip
from hands_on.exam.walk import stops
from hands_on.ruleset.base import Sex
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.session_file import read_session
from hands_on.tui.asks import OpenFile
from hands_on.tui.parts.point_menu import PointMenu
from hands_on.tui.screens.sheet import SheetScreen
from hands_on.tui.session_screen import SessionScreen
from tests.tui.driving import HOVAWART, LIBRARY, NOW, Sitting, begun, sitting
from tests.tui.settling import all_done

KEYPAD = [*"0123456789", "minus", "plus", "asterisk", "slash", "full_stop", "enter", "enter", "enter"]

CHARACTERS = {
    "minus": "-",
    "plus": "+",
    "asterisk": "*",
    "slash": "/",
    "full_stop": ".",
    "enter": "\r",
}
"""What a key of the keypad writes; a figure writes itself."""

PRESSED = [*"0123456789", "-", "+", "*", "/", ".", "enter"]
"""The same as the dialogues name them."""

EDITIONS = (HOVAWART, "poodle-fci-172", "dachshund-fci-148", "any-dog", "weimaraner-american")
WALKS = ("whole", "structure")

ANSWERED_BY = 300
"""Keys pressed into the dialogues before a sitting, so that there is something to lose."""

STAMP = Stamp(NOW, "E. Example")

MARKS = ("missing", "unseen", "worn", "broken", "extra", "milk")


@dataclass
class Watch:
    """What was pressed, what stood, what went."""

    pressed: int = 0
    most: int = 0
    taken_back: int = 0
    opened_again: int = 0
    lost: list[str] = field(default_factory=list)
    screens: Counter[str] = field(default_factory=Counter)
    session: Session | None = None
    """What stands in the end."""


def found(session: Session, ruleset: Ruleset) -> set[object]:
    """Faults, marks, readings and notes on record."""
    now = amended(session)
    rows: set[object] = {("note", n, note.text) for n, note in enumerate(now.notes)}
    for take in now.takes:
        if not take.struck:
            rows.add(("take", take.point, take.at, take.value))
    for grade in now.grades:
        steps = {step.value: step.fault for step in getattr(ruleset.points[grade.point], "steps", ())}
        fault = grade.fault or steps.get(grade.step)
        if fault:
            rows.add(("fault", grade.point, fault))
    for choice in now.choices:
        point = ruleset.points[choice.point]
        options = {one.id: one.fault for one in getattr(point, "options", ())}
        options.pop(getattr(point, "as_asked", ""), None)
        rows |= {("fault", choice.point, name) for name in choice.choice if options.get(name)}
    if now.teeth is not None:
        rows |= {("tooth", mark, tooth) for mark in MARKS for tooth in getattr(now.teeth, mark)}
    return rows


class Table:
    """The walk without a screen: where it stands, and the menu whose number is awaited."""

    def __init__(self, edition: str, sex: str) -> None:
        self.ruleset = LIBRARY.load(edition)
        self.session = Session.model_validate(
            {"dog": {"call_name": "Arko", "sex": sex}, "ruleset": {"id": edition}}
        )
        self.walk = stops(self.ruleset, self.session)
        self.index, self.menu = 0, ""
        self.dialogue: Dialogue = self.at_point()

    def at_point(self) -> Dialogue:
        """The dialogue at the point."""
        point = self.walk[self.index].point
        answers = answers_at(self.session, point)
        return dialogue_for(point, self.ruleset, answers, None, self.session.dog.sex)

    def on_sheet(self) -> Dialogue:
        """The dialogue at the region's sheet."""
        region = self.walk[self.index].region.id
        return RegionDialogue(region_sheet(self.ruleset, self.session, self.walk, region))

    def press(self, key: str) -> bool:
        """Take a key; was something taken back?"""
        if self.menu:
            menu, self.menu = self.menu, ""
            return self._chosen(menu, key)
        step = self.dialogue.press(key)
        point = self.walk[self.index].point
        match step.follow:
            case "record" if step.answers is not None:
                self.session = put(self.session, point, step.answers, STAMP)
                if step.go_on:
                    self._stand(self.index + 1)
            case "rest" if isinstance(self.dialogue, RegionDialogue):
                sheet = self.dialogue.sheet
                self.session = rest_as_asked(self.session, self.ruleset, sheet, STAMP)
                self.dialogue = self.on_sheet()
            case "next" | "back":
                self._stand(self.index + (1 if step.follow == "next" else -1))
            case "open" | "in turn" if step.stop is not None:
                self._stand(step.stop)
            case "skip" | "jump":
                self.menu = step.follow
        return False

    def _stand(self, index: int) -> None:
        self.index = index % len(self.walk)
        self.dialogue = self.at_point()

    def _chosen(self, menu: str, key: str) -> bool:
        """The number of a menu's line: 8 takes back, 1 to 5 skip, of a jump 0 is the sheet."""
        if not key.isdigit():
            return False
        point, own = self.walk[self.index].point, answers_at(self.session, self.walk[self.index].point)
        if menu == "jump":
            if key == "0":
                self.dialogue = self.on_sheet()
            else:
                self._stand(int(key) * len(self.walk) // 10)
        elif key in "12345" and not own.given:
            skip = Skip(point=point.id, reason="no instrument")
            self.session = put(self.session, point, Answers(takes=own.takes, skip=skip), STAMP)
            self._stand(self.index + 1)
        elif key == "8":
            step = self.at_point().take_back()
            if step.answers is not None:
                self.session = put(self.session, point, step.answers, STAMP)
            self.dialogue = self.at_point()
            return True
        return False


def press_dialogues(keys: int, seed: int, edition: str = HOVAWART, sex: str = "male") -> Watch:
    """Press `keys` keys into the dialogues alone."""
    chance, watch, table = random.Random(seed), Watch(), Table(edition, sex)
    standing: set[object] = set()
    for _ in range(keys):
        # the menu is seldom wanted, or all that is found would be taken back at once
        weights = [0.2 if key == "." else 3.0 if key == "enter" else 1.0 for key in PRESSED]
        (key,) = chance.choices(PRESSED, weights)
        watch.screens[type(table.dialogue).__name__] += 1
        taken_back = table.press(key)
        watch.pressed += 1
        watch.taken_back += taken_back
        now = found(table.session, table.ruleset)
        if not taken_back and not standing <= now:
            watch.lost.append(f"key {watch.pressed} ({key}): {standing - now}")
        standing = now
        watch.most = max(watch.most, len(now))
    watch.session = table.session
    return watch


async def press_at_random(table: Sitting, path: Path, keys: int, seed: int) -> Watch:
    """Press `keys` keys; the examination is opened again where it was left."""
    chance = random.Random(seed)
    watch = Watch()
    ruleset = LIBRARY.load(read_session(path).ruleset.id)
    taking: list[str] = []

    def noted(name: str, really):  # type: ignore[no-untyped-def]
        def called(self, *given):  # type: ignore[no-untyped-def]
            taking.append(name)
            return really(self, *given)

        return called

    really_more = PointMenu._more

    def more(self: PointMenu, key: str | None) -> None:
        if key == "9":
            taking.append("newest note")
        really_more(self, key)

    standing = found(read_session(path), ruleset)
    with (
        patch.object(PointMenu, "_take_back", noted("at the point", PointMenu._take_back)),
        patch.object(PointMenu, "_more", more),
        patch.object(SheetScreen, "_take_back", noted("on the sheet", SheetScreen._take_back)),
    ):
        for _ in range(keys):
            if not any(isinstance(screen, SessionScreen) for screen in table.app.screen_stack):
                while len(table.app.screen_stack) > 1:
                    await table.app.pop_screen()
                table.app.go(OpenFile(path))
                await all_done()
                watch.opened_again += 1
            if table.screen_name != "TypedScreen":
                taking.clear()  # else the reason is asked why something is taken back that was signed
            key = chance.choice(KEYPAD)
            watch.screens[table.screen_name] += 1
            table.app.post_message(Key(key, CHARACTERS.get(key, key)))
            await all_done()
            watch.pressed += 1
            sheet = next(
                (one.sheet for one in table.app.screen_stack if isinstance(one, SessionScreen)), None
            )
            now = found(sheet.session if sheet is not None else read_session(path), ruleset)
            watch.taken_back += bool(taking)
            if not taking and not standing <= now:
                watch.lost.append(f"key {watch.pressed} ({key}) on {table.screen_name}: {standing - now}")
            standing = now
            watch.most = max(watch.most, len(now))
    return watch


async def run(
    keys: int,
    seed: int,
    folder: Path,
    edition: str = HOVAWART,
    walk: str = "whole",
    sex: Sex = "male",
) -> Watch:
    """One sitting of the monkey on an examination of which another monkey answered a part."""
    dog = Dog(call_name="Arko", sex=sex, born=datetime.date(2023, 5, 14))
    before = press_dialogues(ANSWERED_BY, seed, edition, sex).session
    assert before is not None
    parts = {name: getattr(before, name) for name in ("takes", "grades", "choices", "teeth", "skips")}
    path = begun(folder, edition, walk, dog=dog, **parts)
    async with sitting(folder, opens=OpenFile(path)) as table:
        with patch.object(Compositor, "render_update", lambda *_, **__: None):
            watch = await press_at_random(table, path, keys, seed)
    kept = found(read_session(path), LIBRARY.load(read_session(path).ruleset.id))
    assert len(kept) <= watch.most
    return watch


def main() -> None:
    """Print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--keys", type=int, default=10000)
    parser.add_argument("--screens", type=int, default=0, help="keys pressed into the program itself")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--edition", nargs="+", default=EDITIONS)
    parser.add_argument("--walk", nargs="+", default=WALKS)
    options = parser.parse_args()
    told("the dialogues", press_dialogues(options.keys, options.seed), options.seed)
    sittings = [(edition, walk) for edition in options.edition for walk in options.walk]
    lost = pressed = 0
    with patch("textual.pilot.wait_for_idle", all_done), patch("textual.app.wait_for_idle", all_done):
        for n, (edition, walk) in enumerate(sittings if options.screens else ()):
            sex: Sex = "female" if n % 2 else "male"
            watch = in_the_program(options.screens // len(sittings), options.seed + n, edition, walk, sex)
            told(f"the program: {edition}, {walk}, {sex}", watch, options.seed + n)
            lost, pressed = lost + len(watch.lost), pressed + watch.pressed
    if options.screens:
        print(f"{pressed} keys into the program, {lost} findings went without the key that takes back")


def in_the_program(keys: int, seed: int, edition: str, walk: str, sex: Sex) -> Watch:
    """A sitting in folders of its own."""
    with tempfile.TemporaryDirectory() as home:
        data, cache = Path(home) / "data", Path(home) / "cache"
        with (
            patch("hands_on.store.places.user_data", lambda: data),
            patch("hands_on.store.places.user_cache", lambda: cache),
        ):
            return asyncio.run(run(keys, seed, Path(home) / "sessions", edition, walk, sex))


def told(where: str, watch: Watch, seed: int) -> None:
    """Print what came of a run."""
    print(
        f"{watch.pressed} keys into {where}, seed {seed}: at most {watch.most} things on record, "
        f"{watch.taken_back} takings back, opened again {watch.opened_again} times"
    )
    print("  " + ", ".join(f"{name} {count}" for name, count in watch.screens.most_common()))
    for line in watch.lost:
        print("  LOST", line)
    print(f"  {len(watch.lost)} findings went without the key that takes back", flush=True)


if __name__ == "__main__":
    main()
