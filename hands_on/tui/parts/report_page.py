"""The report of an open examination, written as a page beside its session."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from pathlib import Path

from hands_on.compare.examined import examined
from hands_on.exam.cautions import cautions_for
from hands_on.report.html import report_html
from hands_on.report.one_dog import Written, one_dog
from hands_on.store.atomic import write_atomic
from hands_on.store.library import Library
from hands_on.store.session_file import read_session
from hands_on.tui.current_examination import CurrentExamination

__all__ = ["write_page"]


def write_page(sheet: CurrentExamination, library: Library, critique: Written) -> Path:
    """Where it was written: beside the session's file, never over a file that is there.

    Raises StoreError or BadText where the session cannot be read again, OSError where nothing can be written.
    """
    session = read_session(sheet.path)
    one = examined(sheet.ruleset, session, name=str(sheet.path), hand=sheet.hand)
    cautions = cautions_for(library.cautions(), sheet.ruleset, session)
    text = report_html(one_dog(one, session, critique, cautions))
    for path in _names(sheet.path):
        try:
            write_atomic(path, text, new=True)
        except FileExistsError:
            continue
        return path
    raise AssertionError("there is always another number")


def _names(session: Path) -> Iterator[Path]:
    yield session.with_suffix(".html")
    yield from (session.with_name(f"{session.stem}-{number}.html") for number in count(2))
