"""The demo's sessions for tests of the screens that compare."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from hands_on.compare.examined import Examined
from hands_on.store import places
from hands_on.store.examined import examined_file
from hands_on.tui.asks import Ask
from tests.tui.driving import LIBRARY

BRUMO, FENJA, TOVIK = "brumo-m-quill", "fenja-m-quill", "tovik-m-quill"
BRUMO_BY_ANOTHER, FENJA_BY_ANOTHER = "brumo-a-thornby", "fenja-a-thornby"


def demo(folder: Path, *names: str) -> list[Path]:
    """Copies of demo sessions in `folder`, those named or all of them; a year earlier than they are told.

    The earlier dates keep a re-check behind them whatever the day is.
    """
    folder.mkdir(parents=True, exist_ok=True)
    found = []
    for path in sorted(places.shipped_sessions().glob("*.toml")):
        name = path.stem[len("2026-09-19-") :]
        if not names or name in names:
            copy = folder / path.name.replace("2026-", "2025-")
            copy.write_text(path.read_text().replace("2026-", "2025-"))
            found.append(copy)
    order = list(names)
    return sorted(found, key=lambda path: order.index(path.stem[11:])) if order else found


def held(paths: list[Path]) -> list[Examined]:
    """The sessions with their editions."""
    return [examined_file(path, LIBRARY) for path in paths]


def opening(ask: Callable[[list[Examined]], Ask], sessions: list[Examined]) -> dict[str, object]:
    """What makes the app open on these."""
    return {"opens": ask(sessions)}


def copied(path: Path, target: Path, *changes: tuple[str, str]) -> Path:
    """A copy of a session with texts in it replaced."""
    shutil.copyfile(path, target)
    text = target.read_text()
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    target.write_text(text)
    return target
