"""Opens the screens, where there is a terminal to open them on."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from hands_on.plain_text import shell_word
from hands_on.tui.asks import Ask, OpenFile

NO_TERMINAL = 2
"""Exit code: there is no terminal for screens."""

_MADE = 50_000
"""Objects that come into being before garbage is looked for: screens come and go."""


def start(
    sessions: Path,
    rulesets: Sequence[Path] | None,
    *,
    notice: str = "",
    opens: Ask | None = None,
) -> int:
    """Open the start screen and, over it, what `opens` asks for.

    `rulesets` are the folders of editions, shipped ones first; None takes the usual ones. `notice` is shown
    on the start screen. The exit code is returned.
    """
    why = no_screens()
    if why:
        print(f"hands-on: {why}\n{instead(opens)}", file=sys.stderr)
        return NO_TERMINAL
    from hands_on.store import places
    from hands_on.tui.app import HandsOn

    gc.set_threshold(_MADE)

    folders = tuple(rulesets) if rulesets is not None else places.ruleset_folders()
    app = HandsOn(sessions, folders, notice=notice, opens=opens)
    app.run()
    for line in app.farewell:
        print(line)
    return app.return_code or 0


def no_screens() -> str:
    """Why screens can't be shown here; empty when they can."""
    # The screens are drawn on standard error, so that one has to be a terminal too.
    if not all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout, sys.__stderr__)):
        return "the screens need a terminal; input or output here is none."
    if os.environ.get("TERM", "") in ("", "dumb", "unknown"):
        return f"this terminal says it can't place text (TERM={os.environ.get('TERM', '')!r})."
    return ""


def instead(opens: Ask | None) -> str:
    """Which plain commands serve without screens."""
    file = shell_word(str(opens.path)) if isinstance(opens, OpenFile) else "FILE"
    rows = [
        f"Without screens: `hands-on assess {file}` tells what a session gives, `hands-on records` lists the",
        "sessions, `hands-on rulesets` the editions. A session may also be written by hand: the format is",
        "explained in sessions/README.md, and `hands-on check FILE` tries it.",
    ]
    return "\n".join(rows)
