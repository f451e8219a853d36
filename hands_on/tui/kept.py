"""Sessions kept, as the screens look for them: by text, of several evaluators, of a round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.exam.round import Round, place_of
from hands_on.exam.session import Session
from hands_on.store import places
from hands_on.store.errors import StoreError
from hands_on.store.gather import gathered_folder
from hands_on.store.headers import SessionHeader
from hands_on.store.records import Records
from hands_on.store.round_file import rounds_of
from hands_on.store.session_file import read_session
from hands_on.toml_text.problems import BadText
from hands_on.tui.program import Program

if TYPE_CHECKING:
    from hands_on.compare.examined import Examined

NEWEST = 500
"""Sessions looked through for those of one dog, or of dogs that several evaluators examined."""

NEWEST_OF_ROUNDS = 2000
"""Newest sessions of rounds that are looked through for those of one round."""


@dataclass(frozen=True)
class Kept:
    """A session of a round."""

    path: Path
    session: Session
    number: str
    """The dog's number in the round."""

    @property
    def evaluator(self) -> str:
        """Who examined."""
        return self.session.examination.evaluator


def kept_rows(program: Program, text: str = "", *, fresh: bool = True) -> list[SessionHeader]:
    """The newest sessions kept that can be opened; none where the records can't be read, which is told.

    Without `fresh` the folder is not looked through again.
    """
    try:
        with Records(program.sessions, places.index_path(program.sessions)) as records:
            if fresh:
                records.refresh()
            found = [row for row in records.find(text, NEWEST) if row.problem is None]
            return own_first(found, program.examiner)
    except (StoreError, OSError) as error:
        program.say("The records can't be read", str(error))
        return []


def own_first(rows: Sequence[SessionHeader], examiner: str) -> list[SessionHeader]:
    """The rows as they come, those of whoever examines here before the others."""
    mine = examiner.casefold()
    return sorted(rows, key=lambda row: bool(mine) and row.evaluator.casefold() != mine)


def evaluators_here(program: Program, most: int = 8) -> list[str]:
    """Who examined what is kept here, whoever examined last first."""
    names: dict[str, str] = {}
    for row in kept_rows(program):
        if row.evaluator:
            names.setdefault(row.evaluator.casefold(), row.evaluator)
    return list(names.values())[:most]


def by_several(rows: Sequence[SessionHeader]) -> list[SessionHeader]:
    """The sessions of dogs that more than one evaluator examined."""
    ordered = sorted((row for row in rows if row.evaluator and row.answers), key=dog_of)
    found: list[SessionHeader] = []
    for _, group in groupby(ordered, key=dog_of):
        own = list(group)
        if len({row.evaluator.casefold() for row in own}) > 1:
            found += own
    return found


def dog_of(row: SessionHeader) -> str:
    """What tells the dog of a row from others."""
    names = row.chip or row.tattoo or row.registration or row.registered_name or row.call_name
    return names.casefold()


def held_here(program: Program, paths: Sequence[Path], *, strict: bool = True) -> list[Examined]:
    """The sessions with their editions; what can't be read is told, and with `strict` then there are none."""
    from hands_on.store.examined import examined_file

    found, problems = [], []
    for path in paths:
        try:
            found.append(examined_file(path, program.library))
        except (StoreError, BadText) as error:
            problems.append(str(error))
    if problems and (strict or not found):
        told = "\n\n".join([*problems, "The files are left as they are."])
        program.say("These sessions can't be opened", told)
        return []
    return found


def rounds_among(program: Program) -> list[tuple[Path, Round]]:
    """Rounds whose files lie among the sessions themselves, as in a folder that was handed round."""
    try:
        with Records(program.sessions, places.index_path(program.sessions)) as records:
            records.refresh()
            return rounds_of(records.rounds())
    except (StoreError, OSError):
        return []


def sessions_of(program: Program, found: Round, beside: Path) -> list[Kept]:
    """The sessions here that name the round: among those kept, beside the round's file, and gathered."""
    name = found.round.id
    paths: dict[Path, None] = {}
    try:
        with Records(program.sessions, places.index_path(program.sessions)) as records:
            records.refresh()
            rows = records.list(NEWEST_OF_ROUNDS)
        paths.update((row.path, None) for row in rows if row.kind == "round" and row.problem is None)
    except (StoreError, OSError):
        pass  # the records' own screen tells what is wrong with them
    if beside.parent != program.sessions:
        paths.update((path, None) for path in sorted(beside.parent.glob("*.toml")) if path != beside)
    paths.update((path, None) for path in sorted(gathered_folder(beside).glob("*.toml")))
    kept = []
    for path in paths:
        try:
            session = read_session(path)
        except BadText:
            continue
        place = place_of(session)
        if place is not None and place.round == name:
            kept.append(Kept(path, session, place.dog))
    return kept
