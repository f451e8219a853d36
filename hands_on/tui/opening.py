"""An examination brought to the screens: opened from its file, or begun, with the evaluator's own hand."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path

from hands_on.exam.region_sheet import given_by_region
from hands_on.exam.session import Session
from hands_on.exam.walk import where_stopped
from hands_on.measure.hand import OwnHand
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.errors import StoreError
from hands_on.store.library import Library
from hands_on.store.open_session import OpenSession
from hands_on.store.own_hand import hands_of
from hands_on.store.places import index_path
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.earlier import look_back


def open_sheet(
    path: Path, library: Library, folder: Path, clock: Callable[[], datetime.datetime]
) -> CurrentExamination:
    """The session in `path` with its edition; the evaluator's own hand comes from the sessions in `folder`.

    Raises BadText (session or edition), UnknownEdition.
    """
    desk = OpenSession.open(path, clock())
    try:
        ruleset = library.load(desk.session.ruleset.id)
        hand = own_hand(folder, ruleset, desk.session.examination.evaluator, desk.path)
        sheet = CurrentExamination(desk, ruleset, clock, hand)
        sheet.find_drafts()
        _look_back(sheet, library)
    except BaseException:
        desk.close()
        raise
    sheet.place = where_stopped(sheet.stops, sheet.session, sheet.called())
    sheet.by_sheets = any(given_by_region(sheet.answers_at(stop.point)) for stop in sheet.stops)
    return sheet


def new_sheet(
    folder: Path, session: Session, ruleset: Ruleset, library: Library, clock: Callable[[], datetime.datetime]
) -> CurrentExamination:
    """A new session, on disk in `folder` or, where nothing can be written, only in memory."""
    now = clock()
    desk = OpenSession.create(folder, session, now)
    sheet = CurrentExamination(
        desk, ruleset, clock, own_hand(folder, ruleset, session.examination.evaluator, desk.path)
    )
    sheet.saved_at = None if desk.unsaved else now
    _look_back(sheet, library)
    sheet.place = sheet.first_open() or 0
    return sheet


def _look_back(sheet: CurrentExamination, library: Library) -> None:
    """Give a re-check its earlier examination."""
    if sheet.session.examination.kind == "recheck":
        look_back(sheet, library)


def own_hand(folder: Path, ruleset: Ruleset, evaluator: str, path: Path) -> dict[str, OwnHand]:
    """The evaluator's own hand from the sessions in `folder`; none where they can't be read."""
    try:
        return hands_of(folder, index_path(folder), ruleset, evaluator, path)
    except (StoreError, OSError):
        return {}
