"""The commands that open screens: none at all, `demo`, `examine`; `compare` and `recheck` on a terminal."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from hands_on.commands.shared import CommandError, Context
from hands_on.tui.asks import (
    Ask,
    NewExamination,
    OpenFile,
    Pairing,
    Recheck,
    ShowAgreement,
    ShowSideBySide,
)


def run(context: Context, options: argparse.Namespace) -> int:
    """Open the start screen, or the examination asked for."""
    from hands_on.tui.run import start

    sessions, notice = context.sessions, ""
    opens: Ask | None = None
    if options.command == "demo":
        from hands_on.store.demo import demo_folder

        sessions = demo_folder()
        notice = "This is a copy of the demo: invented dogs, nothing here touches your own records."
    elif options.command == "examine":
        if options.file and options.ruleset:
            raise CommandError("--ruleset is for a new examination; a session keeps its own edition.")
        if options.file and options.walk:
            raise CommandError("--walk is for a new examination; a session keeps its own walk.")
        if options.ruleset:
            _known(context, options.ruleset)
        opens = (
            OpenFile(_session_file(options.file, context), options.sheets)
            if options.file
            else NewExamination(options.ruleset, options.walk, options.sheets)
        )
    return start(sessions, list(context.ruleset_folders), notice=notice, opens=opens)


def compare(context: Context, options: argparse.Namespace) -> int:
    """Print the comparison; on a terminal, unless text was asked for, open it as a screen.

    Raises CommandError for what cannot be read or compared.
    """
    from hands_on.commands import compare as plainly
    from hands_on.tui.run import no_screens

    if options.plain or options.json or no_screens():
        return plainly.run(
            options.files,
            pairing=options.pairing,
            plain=True,
            as_json=options.json,
            context=context,
            seed=options.seed,
        )
    from hands_on.commands.given_sessions import held
    from hands_on.compare.dogs.side_by_side import MOST

    sessions = held(context, options.files)
    most = 2 if options.pairing else MOST
    if not 2 <= len(sessions) <= most:
        wanted = "two sessions, sire and dam," if options.pairing else f"two to {MOST} sessions"
        raise CommandError(f"{wanted} are compared; here are {len(sessions)}.")
    return _open(context, Pairing(sessions) if options.pairing else ShowSideBySide(sessions, options.seed))


def agree(context: Context, options: argparse.Namespace) -> int:
    """Print the agreement; on a terminal, unless text was asked for, open it as a screen.

    Raises CommandError for what cannot be read.
    """
    from hands_on.commands import agree as plainly
    from hands_on.tui.run import no_screens

    asked = plainly.Asked(options.files, tuple(options.point or ()), options.reference)
    if options.plain or options.json or asked.points or asked.reference or no_screens():
        return plainly.run(asked, as_json=options.json, context=context)
    return _open(context, ShowAgreement(plainly.sessions_of(asked, context)))


def recheck(context: Context, options: argparse.Namespace) -> int:
    """Start a later examination of the dog in a file, or print what to look at and what has come of it.

    Raises CommandError for what cannot be read.
    """
    from hands_on.commands import recheck_plan

    files = [str(_session_file(name, context)) for name in options.files]
    if options.plan or options.json or len(files) > 1:
        return recheck_plan.run(files, as_json=options.json, context=context)
    from hands_on.tui.run import no_screens

    why = no_screens()
    if why:
        raise CommandError(
            f"{why}\nWithout screens: `hands-on recheck --plan FILE` tells what to look at again."
        )
    return _open(context, Recheck(Path(files[0])))


def _open(context: Context, opens: Ask) -> int:
    from hands_on.tui.run import start

    return start(context.sessions, list(context.ruleset_folders), opens=opens)


def _session_file(name: str, context: Context) -> Path:
    """The file named, as a path or as a file in the sessions folder."""
    for path in (Path(name), context.sessions / name):
        if os.path.isfile(path):
            return path
    if os.path.isdir(name):
        raise CommandError(f"{name}: this is a folder; name a session's file in it.")
    if os.path.exists(name):
        raise CommandError(f"{name}: this is not an ordinary file.")
    raise CommandError(f"{name}: there is no such session. `hands-on records` lists those kept.")


def _known(context: Context, ruleset: str) -> None:
    from hands_on.store.errors import UnknownEdition
    from hands_on.store.library import near_ids

    known = [head.id for head in context.library.heads()]
    if ruleset not in known:
        raise CommandError(str(UnknownEdition(ruleset, near_ids(ruleset, known), known)))
