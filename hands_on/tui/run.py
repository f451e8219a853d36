"""Opens the screens, where there is a terminal to open them on."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hands_on.tui.app import HandsOn

NO_TERMINAL = 2
"""Exit code: there is no terminal for screens."""


def start(
    sessions: Path,
    rulesets: Sequence[Path] | None,
    *,
    examine: Path | None = None,
    new: bool = False,
    ruleset: str | None = None,
    notice: str = "",
    opens: Callable[[HandsOn], object] | None = None,
) -> int:
    """Open the start screen, the session `examine`, or with `new` a new examination under `ruleset`.

    `rulesets` are the folders of editions, shipped ones first; None takes the usual ones. `notice` is shown
    on the start screen; `opens` opens something else over it. The exit code is returned.
    """
    why = no_screens()
    if why:
        print(f"hands-on: {why}\n{instead(examine)}", file=sys.stderr)
        return NO_TERMINAL
    from hands_on.store import places
    from hands_on.tui.app import HandsOn

    folders = tuple(rulesets) if rulesets is not None else places.ruleset_folders()
    app = HandsOn(sessions, folders, examine=examine, new=new, ruleset=ruleset, notice=notice, opens=opens)
    app.run()
    for line in app.farewell:
        print(line)
    return app.return_code or 0


def no_screens() -> str:
    """Why screens can't be shown here; empty when they can."""
    if not sys.stdin.isatty() or not sys.stdout.isatty():
        return "the screens need a terminal; input or output here is none."
    if os.environ.get("TERM", "") in ("", "dumb", "unknown"):
        return f"this terminal says it can't place text (TERM={os.environ.get('TERM', '')!r})."
    return ""


def instead(examine: Path | None) -> str:
    """Which plain commands serve without screens."""
    file = str(examine) if examine else "FILE"
    rows = [
        f"Without screens: `hands-on assess {file}` tells what a session gives, `hands-on records` lists the",
        "sessions, `hands-on rulesets` the editions. A session may also be written by hand: the format is",
        "explained in sessions/README.md, and `hands-on check FILE` tries it.",
    ]
    return "\n".join(rows)
