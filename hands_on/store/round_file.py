"""The file of a seminar round, read and written; what stands in it is for `exam.round`."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.store.atomic import write_atomic
from hands_on.store.errors import saving_anew
from hands_on.store.letters import folded
from hands_on.store.private import make_folder
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables

if TYPE_CHECKING:
    from hands_on.exam.round import Round

__all__ = ["new_round_id", "read_round", "rounds_folder", "rounds_in", "rounds_of", "write_round"]


def read_round(path: Path) -> Round | None:
    """The round in a file; None where it holds none.

    Raises BadText for a round that is broken; a file that is no readable TOML is no round.
    """
    name = str(path)
    try:
        data = read_bytes(path)
        if b"round" not in data or b"dogs" not in data:
            return None
        # Only here: the command that compares asks this of every file, and next to none holds a round.
        from hands_on.exam.round import is_round, parse_round

        text = decode(data, name)
        if not is_round(parse_tables(text, name)):
            return None
    except BadText:
        return None  # whoever reads it as a session will say what is wrong
    return parse_round(text, name)


def write_round(path: Path, found: Round) -> None:
    """Put a round into a file that is not there yet, making its folder. Raises NotSaved."""
    from hands_on.exam.round import dump_round

    with saving_anew(path):
        make_folder(path.parent)
        write_atomic(path, dump_round(found), new=True)


def rounds_folder(sessions: Path) -> Path:
    """Where rounds are kept: beside the sessions, and not among them."""
    return sessions / "rounds"


def rounds_in(folder: Path) -> list[tuple[Path, Round]]:
    """The rounds in a folder that can be read, the newest first; none where there is no such folder."""
    return rounds_of(sorted(folder.glob("*.toml"), key=_changed, reverse=True))


def rounds_of(paths: Iterable[Path]) -> list[tuple[Path, Round]]:
    """The rounds in these files, in their order; a file that can't be read or holds none is left out."""
    found = []
    for path in paths:
        try:
            one = read_round(path)
        except BadText:
            continue
        if one is not None:
            found.append((path, one))
    return found


def _changed(path: Path) -> float:
    """When the file was changed; one that can't be looked at hides no other."""
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def new_round_id(title: str, day: str) -> str:
    """An id for a round: the title in plain letters, and the day."""
    words = "".join(char if char.isascii() and char.isalnum() else " " for char in folded(title)).split()
    return "-".join([*words[:6], day]) if words else f"round-{day}"
