"""The sessions of a round brought together from folders, sticks and zip files; nothing is overwritten."""

from __future__ import annotations

import os
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from hands_on.exam.round import Round, is_round, place_of
from hands_on.exam.session import Session
from hands_on.store.atomic import write_atomic
from hands_on.store.errors import NotSaved, reason_of
from hands_on.store.letters import folded
from hands_on.store.private import make_folder
from hands_on.store.session_file import parse_session
from hands_on.store.text_file import LARGEST, decode, read_bytes
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables

__all__ = ["Gathered", "gather", "gathered_folder"]

_MOST = 20_000
"""Files looked at in one source: a stick may hold a whole life."""

_DEEPEST = 6
"""Folders within folders that are looked into."""


@dataclass
class Gathered:
    """What was found in a source."""

    taken: list[tuple[Path, Session]] = field(default_factory=list)
    """New here, under the name they have here now."""
    there: list[str] = field(default_factory=list)
    """Here already, to the letter."""
    copies: list[tuple[str, str]] = field(default_factory=list)
    """Another state of an examination that is here too, and the name under which it was put beside it."""
    others: int = 0
    """Sessions and rounds that are not of this round."""
    unread: list[str] = field(default_factory=list)
    """Why a file that may have been meant was left out."""
    more: bool = False
    """There was more than is looked at."""

    @property
    def rows(self) -> list[tuple[str, str, str]]:
        """Evaluator, the dog's number and the file of each session new here."""
        return [
            (session.examination.evaluator, place.dog if (place := place_of(session)) else "", path.name)
            for path, session in self.taken
        ]


def gathered_folder(round_file: Path) -> Path:
    """Where the gathered sessions of a round lie: a folder beside its file, named as it is."""
    return round_file.with_suffix("")


def gather(source: Path, found: Round, into: Path) -> Gathered:
    """Copy all sessions that name the round from a folder (folders in it too), a zip or a single file.

    Two files tell of one examination when dog, evaluator and start are the same; the second is kept beside
    the first and told of. Raises NotSaved where `into` can't be written, BadText where the source can't be
    read at all.
    """
    result = Gathered()
    known = _here(into)
    texts = {text for text, _, _ in known}
    places = {key: name for _, key, name in known}
    for name, data in _files(source, into, result):
        try:
            text = decode(data, name)
            if found.round.id not in text or is_round(parse_tables(text, name)):
                result.others += 1
                continue
            session = parse_session(text, name)
        except BadText as error:
            result.unread.append(str(error))
            continue
        place = place_of(session)
        if place is None or place.round != found.round.id:
            result.others += 1
            continue
        if text in texts:
            result.there.append(name)
            continue
        path = _put(into, PurePosixPath(name.replace("\\", "/")).name, text)
        key = _key(session)
        if key is not None and key in places:
            result.copies.append((places[key], path.name))
        else:
            result.taken.append((path, session))
        texts.add(text)
        if key is not None:
            places.setdefault(key, path.name)
    return result


_Key = tuple[str, str, str]


def _key(session: Session) -> _Key | None:
    """What tells one examination from others; None where the file does not say when it began."""
    place, examination = place_of(session), session.examination
    if place is None or examination.started is None:
        return None
    return place.dog, examination.evaluator.casefold(), examination.started.isoformat()


def _here(into: Path) -> list[tuple[str, _Key | None, str]]:
    rows: list[tuple[str, _Key | None, str]] = []
    for path in sorted(into.glob("*.toml")):
        try:
            text = decode(read_bytes(path), str(path))
            rows.append((text, _key(parse_session(text, str(path))), path.name))
        except BadText:
            continue  # it stays as it is, and its name is not free
    return rows


def _files(source: Path, into: Path, result: Gathered) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each TOML file; zip files are looked into."""
    if os.path.isfile(source):
        yield from _one(source, result)
        return
    if not os.path.isdir(source):
        read_bytes(source)  # says what is wrong with it
    count = 0
    own = os.path.realpath(into)
    for folder, inside, names in os.walk(source):
        depth = len(Path(folder).relative_to(source).parts)
        inside[:] = sorted(
            name
            for name in inside
            if depth < _DEEPEST
            and not name.startswith(".")
            and os.path.realpath(os.path.join(folder, name)) != own
        )
        for name in sorted(names):
            if name.startswith(".") or not name.lower().endswith((".toml", ".zip")):
                continue
            count += 1
            if count > _MOST:
                result.more = True
                return
            yield from _one(Path(folder, name), result)


def _one(path: Path, result: Gathered) -> Iterator[tuple[str, bytes]]:
    if path.name.lower().endswith(".zip"):
        yield from _zipped(path, result)
        return
    try:
        yield str(path), read_bytes(path)
    except BadText as error:
        result.unread.append(str(error))


def _zipped(path: Path, result: Gathered) -> Iterator[tuple[str, bytes]]:
    """The TOML files in a zip; each is read no further than a session may be long."""
    try:
        with zipfile.ZipFile(path) as archive:
            entries = archive.infolist()
            result.more = result.more or len(entries) > _MOST
            for entry in entries[:_MOST]:
                if entry.is_dir() or not entry.filename.lower().endswith(".toml"):
                    continue
                name = f"{path}/{entry.filename}"
                try:
                    with archive.open(entry) as file:
                        data = file.read(LARGEST + 1)
                except (RuntimeError, NotImplementedError, zipfile.BadZipFile, zlib.error, EOFError, OSError):
                    result.unread.append(
                        f"{name}: it can't be unpacked (damaged, or locked with a password)."
                    )
                    continue
                if len(data) > LARGEST:
                    result.unread.append(f"{name}: it is too large for a session.")
                    continue
                yield name, data
    except (zipfile.BadZipFile, OSError, ValueError):
        result.unread.append(f"{path}: this zip file can't be read.")


def _put(into: Path, name: str, text: str) -> Path:
    """Write under the name it came with, or the next free one."""
    stem = "".join(
        char if char.isascii() and (char.isalnum() or char in "-_") else "-" for char in folded(name[:-5])
    )
    stem = stem.strip("-")[:80] or "session"
    try:
        make_folder(into)
        for number in range(1, 1000):
            path = into / (f"{stem}.toml" if number == 1 else f"{stem}-{number}.toml")
            try:
                write_atomic(path, text, new=True)
            except FileExistsError:
                continue
            return path
    except OSError as error:
        raise NotSaved(into, reason_of(error)) from error
    raise NotSaved(into, "there are a thousand files of that name")
