"""All sessions of a folder as tidy tables: Parquet by year and edition, CSV where pyarrow is not here.

    sessions -> rows of five tables -> a file for each table, year and edition

Rows go to the disk as they come, so that memory does not grow with the number of sessions.
"""

from __future__ import annotations

import csv
import os
from collections import OrderedDict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal, Protocol

from hands_on.compare.examined import Examined
from hands_on.plain_text import spreadsheet_text
from hands_on.store.errors import NotSaved, StoreError, reason_of
from hands_on.store.examined import examined_file
from hands_on.store.library import Library
from hands_on.store.private import make_folder, new_file
from hands_on.toml_text.problems import BadText
from hands_on.wording.labels import label_words

__all__ = ["TABLES", "Exported", "Format", "Kind", "Row", "TableWriter", "export", "rows_of", "writer_for"]

Format = Literal["parquet", "csv"]
Kind = Literal["text", "number", "whole", "truth", "date", "moment"]
Row = Mapping[str, Any]

_DOG: dict[str, Kind] = {"session": "text", "dog": "text", "evaluator": "text", "day": "date"}
"""Begins every row, so that no table has to be joined to count dogs."""

TABLES: dict[str, dict[str, Kind]] = {
    "dogs": {
        **_DOG,
        "call_name": "text",
        "registered_name": "text",
        "sex": "text",
        "born": "date",
        "chip": "text",
        "sire": "text",
        "dam": "text",
        "litter": "text",
        "variety": "text",
        "colour": "text",
        "age_months": "number",
        "place": "text",
        "country": "text",
        "kind": "text",
        "signed": "truth",
    },
    "takes": {
        **_DOG,
        "point": "text",
        "value": "number",
        "as_typed": "text",
        "unit": "text",
        "side": "text",
        "at": "moment",
        "struck": "text",
    },
    "values": {
        **_DOG,
        "id": "text",
        "kind": "text",
        "value": "number",
        "u": "number",
        "unit": "text",
        "side": "text",
        "takes": "whole",
        "too_young": "truth",
    },
    "findings": {
        **_DOG,
        "fault": "text",
        "label": "text",
        "region": "text",
        "degree": "text",
        "side": "text",
        "status": "text",
        "class": "text",
        "counts": "truth",
        "too_young": "truth",
    },
    "verdicts": {
        **_DOG,
        "rule": "text",
        "label": "text",
        "value": "number",
        "u": "number",
        "unit": "text",
        "low": "number",
        "high": "number",
        "p_inside": "number",
        "verdict": "text",
        "fault": "text",
        "class": "text",
    },
}
"""Columns of each table, in order."""


class TableWriter(Protocol):
    """Writes the rows of one table, year and edition into one file."""

    def write(self, rows: Sequence[Row]) -> None:
        """Add rows."""

    def close(self) -> None:
        """Nothing more comes."""


@dataclass
class Exported:
    """What was written."""

    format: Format
    sessions: int = 0
    rows: dict[str, int] = field(default_factory=lambda: dict.fromkeys(TABLES, 0))
    left_out: list[str] = field(default_factory=list)
    """Why a file was left out."""


_BATCH = 5000
"""Rows of one file held in memory before they are written."""

_WHOLE = 60_000
"""Rows of all files together held in memory."""

_OPEN = 40
"""Files kept open."""

_LONGEST = 32
"""Batches in one file: what tells of each is held in memory until the file is closed."""


def rows_of(one: Examined) -> dict[str, list[Row]]:
    """The rows of each table that a session gives."""
    session, evaluation = one.session, one.evaluation
    dog, examination = session.dog, session.examination
    born = dog.born.isoformat() if dog.born is not None else ""
    head: dict[str, Any] = {
        "session": os.path.basename(one.name),
        "dog": f"{one.identity or one.name} {born}".strip(),
        "evaluator": one.evaluator,
        "day": one.day or None,
    }
    about = {
        **head,
        "call_name": dog.call_name,
        "registered_name": dog.registered_name,
        "sex": dog.sex or "",
        "born": born or None,
        "chip": dog.chip,
        "sire": dog.sire,
        "dam": dog.dam,
        "litter": dog.litter,
        "variety": dog.variety,
        "colour": dog.colour,
        "age_months": one.age,
        "place": examination.place,
        "country": examination.country,
        "kind": examination.kind,
        "signed": session.signature is not None,
    }
    takes: list[Row] = [
        {
            **head,
            "point": take.point,
            "value": take.value if isinstance(take.value, (int, float)) else None,
            "as_typed": str(take.value),
            "unit": take.unit or "",
            "side": take.side or "",
            "at": take.at.isoformat() if take.at is not None else None,
            "struck": take.struck,
        }
        for take in session.takes
    ]
    measured: list[Row] = [
        {
            **head,
            "id": row.id,
            "kind": "measured",
            "value": row.value,
            "u": row.u,
            "unit": row.unit,
            "side": row.side or "",
            "takes": row.takes,
            "too_young": bool(row.too_young),
        }
        for row in evaluation.measures
    ]
    derived: list[Row] = [
        {
            **head,
            "id": value.id,
            "kind": "computed",
            "value": value.value,
            "u": value.u,
            "unit": value.unit,
            "side": "",
            "takes": None,
            "too_young": None,
        }
        for value in evaluation.derived
    ]
    findings: list[Row] = [
        {
            **head,
            "fault": finding.id,
            "label": label_words(finding.named),
            "region": finding.region,
            "degree": finding.degree or "",
            "side": finding.side or "",
            "status": finding.status,
            "class": finding.cls or "",
            "counts": finding.counts,
            "too_young": bool(finding.too_young),
        }
        for finding in evaluation.findings
    ]
    verdicts: list[Row] = [
        {
            **head,
            "rule": rule.id,
            "label": label_words(rule.named),
            "value": rule.value,
            "u": rule.u,
            "unit": rule.value_unit or rule.unit,
            "low": rule.low,
            "high": rule.high,
            "p_inside": rule.p_inside,
            "verdict": rule.verdict,
            "fault": rule.fault or "",
            "class": rule.cls or "",
        }
        for rule in evaluation.rules
    ]
    return {
        "dogs": [about],
        "takes": takes,
        "values": [*measured, *derived],
        "findings": findings,
        "verdicts": verdicts,
    }


def export(
    paths: Iterable[Path],
    into: Path,
    library: Library,
    form: Format,
    *,
    told: Callable[[int], object] = lambda count: None,
) -> Exported:
    """Write the tables of the sessions in `paths` into the folder `into`, which must be new or empty.

    `told` is called with the number of sessions from time to time. A file that can't be read is left out and
    named. Raises NotSaved.
    """
    result = Exported(form)
    with Tables(into, form) as tables:
        for path in paths:
            try:
                one = examined_file(path, library)
                rows = rows_of(one)
            except (BadText, StoreError) as error:
                result.left_out.append(str(error))
                continue
            for table, own in rows.items():
                result.rows[table] += len(own)
                tables.add(table, _year(one), one.ruleset.id, own)
            result.sessions += 1
            if result.sessions % 500 == 0:
                told(result.sessions)
    return result


def _year(one: Examined) -> str:
    return one.day[:4] or "unknown"


class Tables:
    """The files of an export: opened as they are needed, the least used closed again."""

    def __init__(self, into: Path, form: Format) -> None:
        """Raises NotSaved where there is something in `into` already, or it can't be made."""
        self.into, self.form = into, form
        self._buffers: dict[tuple[str, str, str], list[Row]] = {}
        self._held = 0
        self._writers: OrderedDict[tuple[str, str, str], TableWriter] = OrderedDict()
        self._parts: dict[tuple[str, str, str], int] = {}
        self._batches: dict[tuple[str, str, str], int] = {}
        try:
            if os.path.lexists(into) and (not os.path.isdir(into) or os.listdir(into)):
                raise NotSaved(into, "there is something there already; name a folder that is new or empty")
            make_folder(into)
        except OSError as error:
            raise NotSaved(into, reason_of(error)) from error
        except ValueError as error:
            raise NotSaved(into, "no folder can have this name") from error

    def __enter__(self) -> Tables:
        return self

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        try:
            if kind is None:
                self._flush_all()
        finally:
            for writer in self._writers.values():
                with suppress(OSError):
                    writer.close()

    def add(self, table: str, year: str, edition: str, rows: Sequence[Row]) -> None:
        """Put rows where they belong. Raises NotSaved."""
        if not rows:
            return
        key = (table, year, edition)
        buffer = self._buffers.setdefault(key, [])
        buffer += rows
        self._held += len(rows)
        if len(buffer) >= _BATCH:
            self._flush(key)
        elif self._held >= _WHOLE:
            self._flush(max(self._buffers, key=lambda one: len(self._buffers[one])))

    def _flush_all(self) -> None:
        for key in list(self._buffers):
            self._flush(key)

    def _flush(self, key: tuple[str, str, str]) -> None:
        rows = self._buffers.pop(key, [])
        self._held -= len(rows)
        if not rows:
            return
        try:
            self._writer(key).write(rows)
            self._batches[key] = self._batches.get(key, 0) + 1
            if self._batches[key] % _LONGEST == 0:
                self._writers.pop(key).close()
        except OSError as error:
            raise NotSaved(self.into, reason_of(error)) from error

    def _writer(self, key: tuple[str, str, str]) -> TableWriter:
        if key in self._writers:
            self._writers.move_to_end(key)
            return self._writers[key]
        if len(self._writers) >= _OPEN:
            self._writers.popitem(last=False)[1].close()
        table, year, edition = key
        folder = self.into / table / f"year={year}" / f"edition={edition}"
        make_folder(folder)
        part = self._parts.get(key, 0)
        self._parts[key] = part + 1
        path = folder / f"part-{part}.{self.form}"
        self._writers[key] = writer_for(self.form, path, TABLES[table])
        return self._writers[key]


def writer_for(form: Format, path: Path, columns: Mapping[str, Kind]) -> TableWriter:
    """A writer of one file. Raises OSError, ImportError for Parquet without pyarrow."""
    if form == "csv":
        return _CsvFile(path, columns)
    from hands_on.store.parquet import ParquetFile

    return ParquetFile(path, columns)


class _CsvFile:
    """One CSV file (RFC 4180, UTF-8); texts that a spreadsheet would compute are made harmless."""

    def __init__(self, path: Path, columns: Mapping[str, Kind]) -> None:
        self._columns = columns
        # A file's name may hold bytes that are no UTF-8: each becomes a question mark, as in Parquet.
        self._file = open(new_file(path), "w", encoding="utf-8", errors="replace", newline="")  # noqa: SIM115
        self._writer = csv.writer(self._file)
        self._writer.writerow(columns)

    def write(self, rows: Sequence[Row]) -> None:
        """Add rows."""
        self._writer.writerows(self._cells(row) for row in rows)

    def _cells(self, row: Row) -> Iterator[Any]:
        for name, kind in self._columns.items():
            value = row[name]
            if value is None:
                yield ""
            elif kind == "text":
                yield spreadsheet_text(str(value))
            elif kind == "truth":
                yield "true" if value else "false"
            else:
                yield value

    def close(self) -> None:
        """Nothing more comes."""
        self._file.close()
