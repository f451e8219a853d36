"""The rulesets on disk: which there are (quickly), and one of them in full."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.store.edition_heads import OWN_WALKS, EditionHead, KnownHeads, survey, toml_files
from hands_on.store.errors import UnknownEdition
from hands_on.store.places import language
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.tables import explained, parse_tables

if TYPE_CHECKING:
    from hands_on.exam.cautions import CautionsFile
    from hands_on.notes.language import Language
    from hands_on.ruleset.files import CommonFile, EditionFile
    from hands_on.ruleset.ruleset import Common, Ruleset
    from hands_on.ruleset.walks import Walk

_COMMON = "common"
_LANGUAGE = "language.toml"
_ORDINARY = "ordinary-words.txt"
_EXAMPLES = "examples"
"""In common/, but not a part of the ruleset format: how notes are read."""

_CRITIQUE = "critique"
"""In common/, but not a part of the ruleset format: how critiques are worded."""

_CAUTIONS = "cautions.toml"
"""In common/, but not a part of the ruleset format: what is read before a dog is touched."""


class Library:
    """The editions in `folders`; the first holds the common parts, a later folder's edition wins."""

    def __init__(self, folders: Sequence[Path]) -> None:
        self.folders = tuple(folders)
        self._common: Common | None = None
        self.common_key = ""
        """Under what the common parts are kept; empty before `common` was called, or where they can't be."""
        self._language: Language | None = None
        self._loaded: dict[str, Ruleset] = {}
        self._heads_of: KnownHeads = {}

    def heads(self, *, whole: bool = False) -> list[EditionHead]:
        """Every edition, by title; a broken file is listed with its problem and hides no other.

        Only the lines before the first table are parsed; with `whole` all of each file is, which also
        finds text that is not TOML further down.
        """
        heads, _ = survey(self.folders, whole, self._heads_of)
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

        heads = {
            head.id: head for head in survey(self.folders, known=self._heads_of)[0] if head.problem is None
        }
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
        from pydantic import VERSION

        from hands_on.store.checked import digest_of

        paths = self.common_paths()
        try:
            texts = [part for path in paths for part in (os.fsencode(path.name), read_bytes(path))]
        except BadText:
            return ""
        return digest_of(f"common {VERSION}", texts)

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

    def language_paths(self) -> list[Path]:
        """The files of common/ that notes are read with besides the rules: language, words, examples."""
        folder = self._common_folder()
        single = (folder / name for name in (_LANGUAGE, _ORDINARY))
        return [*filter(os.path.isfile, single), *sorted((folder / _EXAMPLES).glob("*.jsonl"))]

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
        paths = toml_files(self._common_folder())
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

    def _chain(self, name: str) -> list[EditionFile]:
        """The edition and what it builds on, oldest first."""
        _, paths = survey(self.folders, known=self._heads_of)
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
