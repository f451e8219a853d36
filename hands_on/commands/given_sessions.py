"""Sessions from files and folders, each with its edition, for the commands that compare."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.commands.shared import CommandError
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.examined import Examined


def held(context: Context, files: Sequence[str]) -> list[Examined]:
    """The sessions in `files`, in that order.

    A folder stands for the sessions in it, the file of a seminar round for those that name the round, beside
    it, in the folder where they were gathered, or among the sessions kept; what cannot be read there is told
    on standard error and left out. Raises CommandError for a file that was named and cannot be used.
    """
    found: list[Examined] = []
    seen: set[str] = set()
    for name in files:
        for path, must, round_id in _paths(Path(name), context.sessions):
            real = os.path.realpath(path)
            if real in seen:
                continue
            seen.add(real)
            one = _one(context, path, must)
            if one is not None and (round_id is None or _in_round(one, round_id)):
                found.append(one)
    return found


def _paths(path: Path, also: Path) -> Iterator[tuple[Path, bool, str | None]]:
    """Files, whether each must be readable, and the round it must name."""
    if os.path.isdir(path):
        for entry in sorted(path.glob("*.toml")):
            if _round_id(entry) is None:
                yield entry, False, None
        return
    round_id = _round_id(path)
    if round_id is None:
        yield path, True, None
        return
    from hands_on.store.gather import gathered_folder

    for folder in dict.fromkeys((path.parent, gathered_folder(path), also)):
        for entry in sorted(folder.glob("*.toml")):
            if entry != path and _speaks_of(entry, round_id) and _round_id(entry) is None:
                yield entry, False, round_id


def _speaks_of(path: Path, round_id: str) -> bool:
    """May the file name the round? Cheap, so that thousands of other sessions cost little."""
    try:
        return round_id.encode() in path.read_bytes()
    except OSError:
        return True  # whoever reads it will say what is wrong


def _round_id(path: Path) -> str | None:
    """The id of the round in a file; None where the file holds no round."""
    from hands_on.store.round_file import read_round
    from hands_on.toml_text.problems import BadText

    try:
        found = read_round(path)
    except BadText as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    return found.round.id if found is not None else None


def _one(context: Context, path: Path, must: bool) -> Examined | None:
    from hands_on.store.errors import StoreError
    from hands_on.store.examined import examined_file
    from hands_on.toml_text.problems import BadText

    try:
        return examined_file(path, context.library)
    except (StoreError, BadText) as error:
        text = visible(str(error), keep="\n")
        if must:
            raise CommandError(text) from error
        print(f"hands-on: left out: {text}", file=sys.stderr)
        return None


def _in_round(one: Examined, round_id: str) -> bool:
    from hands_on.exam.round import place_of

    place = place_of(one.session)
    return place is not None and place.round == round_id
