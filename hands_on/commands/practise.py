"""`hands-on practise`: drawn dogs to grade on a screen; with --progress what the answers tell so far."""

from __future__ import annotations

import argparse
import textwrap
from dataclasses import asdict

from hands_on.commands.shared import CommandError, Context, print_json, text_width
from hands_on.figure.practice import learned
from hands_on.store.errors import StoreError
from hands_on.store.practice_file import practice_path, read_answers
from hands_on.wording.practice import NO_DOGS, learned_rows

MOST = 60
"""Figures of one series."""


def run(context: Context, options: argparse.Namespace) -> int:
    """Open the practice, or print the progress. Raises CommandError for what cannot be read or opened."""
    if options.count is not None and not 1 <= options.count <= MOST:
        raise CommandError(f"--count {options.count}: between 1 and {MOST} figures make a series.")
    if options.ruleset is not None:
        from hands_on.commands.rulesets import load

        load(context, options.ruleset)
    if options.progress or options.json:
        return _progress(context, as_json=options.json)
    from hands_on.tui.asks import Practise
    from hands_on.tui.run import no_screens, start

    why = no_screens()
    if why:
        raise CommandError(f"{why}\nWithout screens: `hands-on practise --progress` tells what was learned.")
    opens = Practise(options.ruleset, options.seed, options.count)
    return start(context.sessions, list(context.ruleset_folders), opens=opens)


def _progress(context: Context, *, as_json: bool) -> int:
    try:
        rows = learned(read_answers(practice_path()))
    except StoreError as error:
        raise CommandError(str(error)) from error
    if as_json:
        print_json([asdict(row) for row in rows])
        return 0
    if not rows:
        print("Nothing was practised yet: `hands-on practise` begins.")
        return 0
    ruleset = context.library.load("any-dog")
    for row in [NO_DOGS, *learned_rows(ruleset, rows)]:
        print(textwrap.fill(row, text_width(), subsequent_indent="  "))
    return 0
