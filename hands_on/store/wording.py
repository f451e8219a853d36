"""The wording of rulesets on disk, read for the reader of notes without building any ruleset."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any
from weakref import WeakKeyDictionary

from hands_on.notes import Lexicon, OwnWords, build_lexicon
from hands_on.notes.own_words import as_examples
from hands_on.notes.source import WordingSource, wording_from_documents
from hands_on.store.edition_heads import EditionHead
from hands_on.store.errors import UnknownEdition
from hands_on.store.library import Library, near_ids
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables

_LEXICONS: WeakKeyDictionary[Library, dict[str, Lexicon]] = WeakKeyDictionary()


def lexicon(library: Library, edition: str, own: Iterable[OwnWords] = ()) -> Lexicon:
    """The lexicon of an edition's wording, built once for a library. Raises as `wording` does.

    It learns from the evaluator's own words as they are when it is built.
    """
    built = _LEXICONS.setdefault(library, {})
    if edition not in built:
        source = wording(library, edition)
        built[edition] = build_lexicon(replace(source, examples=(*source.examples, *as_examples(own))))
    return built[edition]


def wording(library: Library, edition: str | None = None) -> WordingSource:
    """The common wording with that of `edition` and what it builds on, or of every edition when None.

    An edition whose file can't be used is passed over; when it is the one asked for, `Library.load` says
    why. Raises UnknownEdition, or BadText for the language file.
    """
    heads = {head.id: head for head in library.heads()}
    if edition is None:
        wanted = [head for head in heads.values() if head.problem is None]
    elif edition in heads:
        wanted = _chain(heads[edition], heads)
    else:
        raise UnknownEdition(edition, near_ids(edition, heads), sorted(heads))
    paths = [*library.common_paths(), *(head.path for head in wanted)]
    documents = [tables for path in paths if (tables := _tables(path))]
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
