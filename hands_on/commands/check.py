"""`hands-on check`: are these rulesets and sessions sound?

Exit code 0 when they are (warnings may stand), 1 when one falls short, 2 when nothing could be checked.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import visible
from hands_on.store.errors import UnknownEdition, reason_of
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.tables import explained, parse_tables

if TYPE_CHECKING:
    from hands_on.ruleset.files import EditionFile
    from hands_on.ruleset.points import Fault, Point
    from hands_on.ruleset.ruleset import Common, Ruleset
    from hands_on.store.edition_heads import EditionHead
    from hands_on.store.library import Library

Kind = Literal[
    "common", "edition", "session", "round", "walks", "language", "cautions", "critique", "unknown"
]

_COMMON = "common"
_LANGUAGE = "language.toml"
_CAUTIONS = "cautions.toml"
_CRITIQUE = "critique"
_COMMON_KEYS = frozenset({"region", "order", "closures", "fences"})
_EDITION_KEYS = frozenset({"builds_on", "breed", "classes", "limits", "rulings", "walk", "general_clause"})
_SESSION_KEYS = frozenset({"dog", "examination", "takes", "grades", "choices", "signature", "skips"})


def run(paths: Sequence[str], *, as_json: bool, library: Library) -> int:
    """Check the files, and those in the folders, named by `paths`; print what is wrong.

    Raises CommandError when a path is not there or holds nothing to check.
    """
    files = [file for path in paths for file in _files(Path(path))]
    checker = Checker(library)
    for file in dict.fromkeys(files):
        checker.check(file)
    problems = checker.problems
    errors = sum(problem.level == "error" for problem in problems)
    if as_json:
        print_json({
            "files": [str(file) for file in checker.checked],
            "errors": errors,
            "warnings": len(problems) - errors,
            "problems": [problem.as_json() for problem in problems],
        })  # fmt: skip
    else:
        for problem in problems:
            word = "warning: " if problem.level == "warning" else ""
            print(visible(f"{word}{problem}"))
        print(_count(len(checker.checked), errors, len(problems) - errors))
    if checker.unreadable and checker.unreadable == len(checker.checked):
        print("hands-on: nothing could be read.", file=sys.stderr)
        return 2
    return 1 if errors else 0


def _count(files: int, errors: int, warnings: int) -> str:
    rows = [_number(files, "file") + " checked"]
    if errors:
        rows.append(_number(errors, "error"))
    if warnings:
        rows.append(_number(warnings, "warning"))
    return ", ".join(rows) + ("." if errors or warnings else ": sound.")


def _number(count: int, thing: str) -> str:
    return f"{count} {thing}{'' if count == 1 else 's'}"


def _files(path: Path) -> list[Path]:
    """The file, or the TOML files below the folder. Raises CommandError."""
    try:
        os.lstat(path)
    except (FileNotFoundError, NotADirectoryError, ValueError) as error:
        raise CommandError(f"{path}: there is no such file or folder.") from error
    except OSError as error:
        raise CommandError(f"{path}: {reason_of(error, 'read')}.") from error
    if not os.path.isdir(path):
        return [path]
    found: list[Path] = []
    closed: list[OSError] = []
    for folder, folders, names in os.walk(path, onerror=closed.append):
        folders[:] = [name for name in folders if not name.startswith(".")]
        found += [Path(folder, name) for name in names if name.endswith(".toml") and name[0] != "."]
    if closed and not found:
        raise CommandError(f"{closed[0].filename}: {reason_of(closed[0], 'read')}.")
    found = sorted([*found, *(Path(error.filename) for error in closed)])
    if not found:
        raise CommandError(f"{path}: no .toml file in this folder.")
    return found


@dataclass
class Checker:
    """Checks files one after the other, each kind by its own rules."""

    library: Library
    problems: list[Problem] = field(default_factory=list)
    checked: list[Path] = field(default_factory=list)
    unreadable: int = 0
    """Files that gave no text at all."""
    _common_done: dict[Path, list[Problem]] = field(default_factory=dict)
    _libraries: dict[Path, Library] = field(default_factory=dict)
    _heads: dict[Path, dict[Path, EditionHead]] = field(default_factory=dict)
    _known: dict[Library, tuple[dict[str, Point], dict[str, Fault]]] = field(default_factory=dict)

    def check(self, path: Path) -> None:
        """Check one file."""
        name = str(path)
        self.checked.append(path)
        try:
            text = decode(read_bytes(path), name)
        except BadText as bad:
            self.unreadable += 1
            self.problems += bad.problems
            return
        try:
            with explained(name):
                self.problems += self._found(path, text)
        except BadText as bad:
            self.problems += bad.problems

    def _found(self, path: Path, text: str) -> list[Problem]:
        from hands_on.exam.cautions import CautionsFile
        from hands_on.toml_text.parse import validate

        name = str(path)
        head = self._heads_beside(path.parent).get(path)
        if head is not None:
            return self._edition(path, text, head.builds_on)
        try:
            tables = parse_tables(text, name)
        except BadText as bad:
            return bad.problems
        match kind_of(path, tables):
            case "common":
                return self._common_file(path)
            case "edition":
                return self._edition(path, text, tables.get("builds_on"))
            case "session":
                return self._session(path, text, tables)
            case "round":
                return self._round(path, text, tables)
            case "walks":
                return self._walks(path, text)
            case "language":
                return self._language(path, tables, text)
            case "cautions":
                validate(CautionsFile, tables, text, name)
                return []
            case "critique":
                return self._critique(path, tables, text)
            case _:
                what = "this is neither a ruleset nor a session nor a round."
                right = (
                    "builds_on and breed in an edition, [region] in a common file, [[walks]] in own walks, "
                    "[dog] and [ruleset] in a session, [round] and [[dogs]] in a round."
                )
                return [Problem(name, 1, "", what, right)]

    # --- rulesets --------------------------------------------------------------------------------

    def _common_file(self, path: Path) -> list[Problem]:
        """A common file is checked with its neighbours; only its own problems are told."""
        from hands_on.ruleset.check import check_common

        folder = path.parent
        if folder not in self._common_done:
            texts: dict[str, str] = {}
            for file in sorted(folder.glob("*.toml")):
                if file.name not in (_LANGUAGE, _CAUTIONS):
                    try:
                        texts[str(file)] = decode(read_bytes(file), str(file))
                    except BadText:
                        continue
            self._common_done[folder] = check_common(texts)
        return [problem for problem in self._common_done[folder] if problem.file == str(path)]

    def _walks(self, path: Path, text: str) -> list[Problem]:
        """Own shorter walks: what they name stands in common or in an edition that can be used."""
        from hands_on.ruleset.check import check_own_walks

        points: list[Point] = []
        for name in self._editions():
            with suppress(BadText, UnknownEdition):
                points += self.library.load(name).points.values()
        return check_own_walks(text, str(path), self._common(path.parent), points)

    def _language(self, path: Path, tables: dict[str, Any], text: str) -> list[Problem]:
        """How evaluators talk; ids of faults are checked where the neighbours can be used."""
        from hands_on.notes.language_check import check_language, read_language

        language = read_language(tables, text, str(path))
        try:
            faults = self._common(path.parent.parent).faults
        except BadText:
            faults = None
        return check_language(language, text, str(path), faults)

    def _critique(self, path: Path, tables: dict[str, Any], text: str) -> list[Problem]:
        """How critiques are worded: are there words for all that the rulesets know?"""
        from hands_on.store.critiques import PLAN, critique_plan
        from hands_on.toml_text.parse import validate
        from hands_on.wording.critique.check import lacking_in_language, lacking_in_plan
        from hands_on.wording.critique.language import Language, Plan

        beside = self._beside(path.parent.parent.parent)
        regions = [region.id for region in beside.common().regions]
        points, faults = self._known_to(beside)
        if path.stem == PLAN:
            lacks = lacking_in_plan(validate(Plan, tables, text, str(path)), regions, points, faults)
        else:
            language = validate(Language, tables, text, str(path))
            lacks = lacking_in_language(language, critique_plan(beside), regions, points, faults)
        return [Problem(str(path), None, lack.key, lack.what, lack.right) for lack in lacks]

    def _known_to(self, library: Library) -> tuple[dict[str, Point], dict[str, Fault]]:
        """All points and faults of a library, gathered once. Raises BadText."""
        if library not in self._known:
            common = library.common()
            points, faults = dict(common.points), dict(common.faults)
            for head in library.heads():
                if head.problem is None:
                    edition = library.load(head.id)
                    points |= edition.points
                    faults |= edition.faults
            self._known[library] = points, faults
        return self._known[library]

    def _heads_beside(self, folder: Path) -> dict[Path, EditionHead]:
        """The editions of a folder that have common parts beside them, by their files.

        What stands below their heads need not be read to tell what they are.
        """
        if folder not in self._heads:
            heads = self._beside(folder).heads() if os.path.isdir(folder / _COMMON) else ()
            self._heads[folder] = {head.path: head for head in heads if head.problem is None}
        return self._heads[folder]

    def _edition(self, path: Path, text: str, builds_on: object) -> list[Problem]:
        """An edition's problems; those of one that builds on common alone are kept with all they hang on."""
        from hands_on.store.checked import digest_of, keep, kept

        try:
            library = self._beside(path.parent)
            common = library.common()
        except BadText as bad:
            what = f"the common files it builds on cannot be used: {bad.problems[0]}"
            return [Problem(str(path), 1, "builds_on", what, "those mended first.")]
        key = ""
        if builds_on == _COMMON and library.common_key:
            key = digest_of(f"check {library.common_key} {path.name}", [text.encode()])
            known = kept(key, tuple)
            if known is not None:
                return [Problem(str(path), *row) for row in known]
        from hands_on.ruleset.check import check_edition

        found = check_edition(
            text, str(path), common, lambda wanted: self._edition_named(path.parent, wanted)
        )
        if key and all(one.file == str(path) and str(path.parent) not in one.what for one in found):
            keep(key, tuple((one.line, one.key, one.what, one.right, one.level) for one in found))
        return found

    def _common(self, beside: Path) -> Common:
        """The common parts beside an edition, or those of the library. Raises BadText."""
        return self._beside(beside).common()

    def _beside(self, folder: Path) -> Library:
        """The library whose common parts an edition in this folder builds on."""
        from hands_on.store.library import Library

        if folder not in self._libraries:
            own = os.path.isdir(folder / _COMMON)
            self._libraries[folder] = Library([folder]) if own else self.library
        return self._libraries[folder]

    def _edition_named(self, beside: Path, wanted: str) -> EditionFile | None:
        """Another edition: beside the one checked, or in the library. Raises BadText."""
        from hands_on.ruleset.assemble import read_edition_file

        for path in (beside / f"{wanted}.toml", *self._library_paths(wanted)):
            if os.path.isfile(path):
                with explained(str(path)):
                    return read_edition_file(decode(read_bytes(path), str(path)), str(path))
        return None

    def _library_paths(self, wanted: str) -> Iterator[Path]:
        yield from (head.path for head in self.library.heads() if head.id == wanted)

    # --- sessions and rounds -----------------------------------------------------------------------

    def _session(self, path: Path, text: str, tables: dict[str, Any]) -> list[Problem]:
        from hands_on.exam.check import check_session

        return check_session(text, str(path), self._edition_of(tables), self._editions())

    def _round(self, path: Path, text: str, tables: dict[str, Any]) -> list[Problem]:
        from hands_on.exam.round import check_round

        return check_round(text, str(path), self._edition_of(tables), self._editions())

    def _editions(self) -> list[str]:
        return [head.id for head in self.library.heads()]

    def _edition_of(self, tables: dict[str, Any]) -> Ruleset | None:
        """The edition that a session or a round names; None where it can't be used."""

        ref = tables.get("ruleset")
        name = ref.get("id") if isinstance(ref, dict) else None
        try:
            return self.library.load(name) if isinstance(name, str) else None
        except (UnknownEdition, BadText):
            return None


def kind_of(path: Path, tables: dict[str, Any]) -> Kind:
    """What a file is, by what it holds; by its folder where that does not tell."""
    keys = tables.keys()
    scores: dict[Kind, int] = {
        "session": len(keys & _SESSION_KEYS) + ("ruleset" in keys),
        "edition": len(keys & _EDITION_KEYS),
        "common": len(keys & _COMMON_KEYS),
    }
    if isinstance(tables.get("round"), dict) and "examination" not in keys:
        return "round"
    if path.parent.name == _CRITIQUE and path.parent.parent.name == _COMMON:
        return "critique"
    if isinstance(tables.get("walks"), list) and keys <= {"format", "sources", "walks"}:
        return "common" if path.parent.name == _COMMON else "walks"
    best = max(scores, key=lambda kind: scores[kind])
    if path.parent.name == _COMMON and scores["session"] == 0 and "builds_on" not in keys:
        others: dict[str, Kind] = {_LANGUAGE: "language", _CAUTIONS: "cautions"}
        return others.get(path.name, "common")
    if scores[best]:
        return best
    if keys & {"points", "faults", "derived"}:
        return "common"
    return "unknown"
