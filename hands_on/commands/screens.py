"""The commands that open screens: none at all, `demo`, `examine`."""

from __future__ import annotations

import argparse
from pathlib import Path

from hands_on.commands.shared import CommandError, Context


def run(context: Context, options: argparse.Namespace) -> int:
    """Open the start screen, or the examination asked for."""
    from hands_on.tui.run import start

    sessions, notice = context.sessions, ""
    file: Path | None = None
    new = False
    if options.command == "demo":
        from hands_on.store.demo import demo_folder

        sessions = demo_folder()
        notice = "This is a copy of the demo: invented dogs, nothing here touches your own records."
    elif options.command == "examine":
        file = _session_file(options.file, context) if options.file else None
        new = file is None
        if file is not None and options.ruleset:
            raise CommandError("--ruleset is for a new examination; a session keeps its own edition.")
        if options.ruleset:
            _known(context, options.ruleset)
    ruleset = getattr(options, "ruleset", None)
    return start(
        sessions, list(context.ruleset_folders), examine=file, new=new, ruleset=ruleset, notice=notice
    )


def _session_file(name: str, context: Context) -> Path:
    """The file named, as a path or as a file in the sessions folder."""
    for path in (Path(name), context.sessions / name):
        if path.is_file():
            return path
    raise CommandError(f"{name}: there is no such session. `hands-on records` lists those kept.")


def _known(context: Context, ruleset: str) -> None:
    from hands_on.store.errors import UnknownEdition
    from hands_on.store.library import near_ids

    known = [head.id for head in context.library.heads()]
    if ruleset not in known:
        raise CommandError(str(UnknownEdition(ruleset, near_ids(ruleset, known), known)))
