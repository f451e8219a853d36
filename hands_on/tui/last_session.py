"""What a new examination takes over from the one before: who examines, and where on the same day."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path

from hands_on.store import places
from hands_on.store.errors import StoreError
from hands_on.store.records import Records
from hands_on.store.session_file import read_session
from hands_on.toml_text.problems import BadText


@dataclass(frozen=True)
class Last:
    """Of the newest session; empty where there is none, or it was held on another day."""

    evaluator: str = ""
    scribe: str = ""
    place: str = ""
    country: str = ""


def last_session(folder: Path, today: datetime.date) -> Last:
    """What the newest readable session in `folder` offers for a new one held `today`."""
    try:
        with Records(folder, places.index_path(folder)) as records:
            records.refresh()
            rows = [row for row in records.list(20) if row.problem is None and row.evaluator]
    except (StoreError, OSError):
        return Last()
    if not rows:
        return Last()
    newest = rows[0]
    if newest.started is None or newest.started.date() != today:
        return Last(newest.evaluator)
    try:
        examination = read_session(newest.path).examination
    except BadText:
        return Last(newest.evaluator)
    return Last(examination.evaluator, examination.scribe, examination.place, examination.country)
