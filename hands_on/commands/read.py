"""`hands-on read [NOTE ...]`: notes to findings and measurements."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterable

from hands_on.commands.own_words import known_words
from hands_on.commands.reading_text import reading_text, steps_text
from hands_on.commands.shared import CommandError, Context, json_text
from hands_on.notes import Lexicon, OwnWords, WordingSource, explain, read_note, vocabulary
from hands_on.plain_text import visible

_LONGEST = 1_000_000
"""Characters of a file that are looked at."""


def run(
    context: Context,
    notes: list[str],
    *,
    edition: str | None,
    region: str | None,
    as_json: bool,
    steps: bool = False,
) -> int:
    """Print what each note says: one JSON document a line, or plain text.

    A note that names a file is that file, a paragraph a note. Without notes, standard input is read, a note a
    line. `steps`: how each came to be read so is printed before it.
    """
    own = known_words(context)
    lexicon, source = _made_ready(context, edition, own, labels=not as_json)
    regions = sorted(set(lexicon.regions.values()))
    if region is not None and region not in regions:
        raise CommandError(f"there is no region {region!r}. Known: {', '.join(regions)}.")
    mine = vocabulary(own, lexicon)
    said = (one for note in notes for one in _paragraphs(note)) if notes else _lines()
    for note in said:
        if steps:
            told = steps_text(explain(note, lexicon, region))
            print(told, flush=True, file=sys.stderr if as_json else None)
        reading = mine.hold_against(read_note(note, lexicon, region=region), region)
        print(reading_text(reading, source) if source else json_text(reading.as_json()), flush=True)
    return 0


def _made_ready(
    context: Context, edition: str | None, own: Iterable[OwnWords], *, labels: bool
) -> tuple[Lexicon, WordingSource | None]:
    """What notes are read with; and, where labels are wanted, the wording that holds them."""
    from hands_on.store.errors import StoreError
    from hands_on.store.wording import lexicon, wording
    from hands_on.toml_text.problems import BadText

    try:
        ready = lexicon(context.library, edition, own)
        return ready, wording(context.library, edition) if labels else None
    except (StoreError, BadText, OSError) as error:
        raise CommandError(visible(str(error), keep="\n")) from error


def _lines() -> Iterable[str]:
    """Standard input line by line; bytes that are no UTF-8 become replacement signs."""
    for line in sys.stdin.buffer:
        yield line.decode("utf-8", errors="replace").rstrip("\r\n")


def _paragraphs(note: str) -> list[str]:
    """The paragraphs of a file, each on one line; or the note itself, where it names none."""
    if not os.path.isfile(note):
        return [note]
    try:
        with open(note, encoding="utf-8", errors="replace") as file:
            text = file.read(_LONGEST)
    except OSError as error:
        raise CommandError(f"{visible(note)} can't be read: {error.strerror}.") from error
    found = [" ".join(part.split()) for part in re.split(r"\n[ \t]*\n", text)]
    return [part for part in found if part]
