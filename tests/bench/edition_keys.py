"""Keys from nothing to a sound edition, with the standard's text and without it.

    python -m tests.bench.edition_keys [NAME ...]

An invented standard with what it asks, read by hand (`tests/data/standards/`). With the text it is pasted and
confirmed block by block; without it the same figures go in by number and the same faults as lines.
"""

from __future__ import annotations

import argparse
import asyncio
import tempfile
import tomllib
from pathlib import Path
from typing import Any

from textual.pilot import Pilot
from textual.widgets import Input, TextArea

from hands_on.standard_text import ANGLES, RATIOS, in_full
from hands_on.store.edition_draft import EditionDraft
from hands_on.store.library import Library
from hands_on.store.new_edition import begin
from hands_on.store.places import shipped_rulesets
from hands_on.tui.app import HandsOn
from hands_on.tui.asks import WriteEdition

TEXTS = Path(__file__).parents[1] / "data" / "standards"
EXPECTED = tomllib.loads((TEXTS / "expected.toml").read_text(encoding="utf-8"))
SIZES = ("height-male", "height-female", "height", "weight-male", "weight-female", "weight")
CLASSES = ("minor", "fault", "serious", "severe", "disqualifying")
WORDS = {
    "ear-length": "ears {} cm long",
    "coat-length-flank": "coat {} cm long",
    "white-chest-size": "white spot on the chest not over {} cm",
    "tail-length": "tail {} cm long",
    "chest-girth-less-height": "girth of chest {} cm more than height",
}
HEAD = (
    "{breed}",
    "Invented Federation",
    "917",
    "2019",
    "2019-09-04",
    "",
    "",
    "",
    "Standard of the {breed}, 04.09.2019",
)


class Hand:
    """Presses keys and counts them; a line typed counts its letters and Enter, a paste one key."""

    def __init__(self, pilot: Pilot[Any]) -> None:
        self.pilot, self.count = pilot, 0

    async def press(self, *keys: str) -> None:
        for key in keys:
            self.count += 1
            await self.pilot.press(key)

    async def line(self, text: str, *, over: bool = False) -> None:
        line = self.pilot.app.screen.query_one(Input)
        if over and text:
            self.count += len(line.value)
            line.value = ""
        line.insert_text_at_cursor(text)
        self.count += len(text)
        await self.press("enter")

    async def paste(self, text: str) -> None:
        self.pilot.app.screen.query_one(TextArea).insert(text)
        await self.press("f2")

    async def number(self, n: int, *, of: int) -> None:
        await self.press(*str(n))
        if of > 9:
            await self.press("enter")


async def _head(hand: Hand, breed: str) -> None:
    await hand.press("1")
    for text in HEAD:
        said = text.format(breed=breed)
        await hand.line(said, over=bool(said))


async def with_text(hand: Hand, name: str, breed: str) -> None:
    await _head(hand, breed)
    await hand.press("2", "2")
    await hand.paste((TEXTS / f"{name}.txt").read_text(encoding="utf-8"))
    for _ in range(80):
        before = hand.pilot.app.screen.query_one("OptionList").highlighted  # type: ignore[attr-defined]
        await hand.press("a")
        if hand.pilot.app.screen.query_one("OptionList").highlighted == before:  # type: ignore[attr-defined]
            break
    await hand.press("escape")


async def _figure(hand: Hand, row: dict[str, Any]) -> None:
    name = str(row["limit"]).replace("-ideal", "")
    ideal = "-ideal" in row["limit"]
    ratios = [f"{a}-to-{b}" for a, b in RATIOS]
    low = row.get("from", row.get("above", row.get("ours")))
    high = row.get("to", row.get("below", row.get("ours")))
    if name == "teeth-count":
        await hand.press("5", "1")
        await hand.line(f"{low:g}", over=True)
        await hand.press("escape")
        return
    if ideal or (name not in SIZES and name not in ratios and name not in ANGLES):
        ends = f"{low:g} to {high:g}" if low and high and low != high else f"{low or high:g}"
        who = "dogs" if "-male" in row["limit"] else "bitches" if "female" in row["limit"] else ""
        said = f"ideal height {who} {ends} cm" if ideal else WORDS.get(name, "{} cm").format(ends)
        await hand.press("3", "0")
        await hand.line(said)
        await hand.press("1")
        await hand.line("")
        await hand.press("escape")
        return
    rows = list(SIZES) if name in SIZES else [*ratios, *ANGLES]
    await hand.press("3" if name in SIZES else "4")
    await hand.number(rows.index(name) + 1, of=20 if name in SIZES else len(rows))
    for end in (low, high):
        await hand.line("" if end is None else f"{end:g}")
    beyond = sorted(one - high for one in row.get("beyond", ()) if high is not None and one > high)
    await hand.line(f"{beyond[0]:g}" if beyond else "")
    await hand.line(f"{beyond[-1]:g}" if len(beyond) > 1 else "")
    if len(beyond) > 1:
        await hand.press("5")
    await hand.press("1", "escape")


def _short(label: str, labels: dict[str, str]) -> str:
    """The beginnings of a label's words, as few letters of each as tell it from others."""
    for letters in (2, 3, 4, 5):
        said = " ".join(word[:letters] for word in label.lower().split())
        if in_full(said, labels.values()) == label.lower():
            return said
    return label.lower()


async def without_text(hand: Hand, name: str, breed: str, labels: dict[str, str]) -> None:
    await _head(hand, breed)
    for row in EXPECTED[name]["figures"]:
        await _figure(hand, row)
    faults = EXPECTED[name]["faults"]
    kinds = [one for one in CLASSES if faults.get(one)]
    for kind in kinds:
        await hand.press("8", str(CLASSES.index(kind) + 1))
        await hand.line("")
        await hand.press("4" if kind == "disqualifying" else "1", "escape")
    for n, kind in enumerate(kinds, 1):
        await hand.press("9", str(n))
        told = [_short(labels[fault], labels) for fault in faults[kind]]
        for at in range(0, len(told), 6):
            await hand.line("; ".join(told[at : at + 6]))
            await hand.press("1")
        await hand.line("")
        await hand.press("escape")


async def measured(name: str, *, text: bool) -> tuple[int, int, int, list[str]]:
    """Keys, limits and rulings, and what the check still finds."""
    with tempfile.TemporaryDirectory() as kept:
        own = Path(kept) / "own"
        library = Library([shipped_rulesets(), own])
        path = own / f"{name}.toml"
        begin(name, library.heads(), None, path)
        app = HandsOn(Path(kept) / "s", [shipped_rulesets(), own], opens=WriteEdition(path, lambda: None))
        labels = {key: one.label for key, one in library.common().faults.items()}
        breed = name.replace("-", " ").title()
        async with app.run_test(size=(100, 40)) as pilot:
            await pilot.pause()
            hand = Hand(pilot)
            if text:
                await with_text(hand, name, breed)
            else:
                await without_text(hand, name, breed, labels)
            await pilot.pause()
        draft = EditionDraft(path, library)
        tables = draft.tables
        return hand.count, len(tables.get("limits", [])), len(tables.get("rulings", [])), draft.problems()


def main() -> None:
    """Print both counts for one standard or several."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("names", nargs="*", help=", ".join(EXPECTED))
    for name in parser.parse_args().names or ["moor-pointer"]:
        for text in (True, False):
            keys, limits, rulings, problems = asyncio.run(measured(name, text=text))
            sound = "sound" if not problems else f"{len(problems)} to mend: {problems[0]}"
            how = "with the text" if text else "without it  "
            print(f"{name}: {how}  {keys:5} keys, {limits} limits, {rulings} rulings, {sound}")


if __name__ == "__main__":
    main()
