"""`hands-on records`: the sessions kept."""

from __future__ import annotations

import argparse
import sys
from dataclasses import asdict
from typing import TYPE_CHECKING

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.store.export import Format
    from hands_on.store.headers import SessionHeader


def run(context: Context, find: str | None, *, as_json: bool) -> int:
    """Print the sessions kept, newest first, or those in which `find` is found."""
    import sqlite3

    from hands_on.store import places
    from hands_on.store.errors import StoreError
    from hands_on.store.records import Records

    folder = context.sessions
    try:
        with Records(folder, places.index_path(folder)) as records:
            refreshed = records.refresh()
            rows = records.find(find) if find else records.list()
    except (OSError, sqlite3.Error, StoreError) as error:
        raise CommandError(f"{folder}: the records can't be read: {error}") from error
    if refreshed.problem:
        raise CommandError(refreshed.problem)
    if as_json:
        print_json([asdict(row) for row in rows])
        return 0
    for row in rows:
        print(visible(_line(row)))
    if not rows:
        print(f"No session{' with that' if find else ''} in {folder}.")
    return 0


def _line(row: SessionHeader) -> str:
    if row.problem:
        return f"{row.path}: can't be read: {row.problem}"
    names = [row.call_name, f'"{row.registered_name}"' if row.registered_name else ""]
    state = f"{row.kind}, {'signed' if row.signed else 'unfinished'}"
    day = f"{row.started:%Y-%m-%d}" if row.started else "undated   "
    cells = [day, " ".join(filter(None, names)), row.ruleset, row.evaluator, state]
    cells.append(f"conflict copy of {row.copy_of}" if row.copy_of else "")
    return "  ".join((*filter(None, cells), str(row.path)))


def export_tables(context: Context, options: argparse.Namespace) -> int:
    """Write all sessions kept as tidy tables; 1 where a file had to be left out.

    Raises CommandError where the tables can't be written.
    """
    from importlib.util import find_spec

    from hands_on.commands.cohort import kept_paths
    from hands_on.store.errors import StoreError
    from hands_on.store.export import export

    there = find_spec("pyarrow") is not None
    if options.to == "parquet" and not there:
        raise CommandError("Parquet needs the extra `tables`: pip install 'hands-on[tables]', or --to csv.")
    form: Format = options.to or ("parquet" if there else "csv")
    paths = kept_paths(context)

    def told(count: int) -> None:
        print(f"{count} of {len(paths)}", file=sys.stderr)

    try:
        found = export(paths, options.export, context.library, form, told=told)
    except StoreError as error:
        raise CommandError(visible(str(error))) from error
    if options.json:
        print_json(asdict(found) | {"folder": str(options.export)})
    else:
        print(visible(f"{found.sessions} sessions into {options.export} ({form}):"))
        for table, count in found.rows.items():
            print(f"  {table}: {count} rows")
        for reason in found.left_out:
            print(f"hands-on: left out: {visible(reason, keep=chr(10))}", file=sys.stderr)
    return 1 if found.left_out else 0
