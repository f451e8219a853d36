"""What the list of records shows of one session's file, read without the session's model.

Only the TOML and its format number are looked at, so this is quick and imports little; whether every
answer fits is for `session_file.read_session` to say.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any

from hands_on.exam.formats import FORMAT, up_to_date
from hands_on.store.hand_takes import Taken, taken_of
from hands_on.store.letters import folded
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.tables import explained, parse_tables

ROUND_FILE = "round-file"
"""The kind of a row that is no examination but the small file of a seminar round."""


@dataclass(frozen=True, slots=True)
class SessionHeader:
    """One session's file in the list of records. Texts are as typed; show them as plain text only."""

    path: Path
    call_name: str = ""
    registered_name: str = ""
    sex: str = ""
    born: datetime.date | None = None
    chip: str = ""
    tattoo: str = ""
    registration: str = ""
    sire: str = ""
    dam: str = ""
    evaluator: str = ""
    place: str = ""
    started: datetime.datetime | None = None
    finished: datetime.datetime | None = None
    kind: str = ""
    ruleset: str = ""
    """The edition's id."""
    signed: bool = False
    answers: int = 0
    """Takes, grades, choices and the tooth chart."""
    problem: Problem | None = None
    """Why the file can't be opened, as far as can be told without its ruleset and model."""
    copy_of: str = ""
    """The name of the file beside it that it is a conflict copy of; see `conflict_copies`."""


FIELDS = tuple(field.name for field in fields(SessionHeader) if field.name not in ("path", "copy_of"))
"""The columns of the index, in the order of `values_of`."""


def header_of(path: Path) -> tuple[SessionHeader, Taken | None]:
    """The row of a file and its readings; for a file that can't be used the row has its problem."""
    name = str(path)
    try:
        text = decode(read_bytes(path), name)
        tables = parse_tables(text, name)
        with explained(name):
            return _read(path, tables, text)
    except BadText as error:
        return SessionHeader(path, problem=error.problems[0]), None


def _read(path: Path, tables: dict[str, Any], text: str) -> tuple[SessionHeader, Taken | None]:
    name = str(path)
    if isinstance(tables.get("round"), dict) and "dogs" in tables:
        return SessionHeader(path, kind=ROUND_FILE), None
    problem = format_problem(tables, FORMAT, text, name) or _unusable(tables, name)
    tables = tables if problem else up_to_date(tables)
    return replace(_row(path, tables), problem=problem), None if problem else taken_of(tables)


def values_of(row: SessionHeader) -> tuple[Any, ...]:
    """The row's fields as the index holds them."""
    return tuple(_stored(getattr(row, name)) for name in FIELDS)


def row_of(path: Path, values: Sequence[Any]) -> SessionHeader:
    """The row made of what `values_of` gave."""
    known = dict(zip(FIELDS, values, strict=True))
    known["born"] = datetime.date.fromisoformat(known["born"]) if known["born"] else None
    for name in ("started", "finished"):
        known[name] = datetime.datetime.fromisoformat(known[name]) if known[name] else None
    known["signed"] = bool(known["signed"])
    known["problem"] = Problem(**json.loads(known["problem"])) if known["problem"] else None
    return SessionHeader(path, **known)


def newest_key(row: SessionHeader, changed: int) -> str:
    """Sorts as the examinations do in time; without a start, by when the file was changed (ns)."""
    moment = row.started or datetime.datetime.fromtimestamp(changed / 1e9, datetime.UTC)
    if moment.tzinfo is not None:
        with suppress(OverflowError):  # year 1 or 9999
            moment = moment.astimezone(datetime.UTC)
    return moment.replace(tzinfo=None).isoformat(timespec="microseconds")


def search_text(row: SessionHeader) -> str:
    """All that a search looks at, folded, one field a line."""
    values = values_of(replace(row, problem=None))
    return searchable("\n".join([row.path.name, *(value for value in values if isinstance(value, str))]))


def searchable(text: str) -> str:
    """The text folded, and such that the index can hold it."""
    return folded(text).encode("utf-8", "replace").decode().replace("\0", " ")


def _row(path: Path, tables: dict[str, Any]) -> SessionHeader:
    dog, examination = _table(tables, "dog"), _table(tables, "examination")
    return SessionHeader(
        path,
        call_name=_text(dog, "call_name"),
        registered_name=_text(dog, "registered_name"),
        sex=_text(dog, "sex"),
        chip=_text(dog, "chip"),
        tattoo=_text(dog, "tattoo"),
        registration=_text(dog, "registration"),
        sire=_text(dog, "sire"),
        dam=_text(dog, "dam"),
        born=_date(dog.get("born")),
        evaluator=_text(examination, "evaluator"),
        place=_text(examination, "place"),
        started=_moment(examination.get("started")),
        finished=_moment(examination.get("finished")),
        kind=_text(examination, "kind") or "full",
        ruleset=_text(_table(tables, "ruleset"), "id"),
        signed=bool(_table(tables, "signature")),
        answers=sum(_length(tables.get(key)) for key in ("takes", "grades", "choices")) + ("teeth" in tables),
    )


def _unusable(tables: dict[str, Any], name: str) -> Problem | None:
    if not _text(_table(tables, "ruleset"), "id"):
        right = 'a table [ruleset] with a line `id = "..."`.'
        return Problem(name, None, "ruleset.id", "the file does not say under which ruleset it is.", right)
    return None


def _table(tables: dict[str, Any], key: str) -> dict[str, Any]:
    value = tables.get(key)
    return value if isinstance(value, dict) else {}


def _text(table: dict[str, Any], key: str) -> str:
    value = table.get(key, "")
    return value if isinstance(value, str) else str(value) if isinstance(value, int) else ""


def _length(value: Any) -> int:
    return len(value) if isinstance(value, list) else 0


def _date(value: Any) -> datetime.date | None:
    if isinstance(value, datetime.datetime):
        return value.date()
    return value if isinstance(value, datetime.date) else None


def _moment(value: Any) -> datetime.datetime | None:
    if isinstance(value, datetime.datetime):
        return value
    return datetime.datetime(value.year, value.month, value.day) if isinstance(value, datetime.date) else None


def _stored(value: Any) -> Any:
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, Problem):
        return json.dumps(value.as_json())
    return value
