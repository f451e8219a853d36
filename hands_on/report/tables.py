"""Tables for spreadsheets: nothing that somebody typed is ever taken for a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import fields

from hands_on.plain_text import spreadsheet_text, visible
from hands_on.report.record import PointRow

__all__ = ["csv_text", "harmless", "points_csv"]


def points_csv(rows: Iterable[PointRow]) -> str:
    """One row a recorded point, as CSV (RFC 4180) with a header; units have a column of their own."""
    names = [field.name for field in fields(PointRow)]
    return csv_text(names, ([getattr(row, name) for name in names] for row in rows))


def csv_text(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Rows as CSV; numbers stay numbers, no text can begin a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(head)
    for row in rows:
        writer.writerow([_cell(value) for value in row])
    return out.getvalue()


def harmless(text: str) -> str:
    """A text that no spreadsheet computes: before what would begin a formula stands an apostrophe."""
    return spreadsheet_text(visible(text, keep="\n"))


def _cell(value: object) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else ""
        case float():
            return f"{value:.6g}"
        case int():
            return str(value)
        case _:
            return harmless(str(value))
