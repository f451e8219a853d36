"""One Parquet file (Apache Parquet, through pyarrow, which comes with the extra `tables`)."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
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
        columns = {name: [_value(row[name], kind) for row in rows] for name, kind in self._kinds.items()}
        self._writer.write_table(pyarrow.table(columns, schema=self._schema))

    def close(self) -> None:
        """Write the footer."""
        self._writer.close()


def _value(value: Any, kind: str) -> Any:
    if value is None:
        return None
    if kind == "text":
        return str(value).encode("utf-8", "replace").decode()
    if kind == "date":
        return datetime.date.fromisoformat(value) if isinstance(value, str) else value
    if kind == "moment":
        moment = datetime.datetime.fromisoformat(value) if isinstance(value, str) else value
        moment = moment if moment.tzinfo is not None else moment.replace(tzinfo=datetime.UTC)
        return moment.astimezone(datetime.UTC)
    return value
