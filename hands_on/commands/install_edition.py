"""`hands-on rulesets --install FILE`: an edition that somebody sent, checked and put in its place."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.ruleset.files import EditionFile
    from hands_on.store.edition_heads import EditionHead


def run(context: Context, file: str, *, replace: bool, as_json: bool) -> int:
    """Check the file and copy it among the user's own editions; 1 where it is not sound.

    Another edition of that id is replaced only when `replace` says so or the question is answered with yes.
    Raises CommandError for a file that can't be read or put there.
    """
    from hands_on.ruleset.check import check_edition
    from hands_on.store.atomic import write_atomic
    from hands_on.store.private import make_folder
    from hands_on.store.text_file import decode, read_bytes
    from hands_on.toml_text.problems import BadText
    from hands_on.toml_text.tables import parse_tables

    source = Path(file)
    heads = context.library.heads(whole=True)
    try:
        text = decode(read_bytes(source), file)
        name = str(parse_tables(text, file).get("id", ""))
        problems = [
            str(one) for one in check_edition(text, f"{name}.toml", context.library.common(), _known(heads))
        ]
    except BadText as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    if problems:
        for problem in problems:
            print(visible(problem), file=sys.stderr)
        print(visible(f"{file} was not installed: it is not sound yet."), file=sys.stderr)
        return 1
    target = context.ruleset_folders[-1] / f"{name}.toml"
    taken = next((head for head in heads if head.id == name), None)
    if taken is not None and os.path.realpath(taken.path) != os.path.realpath(target):
        raise CommandError(
            visible(f'the id "{name}" is taken by {taken.path}. Right: another id in the file.')
        )
    if os.path.exists(target) and not replace and not _agreed(target):
        raise CommandError(visible(f"{target} stays as it is. To put the new one there: --replace."))
    try:
        make_folder(target.parent)
        write_atomic(target, text)
    except OSError as error:
        raise CommandError(visible(f"{target} can't be written: {error.strerror or error}.")) from error
    breed = str(parse_tables(text, file).get("breed", ""))
    others = [head.id for head in heads if head.breed == breed and head.id != name and head.problem is None]
    if as_json:
        print_json({"id": name, "path": str(target), "same_breed": others})
        return 0
    print(visible(f"Installed: {target}\nUse it: hands-on examine --ruleset {name}", keep="\n"))
    for other in others:
        print(visible(f"What differs from {other}: hands-on rulesets {name} --against {other}"))
    return 0


def _known(heads: list[EditionHead]) -> Callable[[str], EditionFile | None]:
    from hands_on.ruleset.assemble import read_edition_file
    from hands_on.store.text_file import decode, read_bytes

    def of(name: str) -> EditionFile | None:
        head = next((one for one in heads if one.id == name and one.problem is None), None)
        return (
            read_edition_file(decode(read_bytes(head.path), str(head.path)), str(head.path)) if head else None
        )

    return of


def _agreed(target: Path) -> bool:
    """Asked on a terminal; without one nothing is replaced."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    return input(f"{visible(str(target))} is there already. Replace it? [y/N] ").strip().lower() in (
        "y",
        "yes",
    )
