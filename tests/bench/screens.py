"""Every screen, captured at several sizes and in a light theme, to be read.

    python -m tests.bench.screens [--out screens] [--only TOUR] [--look 80x24 ...] [--svg]

Screens are reached by keys on copies of the demo's sessions; each is then shown at 60x20, 80x24, 160x45 and
200x60 and, at 80x24 and 160x45, in a light theme. Every picture is a text file, with --svg a drawing too.
Printed is what a program can tell of them: texts whose contrast is under 4.5 to 1, the least that the Web
Content Accessibility Guidelines 2.1 ask for (W3C Recommendation, success criterion 1.4.3; the ratio by its
definition of relative luminance), screens that ended in an error, and lines wider than the window.
The rest is for eyes.
"""

from __future__ import annotations

import argparse
import asyncio
import tempfile
from collections.abc import Callable, Coroutine, Sequence
from pathlib import Path
from typing import Any
from unittest.mock import patch

from hands_on.notes import OwnWords
from hands_on.store import places
from hands_on.store.new_edition import begin
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.tui import asks
from tests.bench.camera import LOOKS, Camera, folder_of
from tests.tui.demo import BRUMO, BRUMO_BY_ANOTHER, FENJA, TOVIK, copied, demo, held
from tests.tui.driving import HOVAWART, LIBRARY, NOW, begun, sitting
from tests.tui.settling import all_done

Tour = Callable[["Camera", Path], Coroutine[Any, Any, None]]


# --- the ways to the screens


async def start(camera: Camera, folder: Path) -> None:
    """The start screen and the lists it leads to."""
    demo(folder)
    begun(folder)
    await camera.table.settle()
    camera.table.app.screen.refresh_lists()  # type: ignore[attr-defined]
    await camera.take("start")
    await camera.take("help-start", "h")
    await camera.table.press("escape")
    await camera.take("records", "r")
    await camera.take("records-found", *"brumo")
    await camera.table.press("escape")
    await camera.take("editions", "e")
    await camera.take("edition-in-full", *"hovawart", "enter")
    await camera.table.press("escape", "escape")
    await camera.take("pick-sessions", "c")
    await camera.table.press("escape")
    await camera.take("pick-agreement", "a")
    await camera.table.press("escape")
    await camera.take("seminar-round", "s")
    await camera.table.press("escape")
    await camera.take("choose-edition", "n")
    await camera.table.type("hovawart")
    await camera.take("dog", "enter")
    await camera.table.press("f1")
    await camera.take("help-dog")
    await camera.table.press("escape", "escape")


async def walk(camera: Camera, folder: Path) -> None:
    """The walk: each kind of point, the questions that follow, menus, notes, drawings."""
    demo(folder)
    table = camera.table
    table.app.go(asks.OpenFile(begun(folder)))
    await table.pilot.pause()
    seen: set[str] = set()
    for stop in table.walk.sheet.stops:
        if stop.point.kind not in seen:
            seen.add(stop.point.kind)
            table.walk.go_to(stop.index)
            await camera.take(f"point-{stop.point.kind}")
    await table.jump_to("height")
    await table.type("66.5\r68.5\r")
    await camera.take("point-measure-takes")
    await table.press("m")
    await camera.take("point-measure-hidden")
    await table.press("m")
    await table.type("46,5\r")
    await camera.take("point-measure-unlikely")
    await table.press("escape")
    await table.jump_to("mouth.teeth")
    await table.type("105\r*206\r")
    await camera.take("point-teeth-marked")
    await table.jump_to("mouth.bite")
    await camera.take("point-choice-bite")
    await table.jump_to("forequarters.shoulder")
    await camera.take("point-grade-degree", "1")
    await camera.take("point-grade-recorded", "3")
    await camera.take("point-drawn", "k")
    await table.press("escape")
    await camera.take("more", "full_stop")
    await table.press("escape")
    await camera.take("explain", "question_mark")
    await table.press("escape")
    await camera.take("jump", "slash")
    await table.press("escape")
    await camera.take("measures", "i")
    await table.press("escape")
    await camera.take("fault", "f")
    await camera.take("fault-search", *"short")
    await table.press("escape")
    await table.press("n")
    await table.type("a touch steep in shoulder, no cow hocks, withers 64.5, lovely head")
    await camera.take("note")
    await table.press("escape", "c")
    await table.type(", loin 20, marked steep croup, tail set low")
    await camera.take("scribe")
    await table.press("escape")
    await camera.take("sheet", "t")
    await camera.take("sheet-given", "0")
    await table.press("t")
    await camera.take("help-walk", "f1")
    await table.press("escape")
    await camera.take("dog-drawn", "l")
    await table.press("escape")


async def review(camera: Camera, folder: Path) -> None:
    """The review and what is done there."""
    path = demo(folder, BRUMO)[0]
    text = path.read_text(encoding="utf-8")
    path.write_text(text.partition("[signature]")[0], encoding="utf-8")
    table = camera.table
    table.app.go(asks.OpenFile(path))
    await table.settle()
    if table.screen_name != "ReviewScreen":
        await table.press("r")
    await camera.take("review")
    await camera.take("review-menu", "full_stop")
    await table.press("escape")
    await table.press("d")
    await camera.take("decide", "d")
    await table.press("escape")
    for name, key, leaves in (
        ("outcome", "o", "escape"),
        ("summary", "s", "f2"),
        ("critique", "t", "f2"),
        ("review-drawn", "l", "escape"),
        ("help-review", "f1", "escape"),
    ):
        await camera.take(name, key)
        if table.screen_name != "ReviewScreen":
            await table.press(leaves)
    await table.press("e")
    await table.type("weimaraner")
    await camera.take("under-another-which")
    await camera.take("under-another", "enter")
    await camera.take("two-editions", "r")
    while table.screen_name != "ReviewScreen":
        await table.press("escape")
    await camera.take("sign", "g")


async def cautions(camera: Camera, folder: Path) -> None:
    """The cautions before a dog is touched."""
    camera.table.app.go(asks.OpenFile(begun(folder, cautions=())))
    await camera.table.settle()
    await camera.take("cautions")
    await camera.take("cautions-next", "enter", "enter")


async def compare(camera: Camera, folder: Path) -> None:
    """Side by side, for a room, drawn, as a pair."""
    demo(folder)
    table = camera.table
    sessions = held(demo(folder, BRUMO, FENJA))
    table.app.go(asks.ShowSideBySide(sessions))
    await camera.take("compare")
    await camera.take("compare-differing", "d", "enter", "enter")
    await camera.take("compare-jump", "j")
    await table.press("escape", "d")
    await camera.take("compare-drawn", "o")
    await table.press("escape")
    for name, region in (("height", "structure"), ("order", "order")):
        parts = table.app.screen.query_one("SideTable").parts  # type: ignore[attr-defined]
        number = next((n for n, part in enumerate(parts, 1) if part.id == region), 1)
        await table.press("j", *str(number), "enter")
        await camera.take(f"compare-{name}")
    await table.press("j", "1", "enter")
    await camera.take("projector", "p")
    await camera.take("projector-open", "enter")
    for step in range(2, 7):
        await camera.take(f"projector-open-{step}", "enter", "enter")
    await table.press("escape", "escape")
    table.app.go(asks.Pairing(sessions))
    await camera.take("pairing")
    await camera.take("pairing-on", "enter", "enter")
    await table.press("escape")
    table.app.go(asks.ShowSideBySide(held(demo(folder, BRUMO, FENJA, TOVIK, BRUMO_BY_ANOTHER))))
    await camera.take("compare-four")
    await camera.take("projector-four", "p", "enter")


async def again(camera: Camera, folder: Path) -> None:
    """A dog that comes back."""
    (path,) = demo(folder, TOVIK)
    early = copied(path, folder / "2025-07-01-tovik.toml", ("2025-09-19", "2025-07-01"))
    table = camera.table
    table.app.go(asks.Recheck(path))
    await table.settle()
    await camera.take("recheck")
    await table.press("v")
    await camera.take("history", "2")
    await camera.take("history-large", "enter")
    await table.press("escape")
    while table.screen_name != "StartScreen":
        await table.press("escape")
    table.app.go(asks.Recheck(path))
    await table.settle()
    await camera.take("recheck-who", "2")
    await table.press("1")
    await table.settle()
    sheet = table.app.screen.sheet  # type: ignore[attr-defined]
    rows = [{"id": row.id, "answer": "yes" if row.stop else "read"} for row in LIBRARY.cautions().cautions]
    sheet.put(type(sheet.session).model_validate({**sheet.session.model_dump(), "cautions": rows}))
    table.app.go(asks.GoOn(sheet))
    await camera.take("recheck-point")
    await table.press("0")
    await camera.take("recheck-then-and-now")
    assert early.exists()


async def seminar(camera: Camera, folder: Path) -> None:
    """Six evaluators and four dogs, and the round they met at."""
    paths = demo(folder, BRUMO, FENJA, TOVIK)
    for path in paths:
        path.rename(folder / f"0-{path.name}")
    paths = sorted(folder.glob("0-*.toml"))
    fourth = paths[0]
    text = fourth.read_text(encoding="utf-8").replace('"Brumo"', '"Ylva"')
    (folder / "0-ylva.toml").write_text(without_numbers(text), encoding="utf-8")
    paths = sorted(folder.glob("0-*.toml"))
    people = ("Alma Thornby", "Bo Ashdown", "Cleo Marchbank", "Dirk Fenwick", "Edda Rowanby")
    for n, name in enumerate(people, 1):
        for path in paths:
            whole = path.read_text(encoding="utf-8").partition("[signature]")[0]
            text = whole.replace('evaluator = "M. Quill"', f'evaluator = "{name}"')
            degree = ("slight", "moderate", "marked")[n % 3]
            text = text.replace('degree = "slight"', f'degree = "{degree}"', n)
            (folder / path.name.replace("0-", f"{n}-", 1)).write_text(text, encoding="utf-8")
    table = camera.table
    table.app.go(asks.ShowAgreement(held(sorted(folder.glob("*.toml")))))
    await camera.take("grid")
    await camera.take("grid-on", "enter", "enter", "enter")
    await camera.take("grid-who", "w")
    await table.press("escape")
    await camera.take("grid-reference", "r")
    await table.press("escape")
    await camera.take("agreement", "f")
    await camera.take("agreement-leans", "enter", "enter")
    await table.press("escape", "escape")
    table.app.go(asks.Cohort(sorted(folder.glob("*.toml"))))
    await camera.take("cohort-which")
    await camera.take("cohort", "1")
    await camera.take("cohort-on", "enter")
    await camera.take("cohort-years", "enter")
    await table.press("escape")
    await table.press("s", "1")
    await table.type("hovawart")
    await table.press("enter")
    await table.type("Spring seminar")
    await camera.take("host")
    await camera.take("pick-points", "f4")
    await table.press("escape")
    await table.press("f3", "1", "2", "enter")
    await camera.take("host-dogs")
    await table.press("f2")
    await table.settle()
    await camera.take("round")
    await camera.take("round-who", "w")
    await table.press("1")
    await table.settle()
    await camera.take("round-gather", "g")


def without_numbers(text: str) -> str:
    """A session's text without what names the dog beside its call name."""
    numbers = ("chip", "registration", "registered_name")
    return "\n".join(line for line in text.split("\n") if not line.startswith(numbers))


async def practise(camera: Camera, folder: Path) -> None:
    """Drawn dogs."""
    table = camera.table
    table.app.go(asks.Practise(HOVAWART, 3, 3))
    await table.settle()
    await camera.take("practise")
    await camera.take("practise-told", "1", "enter")


async def own_words(camera: Camera, folder: Path) -> None:
    """Words put right by hand, and a window that is too small."""
    words = (
        OwnWords(said="a real plank", means="back.level"),
        OwnWords(said="shelly", read_as="general.bone-fine"),
    )
    OwnWordsFile(places.own_words_path(folder)).remember(words)
    await camera.take("own-words", "o")
    await camera.table.press("escape")
    await camera.table.pilot.resize_terminal(40, 10)
    await camera.table.settle()
    (camera.out / "too-small.txt").write_text(camera.table.text + "\n", encoding="utf-8")


async def wizard(camera: Camera, folder: Path) -> None:
    """An edition of one's own, block by block."""
    table = camera.table
    await table.press("e", "f2")
    await table.type("fell-spaniel")
    await camera.take("new-edition")
    await table.press("enter")
    await camera.take("new-edition-from")
    await table.press("1")
    await table.settle()
    await camera.take("new-edition-begun")
    await table.press("escape")
    path = folder.parent / "rulesets" / "tarn-spaniel.toml"
    begin("tarn-spaniel", LIBRARY.heads(), None, path)
    table.app.go(asks.WriteEdition(path, lambda: None))
    await camera.take("wizard")
    for block in "123456789":
        await camera.take(f"wizard-{block}", block)
        while table.screen_name != "StartScreen":
            await table.press("escape")
        table.app.go(asks.WriteEdition(path, lambda: None))
        await table.settle()


TOURS: tuple[Tour, ...] = (
    start,
    walk,
    review,
    cautions,
    compare,
    again,
    seminar,
    practise,
    own_words,
    wizard,
)


async def tour(way: Tour, out: Path, looks: Sequence[tuple[tuple[int, int], str]], *, svg: bool) -> int:
    """Go one way with a fresh program; how many screens were taken."""
    with tempfile.TemporaryDirectory() as home:
        data, cache = Path(home) / "data", Path(home) / "cache"
        with (
            patch("hands_on.store.places.user_data", lambda: data),
            patch("hands_on.store.places.user_cache", lambda: cache),
            patch("textual.pilot.wait_for_idle", all_done),
            patch("textual.app.wait_for_idle", all_done),
        ):
            folder = data / "sessions"
            folder.mkdir(parents=True)
            async with sitting(folder, rulesets=(data / "rulesets",)) as table:
                camera = Camera(table, out, svg=svg, looks=looks)
                await way(camera, folder)
                return camera.taken


def main() -> None:
    """Take the pictures."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--out", type=Path, default=Path("screens"))
    parser.add_argument("--only", choices=[way.__name__ for way in TOURS])
    parser.add_argument("--look", nargs="+", choices=[folder_of(*look) for look in LOOKS])
    parser.add_argument("--svg", action="store_true")
    options = parser.parse_args()
    looks = [look for look in LOOKS if options.look is None or folder_of(*look) in options.look]
    taken = 0
    for way in TOURS:
        if options.only in (None, way.__name__):
            try:
                taken += asyncio.run(tour(way, options.out, looks, svg=options.svg))
            except Exception as error:
                print(f"{way.__name__}: ended with {type(error).__name__}: {str(error)[:300]}")
    print(f"{taken} screens at {len(looks)} looks each in {options.out} (clock at {NOW:%Y-%m-%d})")


if __name__ == "__main__":
    main()
