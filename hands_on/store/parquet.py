"""One Parquet file (Apache Parquet, through pyarrow, which comes with the extra `tables`)."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from operator import itemgetter
from pathlib import Path
from typing import Any

import pyarrow
import pyarrow.parquet

__all__ = ["ParquetFile"]

_TYPES: dict[str, Any] = {
    "text": pyarrow.string(),
    "number": pyarrow.float64(),
    "whole": pyarrow.int64(),
    "truth": pyarrow.bool_(),
    "date": pyarrow.date32(),
    "moment": pyarrow.timestamp("s", tz="UTC"),
}


class ParquetFile:
    """Written row group by row group."""

    def __init__(self, path: Path, columns: Mapping[str, str]) -> None:
        """`columns`: name and kind. Raises OSError."""
        self._kinds = dict(columns)
        self._schema = pyarrow.schema([(name, _TYPES[kind]) for name, kind in columns.items()])
        self._writer = pyarrow.parquet.ParquetWriter(path, self._schema, compression="zstd")

    def write(self, rows: Sequence[Mapping[str, Any]]) -> None:
        """Add rows as a row group."""
        columns = [
            _column(list(map(itemgetter(field.name), rows)), self._kinds[field.name], field.type)
            for field in self._schema
        ]
        self._writer.write_table(pyarrow.Table.from_arrays(columns, schema=self._schema))

    def close(self) -> None:
        """Write the footer."""
        self._writer.close()


def _column(values: list[Any], kind: str, of: Any) -> Any:
    """Values of one kind as an Arrow array."""
    if kind in ("date", "moment"):
        # Many rows have one day: each is read once.
        read = {value: _time(value, kind) for value in set(values)}
        return pyarrow.array([read[value] for value in values], of)
    try:
        return pyarrow.array(values, of)
    except UnicodeEncodeError:  # half of a surrogate pair, which no UTF-8 can hold
        known = (None if text is None else text.encode("utf-8", "replace").decode() for text in values)
        return pyarrow.array(list(known), of)


def _time(value: str | None, kind: str) -> datetime.date | None:
    """A day, or a moment in UTC; one without an offset is taken to be in UTC."""
    if value is None:
        return None
    if kind == "date":
        return datetime.date.fromisoformat(value)
    moment = datetime.datetime.fromisoformat(value)
    moment = moment if moment.tzinfo is not None else moment.replace(tzinfo=datetime.UTC)
    return moment.astimezone(datetime.UTC)
