"""A new edition's file: a commented start, or a copy of another edition; and what comes after it."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from hands_on.plain_text import shell_word
from hands_on.ruleset.start import begun, copied, flaw_of_id
from hands_on.store.edition_heads import EditionHead
from hands_on.store.errors import StoreError, UnknownEdition, reason_of
from hands_on.store.library import near_ids
from hands_on.store.places import ruleset_folders, shipped_rulesets
from hands_on.store.private import make_folder
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables

TEMPLATE = Path("template") / "edition.toml"
"""In the folder of the shipped rulesets; a folder of its own, so that it is listed as no edition."""


class NotBegun(StoreError):
    """The edition could not be begun; nothing was written."""


def flaw_of_new(name: str, heads: Sequence[EditionHead]) -> str:
    """Why `name` can be no new edition's id beside those of `heads`; empty when it can."""
    flaw = flaw_of_id(name)
    if flaw:
        return flaw
    taken = next((head for head in heads if name in (head.id, head.path.stem)), None)
    return f'the id "{name}" is taken by {taken.path}. Right: another id.' if taken is not None else ""


def begin(name: str, heads: Sequence[EditionHead], origin: str | None, path: Path) -> None:
    """Write the file of the edition `name` to `path`, as a copy of `origin` or, without one, as the template.

    An existing file is never touched. Raises NotBegun for an id that can't be used or is taken, for an
    edition to copy that is not here or is broken, and where the file can't be written; BadText where the
    text to begin with can't be read.
    """
    flaw = flaw_of_new(name, heads)
    if flaw:
        raise NotBegun(flaw)
    _write(path, _copy(heads, origin, name) if origin else begun(_text(shipped_rulesets() / TEMPLATE), name))


def next_steps(name: str, path: Path) -> list[str]:
    """The commands that come next, as they are typed: check, read, examine."""
    check = f"hands-on check {shell_word(str(path))}"
    found = os.path.realpath(path.parent) in [os.path.realpath(folder) for folder in ruleset_folders()]
    where = "" if found else f" --rulesets {shell_word(str(path.parent))}"
    return [check, f"hands-on rulesets {name}{where}", f"hands-on examine --ruleset {name}{where}"]


def nearest_edition(tables: Mapping[str, Any], heads: Sequence[EditionHead], *, without: str) -> str | None:
    """The edition whose heights lie nearest to those of `tables`; of the same breed before all others."""
    own = _heights(tables)

    def away(head: EditionHead) -> tuple[bool, float]:
        try:
            theirs = _heights(parse_tables(_text(head.path), str(head.path)))
        except BadText:
            theirs = {}
        both = [abs(own[key] - theirs[key]) for key in own if key in theirs]
        return head.breed != tables.get("breed"), sum(both) / len(both) if both else 999.0

    rows = [head for head in heads if head.problem is None and head.id not in (without, "any-dog")]
    return min(rows, key=away).id if rows else None


def _heights(tables: Mapping[str, Any]) -> dict[str, float]:
    """Middle of the heights asked for, in cm, by sex."""
    out: dict[str, float] = {}
    for limit in tables.get("limits", []):
        asked = limit.get("asked", {})
        ends = [asked[key] for key in ("from", "above", "to", "below") if key in asked]
        if limit.get("measure") == "height" and ends:
            scale = 2.54 if limit.get("unit") == "in" else 1.0
            out.setdefault(limit.get("when", {}).get("sex", ""), scale * sum(ends) / len(ends))
    return out


def guide() -> Path:
    """Where every key of an edition's file is explained."""
    return shipped_rulesets() / "README.md"


def _copy(heads: Sequence[EditionHead], origin: str, name: str) -> str:
    known = {head.id: head for head in heads if head.problem is None}
    if origin not in known:
        broken = next((head.problem for head in heads if head.id == origin and head.problem), None)
        if broken:
            raise NotBegun(f"{origin} can't be copied before it is mended: {broken}")
        raise NotBegun(str(UnknownEdition(origin, near_ids(origin, known), sorted(known))))
    head = known[origin]
    return copied(_text(head.path), name, origin=origin, title=head.title)


def _text(path: Path) -> str:
    """The text of a file that is TOML to its end. Raises BadText."""
    text = decode(read_bytes(path), str(path))
    parse_tables(text, str(path))
    return text


def _write(path: Path, text: str) -> None:
    """A new file, whole or not at all."""
    made = False
    try:
        make_folder(path.parent)
        with path.open("x", encoding="utf-8", newline="") as file:
            made = True
            file.write(text)
    except FileExistsError as error:
        what = (
            "there is such a file already, which is left as it is"
            if os.path.exists(path)
            else reason_of(error)
        )
        raise NotBegun(f"{path}: {what}.") from error
    except OSError as error:
        if made:
            path.unlink(missing_ok=True)
        raise NotBegun(f"{path} can't be written: {reason_of(error)}.") from error
