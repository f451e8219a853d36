"""`hands-on cohort`: many dogs together, as text, JSON, CSV or a page of HTML."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.commands.columns import WIDTH, columns, paragraph, section
from hands_on.commands.report import write_out
from hands_on.commands.shared import CommandError, print_json, text_width
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.cohort.cohort import Cohort
    from hands_on.compare.cohort.members import Member, Wanted

_YEARS = re.compile(r"(\d{4})?(-)?(\d{4})?")


def run(context: Context, options: argparse.Namespace) -> int:
    """Print the cohort. Raises CommandError for what can't be read or understood, and without any dog."""
    from hands_on.compare.cohort.cohort import cohort

    wanted = _wanted(options)
    members = list(_members(context, options.files))
    found = cohort(members, wanted)
    if not found.members:
        raise CommandError(f"no dog fits: {_words(wanted)}.{_meant(wanted, members)}")
    if options.json:
        from hands_on.wording.documents.cohort import cohort_document

        print_json(cohort_document(found))
        return 0
    labels = _class_labels(context, found)
    width = WIDTH if options.out else text_width()
    write_out(_written(found, labels, options.to, width), options.out, force=options.force)
    return 0


def _written(found: Cohort, labels: dict[str, str], form: str, width: int) -> str:
    if form == "text":
        return "\n".join(lines(found, labels, width)) + "\n"
    if form == "csv":
        from hands_on.report.cohort_tables import cohort_csv

        return cohort_csv(found, labels)
    from hands_on.report.cohort_page import cohort_report
    from hands_on.report.html import report_html

    return report_html(cohort_report(found, labels))


def _words(wanted: Wanted) -> str:
    from hands_on.wording.cohort import wanted_words

    return wanted_words(wanted)


def _meant(wanted: Wanted, members: Sequence[Member]) -> str:
    """The full names that may have been meant where a name is none of them."""
    told = ""
    for kind in ("litter", "sire", "dam", "evaluator"):
        typed: str = getattr(wanted, kind).strip().casefold()
        names = sorted({str(getattr(one, kind)) for one in members} - {""})
        close = [visible(name) for name in names if typed and typed in name.casefold()]
        if close and typed not in map(str.casefold, names):
            told += f" A name is given in full: --{kind} {' or '.join(map(repr, close[:3]))}."
    return told


def _wanted(options: argparse.Namespace) -> Wanted:
    from hands_on.compare.cohort.members import Wanted

    born = _YEARS.fullmatch(options.born)
    if born is None or (options.born and not (born[1] or born[3])) or (born[1] and born[3] and not born[2]):
        raise CommandError(f"--born {visible(options.born)}: right would be 2023, 2020-2023, 2020- or -2023.")
    first = int(born[1]) if born[1] else None
    last = int(born[3]) if born[3] else (first if not born[2] else None)
    return Wanted(
        litter=options.litter,
        sire=options.sire,
        dam=options.dam,
        kennel=options.kennel,
        born_from=first,
        born_to=last,
        evaluator=options.evaluator,
        breed=options.breed,
        edition=options.ruleset,
        sex=options.sex,
    )


def _members(context: Context, files: list[str]) -> Iterator[Member]:
    from hands_on.compare.cohort.members import member_of

    if files:
        from hands_on.commands.given_sessions import held

        yield from map(member_of, held(context, files))
        return
    from hands_on.store.errors import StoreError
    from hands_on.store.examined import examined_file
    from hands_on.toml_text.problems import BadText

    for path in kept_paths(context):
        try:
            yield member_of(examined_file(path, context.library))
        except (StoreError, BadText) as error:
            told = visible(str(error), keep="\n")
            print(f"hands-on: left out: {told}", file=sys.stderr)


def kept_paths(context: Context) -> list[Path]:
    """The files of all sessions kept, the newest first. Raises CommandError."""
    import sqlite3

    from hands_on.store import places
    from hands_on.store.errors import StoreError
    from hands_on.store.records import Records

    folder = context.sessions
    try:
        with Records(folder, places.index_path(folder)) as records:
            refreshed = records.refresh()
            rows = records.list()
    except (OSError, sqlite3.Error, StoreError) as error:
        raise CommandError(f"{folder}: the records can't be read: {error}") from error
    if refreshed.problem:
        raise CommandError(refreshed.problem)
    return [row.path for row in rows if row.problem is None]


def _class_labels(context: Context, found: Cohort) -> dict[str, str]:
    labels: dict[str, str] = {}
    for name in sorted({one.edition for one in found.members}):
        for cls in context.library.load(name).classes.values():
            labels.setdefault(cls.id, cls.label)
    return labels


def lines(found: Cohort, labels: dict[str, str], width: int = WIDTH) -> Iterator[str]:
    """The cohort as text, `width` columns wide."""
    from hands_on.wording.cohort import (
        FAULTS_HEAD,
        FAULTS_NOTE,
        SIZES_HEAD,
        SIZES_NOTE,
        about_sentences,
        frequency_cells,
        spread_cells,
        trend_sentences,
    )

    for text in about_sentences(found):
        yield from paragraph(text, 0, width=width)
    rows = (frequency_cells(one, labels) for one in found.frequencies)
    faults = _table(rows, _widths(width, 27, 26, 20), FAULTS_NOTE, FAULTS_HEAD)
    yield from section("How often which fault", faults, "no fault in any of them")
    sizes = _table(map(spread_cells, found.spreads), _widths(width, 26, 30, 18), SIZES_NOTE, SIZES_HEAD)
    yield from section("Measurements and proportions", sizes, "nothing was measured")
    told = (row for text in trend_sentences(found) for row in paragraph(text, width=width))
    yield from section("Over the years", told)


def _widths(width: int, second: int, first: int, third: int) -> list[int]:
    """Four columns: the second, with the figures, keeps its width; the others share what is left."""
    left = width - second - 6
    first, third = (share * left // (100 - second - 6) for share in (first, third))
    return [first, second, third, left - first - third]


def _table(
    rows: Iterable[tuple[str, ...]], widths: list[int], note: str, head: tuple[str, ...]
) -> Iterator[str]:
    """What the cells are, and the rows; nothing where there are none."""
    every = list(rows)
    if not every:
        return
    yield from paragraph(note, width=sum(widths) + 6)
    for cells in (head, *every):
        yield from columns(cells, widths, 2)
