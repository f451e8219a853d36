"""`hands-on read --own`: the evaluator's own words listed, taken out, brought in, carried along."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.notes import OwnWords
from hands_on.notes.own_words import in_words
from hands_on.plain_text import one_line, visible
from hands_on.store import places
from hands_on.store.errors import StoreError
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.store.wording import wording
from hands_on.toml_text.problems import BadText


def run(context: Context, options: argparse.Namespace) -> int:
    """List the phrases, or change the list as the options say.

    Raises CommandError where options go with nothing or not with each other, or the list can't be read or
    changed.
    """
    given = {"--remove": options.remove, "--from": options.bring, "--to": options.carry}
    used = [name for name, value in given.items() if value is not None]
    if used and not options.own:
        raise CommandError(f"{used[0]} goes with --own: hands-on read --own {used[0]} ...")
    if len(used) > 1:
        raise CommandError(f"{used[0]} and {used[1]} can't go together.")
    if options.notes:
        raise CommandError("--own takes no NOTE: it lists your own words.")
    file = OwnWordsFile(places.own_words_path(context.sessions))
    try:
        if options.remove is not None:
            _remove(file, options.remove)
        elif options.bring is not None:
            _bring(file, options.bring)
        elif options.carry is not None:
            told = file.carry_to(options.carry)
            print(f"{_counted(len(told))} written to {visible(str(options.carry))}")
        else:
            _list(context, file, options.json)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    return 0


def known_words(context: Context) -> tuple[OwnWords, ...]:
    """The phrases kept; where their file can't be read that is told, and notes are read without them."""
    try:
        return OwnWordsFile(places.own_words_path(context.sessions)).read()
    except (StoreError, BadText) as error:
        told = visible(str(error), keep="\n")
        print(f"hands-on: {told}\nNotes are read without your own words.", file=sys.stderr)
        return ()


def _remove(file: OwnWordsFile, number: int) -> None:
    words = file.read()
    if not 1 <= number <= len(words):
        there = f"the list has 1 to {len(words)}" if words else "the list is empty"
        raise CommandError(f"--remove {number}: there is no such phrase; {there}.")
    gone = words[number - 1]
    file.remove(gone)
    print(f"Taken out: “{one_line(gone.said)}”")


def _bring(file: OwnWordsFile, source: Path) -> None:
    before = file.read()
    found = OwnWordsFile(source)
    if not source.is_file():
        raise CommandError(f"--from {visible(str(source))}: there is no such file.")
    after = file.remember(found.read())
    new = len(after) - len(before)
    print(f"{_counted(len(after))} now, {new} of them new")


def _list(context: Context, file: OwnWordsFile, as_json: bool) -> None:
    words = file.read()
    if as_json:
        print_json({"file": str(file.path), "words": [one.model_dump() for one in words]})
        return
    if not words:
        print("No words of your own yet: they are remembered when you put a reading right in the note line.")
        return
    faults = wording(context.library).faults

    def label(name: str) -> str:
        return f"{faults[name].label} ({name})" if name in faults else f"{one_line(name)} (not known here)"

    print(visible(str(file.path)))
    for number, one in enumerate(words, 1):
        where = f" (at {one_line(one.region)})" if one.region else ""
        print(f"{number:3}. “{one_line(one.said)}”{where}: {in_words(one, label)}")


def _counted(count: int) -> str:
    return f"{count} phrase" + ("" if count == 1 else "s")
