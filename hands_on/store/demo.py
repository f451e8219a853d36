"""The demo: a copy of the shipped sessions to work on, so that trying things out spoils nothing."""

from __future__ import annotations

import shutil
import tempfile
import time
from contextlib import suppress
from pathlib import Path

from hands_on.store.places import demo_root, shipped_sessions
from hands_on.store.private import close_to_others, make_folder, new_file

_OLD = 24 * 60 * 60
"""Seconds after its last change when a copy may go."""


def demo_folder(now: float | None = None) -> Path:
    """A fresh copy of the demo sessions; copies untouched for a day are removed.

    `now` is seconds since the epoch, for tests. Raises OSError when no folder can be written at all.
    """
    folder = _new_folder(time.time() if now is None else now)
    for path in sorted(shipped_sessions().glob("*.toml")):
        # Contents only: the copies can be written even where the installed files can't.
        with open(new_file(folder / path.name), "wb") as copy:
            copy.write(path.read_bytes())
    return folder


def _new_folder(now: float) -> Path:
    root = demo_root()
    try:
        make_folder(root)
        close_to_others(root)
        for old in root.iterdir():
            with suppress(OSError):
                if old.is_dir() and now - old.stat().st_mtime > _OLD:
                    shutil.rmtree(old, ignore_errors=True)
        return Path(tempfile.mkdtemp(prefix="demo-", dir=root))
    except OSError:
        return Path(tempfile.mkdtemp(prefix="hands-on-demo-"))
