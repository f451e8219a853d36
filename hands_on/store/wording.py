"""The wording of rulesets on disk, read for the reader of notes without building any ruleset."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any
from weakref import WeakKeyDictionary

from hands_on.notes import Lexicon, OwnWords, build_lexicon
from hands_on.notes.own_words import as_examples
from hands_on.notes.source import Example, WordingSource, wording_from_documents
from hands_on.store.checked import NOTES, digest_of, keep, kept
from hands_on.store.edition_heads import EditionHead
from hands_on.store.errors import UnknownEdition
from hands_on.store.library import Library, near_ids
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables

_LEXICONS: WeakKeyDictionary[Library, dict[str | None, Lexicon]] = WeakKeyDictionary()


def lexicon(library: Library, edition: str | None = None, own: Iterable[OwnWords] = ()) -> Lexicon:
    """The lexicon of the wording of `edition`, or of all when None; made ready once for a library.

    It learns from the evaluator's own words as they are then. Raises as `wording` does.
    """
    built = _LEXICONS.setdefault(library, {})
    if edition not in built:
        built[edition] = _kept_or_built(library, edition, as_examples(own))
    return built[edition]


def _kept_or_built(library: Library, edition: str | None, taught: Sequence[Example]) -> Lexicon:
    """Building takes more than a second, taking up what was kept less than a tenth of that."""
    key = _key(library, edition, taught)
    found = kept(key, Lexicon) if key else None
    if found is None:
        source = wording(library, edition)
        found = build_lexicon(replace(source, examples=(*source.examples, *taught)))
        if key:
            keep(key, found)
    return found


def _key(library: Library, edition: str | None, taught: Sequence[Example]) -> str:
    """Under what the lexicon is kept; empty where a file can't be read."""
    from pydantic import VERSION

    try:
        paths = [*_paths(library, edition), *library.language_paths()]
        texts = [part for path in paths for part in (os.fsencode(path.name), read_bytes(path))]
    except BadText:
        return ""
    return digest_of(f"lexicon {VERSION} {edition}", [*texts, repr(taught).encode()], NOTES)


def wording(library: Library, edition: str | None = None) -> WordingSource:
    """The common wording with that of `edition` and what it builds on, or of every edition when None.

    An edition whose file can't be used is passed over; when it is the one asked for, `Library.load` says
    why. Raises UnknownEdition, or BadText for the language file.
    """
    documents = [tables for path in _paths(library, edition) if (tables := _tables(path))]
    asked: dict[str, str] = {}
    seen: set[str] = set()
    if edition is not None:
        for tables in documents:
            asked |= {
                point: text for point, entry in _entries(tables, "asked") if (text := entry.get("text"))
            }
            seen.update(point for point, _ in _entries(tables, "seen"))
    return wording_from_documents(
        documents, library.language(), library.ordinary_words(), library.examples(), asked, seen
    )


def _paths(library: Library, edition: str | None) -> list[Path]:
    """The files that the wording stands in, the common ones first. Raises UnknownEdition."""
    heads = {head.id: head for head in library.heads()}
    if edition is None:
        wanted = [head for head in heads.values() if head.problem is None]
    elif edition in heads:
        wanted = _chain(heads[edition], heads)
    else:
        raise UnknownEdition(edition, near_ids(edition, heads), sorted(heads))
    return [*library.common_paths(), *(head.path for head in wanted)]


def _chain(head: EditionHead, heads: dict[str, EditionHead]) -> list[EditionHead]:
    """The edition and what it builds on, oldest first; a circle ends where it closes."""
    chain = [head]
    while (older := _tables(chain[0].path).get("builds_on")) in heads and heads[older] not in chain:
        chain.insert(0, heads[older])
    return chain


def _entries(tables: dict[str, Any], name: str) -> list[tuple[str, dict[str, Any]]]:
    """The entries of a table of tables, by point."""
    table = tables.get(name)
    return [(p, e) for p, e in table.items() if isinstance(e, dict)] if isinstance(table, dict) else []


def _tables(path: Path) -> dict[str, Any]:
    try:
        return parse_tables(decode(read_bytes(path), str(path)), str(path))
    except BadText:
        return {}
