"""The rulesets on disk: which there are (quickly), and one of them in full."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.frozen import dataclass
from hands_on.store.atomic import stamp_of
from hands_on.store.errors import UnknownEdition
from hands_on.store.places import language
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.tables import explained, parse_tables

if TYPE_CHECKING:
    from hands_on.exam.cautions import CautionsFile
    from hands_on.notes.language import Language
    from hands_on.ruleset.files import CommonFile, EditionFile
    from hands_on.ruleset.ruleset import Common, Ruleset
    from hands_on.ruleset.walks import Walk

_FORMAT = 1
_COMMON = "common"
_LANGUAGE = "language.toml"
_ORDINARY = "ordinary-words.txt"
_EXAMPLES = "examples"
"""In common/, but not a part of the ruleset format: how notes are read."""

_CRITIQUE = "critique"
"""In common/, but not a part of the ruleset format: how critiques are worded."""

_CAUTIONS = "cautions.toml"
"""In common/, but not a part of the ruleset format: what is read before a dog is touched."""

OWN_WALKS = "walks.toml"
"""In the user's folder of rulesets: their own shorter walks, for all editions."""

_TABLE_LINE = re.compile(r"^[ \t]*\[", re.MULTILINE)


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


class Library:
    """The editions in `folders`; the first holds the common parts, a later folder's edition wins."""

    def __init__(self, folders: Sequence[Path]) -> None:
        self.folders = tuple(folders)
        self._common: Common | None = None
        self.common_key = ""
        """Under what the common parts are kept; empty before `common` was called, or where they can't be."""
        self._language: Language | None = None
        self._loaded: dict[str, Ruleset] = {}
        self._heads_of: dict[tuple[Path, bool], tuple[list[Any], list[tuple[EditionHead, bool]]]] = {}

    def heads(self, *, whole: bool = False) -> list[EditionHead]:
        """Every edition, by title; a broken file is listed with its problem and hides no other.

        Only the lines before the first table are parsed; with `whole` all of each file is, which also
        finds text that is not TOML further down.
        """
        heads, _ = self._survey(whole)
        return sorted(heads, key=lambda head: (head.title.casefold(), head.id))

    def load(self, name: str) -> Ruleset:
        """The edition complete, with all that it builds on; the same object each time.

        Raises UnknownEdition with ids that look like it, or BadText (its own file, a file it builds on, or
        a common file).
        """
        if name not in self._loaded:
            from hands_on.ruleset.languages import in_language

            with explained(name):
                rules = in_language(self._assembled(name), language())
            self._loaded[name] = replace(rules, walks={**rules.walks, **self.own_walks()})
        return self._loaded[name]

    def _assembled(self, name: str) -> Ruleset:
        """The edition as its files say; what was read and found sound once is not read again."""
        from hands_on.ruleset.assemble import assemble
        from hands_on.store.checked import keep, kept

        try:
            common = self.common()
        except BadText:
            self._chain(name)  # what is wrong with the edition itself is told first
            raise
        key = self._key_of(name)
        known = kept(key, tuple) if key else None
        if known is not None:
            chain, digest = known
            return assemble(chain, common, digest)
        rules = assemble(chain := self._chain(name), common)
        if key:
            keep(key, (tuple(chain), rules.digest))
        return rules

    def _key_of(self, name: str) -> str:
        """Under what the edition is kept; empty where its files, by their heads, can't be used."""
        from hands_on.store.checked import digest_of

        heads = {head.id: head for head in self._survey()[0] if head.problem is None}
        texts: list[bytes] = []
        while self.common_key and name in heads and len(texts) < len(heads):
            try:
                texts.append(read_bytes(heads[name].path))
            except BadText:
                return ""
            name = heads[name].builds_on
            if name == _COMMON:
                return digest_of(f"edition {self.common_key}", texts)
        return ""

    def look_again(self) -> None:
        """Read the editions' files again when they are loaded next: they may have been edited."""
        self._loaded.clear()
        self._heads_of.clear()

    def own_walks(self) -> dict[str, Walk]:
        """The user's own shorter walks, by id: `walks.toml` in a folder behind the first.

        A file that cannot be used hides no edition and gives no walk; `hands-on check` tells what is wrong.
        """
        found: dict[str, Walk] = {}
        for folder in self.folders[1:]:
            path = folder / OWN_WALKS
            with suppress(BadText):
                if os.path.isfile(path):
                    from hands_on.ruleset.walks import WalksFile
                    from hands_on.toml_text.parse import validate

                    text = decode(read_bytes(path), str(path))
                    with explained(str(path)):
                        file = validate(WalksFile, parse_tables(text, str(path)), text, str(path))
                    found |= {walk.id: walk for walk in file.walks}
        return found

    def common(self) -> Common:
        """What all dogs share. Raises BadText with the problems of all common files."""
        if self._common is None:
            from hands_on.ruleset.ruleset import Common
            from hands_on.store.checked import keep, kept

            self.common_key = self._key_of_common()
            known = kept(self.common_key, Common) if self.common_key else None
            self._common = known or self._read_common()
            if known is None and self.common_key:
                keep(self.common_key, self._common)
        return self._common

    def _key_of_common(self) -> str:
        """Under what the common parts are kept; empty where a file can't be read."""
        from hands_on.store.checked import digest_of

        paths = self.common_paths()
        try:
            texts = [part for path in paths for part in (os.fsencode(path.name), read_bytes(path))]
        except BadText:
            return ""
        return digest_of("common", texts)

    def _read_common(self) -> Common:
        from hands_on.ruleset.assemble import assemble_common

        files, problems = self._common_files()
        if problems:
            raise BadText(problems)
        try:
            return assemble_common(files)
        except ValueError as error:
            name = str(self._common_folder() / "order.toml")
            right = "an `order` that names each region's file in common/."
            raise BadText([Problem(name, None, "order", f"{error}.", right)]) from error

    def language(self) -> Language:
        """common/language.toml; it knows no word where there is no file. Raises BadText."""
        from hands_on.notes.language import Language
        from hands_on.notes.language_check import read_language

        if self._language is None:
            path = self._common_folder() / _LANGUAGE
            if os.path.isfile(path):
                text = decode(read_bytes(path), str(path))
                with explained(str(path)):
                    self._language = read_language(parse_tables(text, str(path)), text, str(path))
            else:
                self._language = Language()
        return self._language

    def ordinary_words(self) -> frozenset[str]:
        """The common words of English in common/ordinary-words.txt; none where there is no file."""
        from hands_on.notes.source import ordinary_words

        path = self._common_folder() / _ORDINARY
        return ordinary_words(decode(read_bytes(path), str(path))) if os.path.isfile(path) else frozenset()

    def examples(self) -> list[dict[str, Any]]:
        """The labelled notes in common/examples, one JSON object a line. Raises BadText."""
        notes: list[dict[str, Any]] = []
        for path in sorted((self._common_folder() / _EXAMPLES).glob("*.jsonl")):
            lines = decode(read_bytes(path), str(path)).splitlines()
            for number, line in enumerate(lines, 1):
                try:
                    note = json.loads(line)
                except ValueError:
                    note = None
                if not isinstance(note, dict):
                    right = "A labelled note is one object on one line; see rulesets/README.md."
                    raise BadText([Problem(str(path), number, "", "This line is no JSON object.", right)])
                notes.append(note)
        return notes

    def cautions(self) -> CautionsFile:
        """What is read before a dog is touched. Raises BadText."""
        from hands_on.exam.cautions import CautionsFile
        from hands_on.toml_text.parse import validate

        path = self._common_folder() / _CAUTIONS
        text = decode(read_bytes(path), str(path))
        with explained(str(path)):
            return validate(CautionsFile, parse_tables(text, str(path)), text, str(path))

    def critique_folder(self) -> Path:
        """Where the language data of critiques are; `store.critiques` reads them."""
        return self._common_folder() / _CRITIQUE

    def _common_folder(self) -> Path:
        folders = [folder / _COMMON for folder in self.folders]
        return next((folder for folder in folders if os.path.isdir(folder)), folders[0])

    def common_paths(self) -> list[Path]:
        """The files of common/ that hold regions, points and faults."""
        paths = _toml_files(self._common_folder())
        return [path for path in paths if path.name not in (_LANGUAGE, _CAUTIONS)]

    def _common_files(self) -> tuple[list[CommonFile], list[Problem]]:
        from hands_on.ruleset.assemble import read_common_file

        files: list[CommonFile] = []
        problems: list[Problem] = []
        paths = self.common_paths()
        for path in paths:
            name = str(path)
            try:
                text = decode(read_bytes(path), name)
                with explained(name):
                    files.append(read_common_file(text, name))
            except BadText as error:
                problems += error.problems
        if not paths:
            what = "the common parts of the rulesets are not there."
            right = "the program installed anew."
            problems.append(Problem(str(self._common_folder()), None, "", what, right))
        return files, problems

    def _survey(self, whole: bool = False) -> tuple[list[EditionHead], dict[str, Path]]:
        """Every edition, and where that of each id is."""
        used: dict[str, EditionHead] = {}
        useless: list[EditionHead] = []
        nameless: list[EditionHead] = []
        for place, folder in enumerate(self.folders):
            here: dict[str, EditionHead] = {}
            for head, named in self._heads_in(folder, whole):
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

    def _heads_in(self, folder: Path, whole: bool) -> list[tuple[EditionHead, bool]]:
        """The heads of a folder's editions; read again where a file is another than before."""
        paths = [path for path in _toml_files(folder) if path.name != OWN_WALKS]
        try:
            stamps = [(path, stamp_of(os.stat(path))) for path in paths]
        except OSError:  # reading says what is wrong
            return _heads(paths, whole)
        known = self._heads_of.get((folder, whole))
        if known is None or known[0] != stamps:
            known = stamps, _heads(paths, whole)
            self._heads_of[folder, whole] = known
        return known[1]

    def _chain(self, name: str) -> list[EditionFile]:
        """The edition and what it builds on, oldest first."""
        _, paths = self._survey()
        if name not in paths:
            raise UnknownEdition(name, near_ids(name, paths), sorted(paths))
        chain: list[EditionFile] = []
        names = [name]
        while True:
            path = paths[names[-1]]
            text = decode(read_bytes(path), str(path))
            edition = _read_edition(text, str(path))
            chain.insert(0, edition)
            older = edition.builds_on
            if older == _COMMON:
                return chain
            if older in names:
                circle = " -> ".join([*names[names.index(older) :], older])
                what = f"the edition builds on itself: {circle}."
                raise BadText([_at_builds_on(text, path, what, 'builds_on = "common" in one of them.')])
            if older not in paths:
                near = near_ids(older, paths)
                hint = f" (did you mean {' or '.join(near)}?)" if near else ""
                what = f"there is no edition {older!r} here to build on{hint}."
                raise BadText([_at_builds_on(text, path, what, '"common" or the id of another edition.')])
            names.append(older)


def _read_edition(text: str, name: str) -> EditionFile:
    from hands_on.ruleset.assemble import read_edition_file

    with explained(name):
        return read_edition_file(text, name)


def _at_builds_on(text: str, path: Path, what: str, right: str) -> Problem:
    from hands_on.toml_text.lines import key_lines, line_of

    return Problem(str(path), line_of(key_lines(text), ("builds_on",)), "builds_on", what, right)


def near_ids(name: str, known: Iterable[str]) -> list[str]:
    """Up to three known ids that look like `name`, the nearest first."""
    from hands_on.toml_text.explain import nearest

    left = [word for word in known if word != name]
    near: list[str] = []
    while left and len(near) < 3 and (close := nearest(name, left)):
        near.append(close)
        left.remove(close)
    return near


def _toml_files(folder: Path) -> list[Path]:
    try:
        return sorted(path for path in folder.iterdir() if path.suffix == ".toml" and path.name[0] != ".")
    except OSError:
        return []


_TOLD = ("id", "title", "breed", "body", "number", "edition", "builds_on")


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
        problem = format_problem(tables, _FORMAT, text, name) or _unusable(tables, name)
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
