"""Which editions there are: each file's first lines, read without building any ruleset."""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

from hands_on.frozen import dataclass
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.tables import parse_tables

FORMAT = 1

OWN_WALKS = "walks.toml"
"""In the user's folder of rulesets: their own shorter walks, for all editions."""

_TABLE_LINE = re.compile(r"^[ \t]*\[", re.MULTILINE)

_TOLD = ("id", "title", "breed", "body", "number", "edition", "builds_on")


@dataclass(frozen=True)
class EditionHead:
    """What an edition's file says of itself in its first lines."""

    id: str
    title: str
    breed: str
    body: str
    number: str
    edition: str
    path: Path
    builds_on: str = ""
    problem: Problem | None = None
    """Why the edition can't be used, as far as the head tells; `load` finds the rest."""
    note: str = ""
    """Not empty: the edition stands for a shipped one of the same id."""


def survey(folders: Sequence[Path], whole: bool = False) -> tuple[list[EditionHead], dict[str, Path]]:
    """Every edition, and where that of each id is."""
    used: dict[str, EditionHead] = {}
    useless: list[EditionHead] = []
    nameless: list[EditionHead] = []
    for place, folder in enumerate(folders):
        here: dict[str, EditionHead] = {}
        for head, named in _heads([path for path in toml_files(folder) if path.name != OWN_WALKS], whole):
            if not named:
                nameless.append(head)
            elif head.id in here:
                useless.append(_second(head, here[head.id]))
            elif place and head.id in used:
                older = used[head.id].path.parent
                here[head.id] = replace(head, note=f"your own file stands for the one in {older}")
            else:
                here[head.id] = head
        used |= here
    for head in nameless:  # called by their files' names, unless that hides an edition
        if head.id in used:
            useless.append(head)
        else:
            used[head.id] = head
    return [*used.values(), *useless], {name: head.path for name, head in used.items()}


def toml_files(folder: Path) -> list[Path]:
    """The TOML files of a folder, hidden ones apart; none where it can't be read."""
    try:
        return sorted(path for path in folder.iterdir() if path.suffix == ".toml" and path.name[0] != ".")
    except OSError:
        return []


def _heads(paths: Sequence[Path], whole: bool) -> list[tuple[EditionHead, bool]]:
    """The head of each file, and whether the file itself told its id; where all of them can be used they are
    kept for the next time."""
    from hands_on.store.checked import digest_of, keep, kept

    try:
        key = digest_of(f"heads {whole}", map(read_bytes, paths))
    except BadText:
        return [_head(path, whole) for path in paths]
    known = kept(key, tuple)
    if known is None:
        found = [_head(path, whole) for path in paths]
        if paths and all(named and head.problem is None for head, named in found):
            keep(key, tuple({name: getattr(head, name) for name in _TOLD} for head, _ in found))
        return found
    return [(EditionHead(**told, path=path), True) for told, path in zip(known, paths, strict=True)]


def _head(path: Path, whole: bool) -> tuple[EditionHead, bool]:
    """The head of a file, and whether the file itself told its id."""
    name = str(path)
    try:
        text = decode(read_bytes(path), name)
        tables = parse_tables(text, name) if whole else _first_tables(text, name)
        problem = format_problem(tables, FORMAT, text, name) or _unusable(tables, name)
    except BadText as error:
        tables, problem = {}, error.problems[0]
    words = {key: tables.get(key) for key in _TOLD}
    texts = {key: value if isinstance(value, str) else "" for key, value in words.items()}
    identity, title = texts.pop("id"), texts.pop("title")
    head = EditionHead(identity or path.stem, title or path.stem, path=path, problem=problem, **texts)
    return head, bool(identity)


def _first_tables(text: str, name: str) -> dict[str, Any]:
    """The keys before the first table. What is cut off is parsed only where the cut goes through a value."""
    cut = _TABLE_LINE.search(text)
    if cut is not None:
        with suppress(BadText):
            return parse_tables(text[: cut.start()], name)
    return parse_tables(text, name)


def _unusable(tables: dict[str, Any], name: str) -> Problem | None:
    for key in ("id", "builds_on", "breed", "title", "edition"):
        if not isinstance(tables.get(key), str) or not tables[key]:
            right = f'a line `{key} = "..."` above the first table.'
            return Problem(name, None, key, f"`{key}` is missing, or is no text.", right)
    return None


def _second(second: EditionHead, first: EditionHead) -> EditionHead:
    what = f"the id {second.id!r} is used by {first.path.name} too; that file is the one used."
    return replace(second, problem=Problem(str(second.path), None, "id", what, "an id of its own."))
