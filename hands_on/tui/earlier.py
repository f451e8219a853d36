"""What a re-check goes back to: the earlier examination, shown at a point only once that is answered anew."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.compare.dogs.changed import Rechecked, rechecked
from hands_on.compare.dogs.recheck import plan_over
from hands_on.compare.examined import Examined, examined, same_dog
from hands_on.ruleset.points import Point
from hands_on.store import places
from hands_on.store.errors import StoreError
from hands_on.store.examined import examined_file
from hands_on.store.records import Records
from hands_on.toml_text.problems import BadText
from hands_on.wording.recheck import VERDICTS, plan_words, rechecked_sentence

if TYPE_CHECKING:
    from hands_on.store.library import Library
    from hands_on.tui.current_examination import CurrentExamination

MOST_LOOKED_AT = 60
"""Sessions opened in search of the dog's earlier ones."""

MOST_BEFORE = 10
"""So many still earlier examinations are looked at."""


def look_back(sheet: CurrentExamination, library: Library) -> None:
    """Read the earlier examination of a re-check and what is to be looked at again."""
    name = sheet.session.examination.baseline
    if not name:
        sheet.earlier_problem = "This re-check names no earlier examination."
        return
    path = baseline_path(sheet.path, name)
    try:
        sheet.earlier = examined_file(path, library)
    except (StoreError, BadText) as error:
        sheet.earlier_problem = (
            f"The earlier examination can't be read, so nothing is compared with it: {error}"
        )
        return
    sheet.before = before_that(path, sheet.earlier, library)
    started = sheet.session.examination.started
    day = started.date() if started is not None else None
    found = plan_over((sheet.earlier, *reversed(sheet.before)), sheet.ruleset, day, blind=True)
    sheet.again = {item.point: plan_words(item) for item in found.items}


def before_that(path: Path, earlier: Examined, library: Library) -> tuple[Examined, ...]:
    """The dog's examinations before the one in `path`, the earliest first: those it went back to itself, and
    those kept beside it.
    """
    found = [*_gone_back_to(path, earlier, library), *_kept(path.parent, earlier, library)]
    by_time = {one.order_key: one for one in found}
    return tuple(by_time[key] for key in sorted(by_time))[-MOST_BEFORE:]


def _gone_back_to(path: Path, earlier: Examined, library: Library) -> list[Examined]:
    """What the earlier examination itself went back to, and so on; as far as it can be read."""
    found: list[Examined] = []
    seen = {os.path.realpath(path)}
    name = earlier.session.examination.baseline
    while name and len(found) < MOST_BEFORE:
        path = baseline_path(path, name)
        if os.path.realpath(path) in seen:
            break
        seen.add(os.path.realpath(path))
        try:
            found.append(examined_file(path, library))
        except (StoreError, BadText):
            break
        name = found[-1].session.examination.baseline
    return found


def _kept(folder: Path, than: Examined, library: Library) -> list[Examined]:
    """The earlier examinations of the same dog that are kept in a folder."""
    identity = than.session.dog.identity
    found = []
    try:
        with Records(folder, places.index_path(folder)) as records:
            records.refresh()
            paths = [row.path for row in records.find(identity, MOST_LOOKED_AT) if row.problem is None]
    except (StoreError, OSError):
        return []
    for path in paths:
        try:
            one = examined_file(path, library)
        except (StoreError, BadText):
            continue
        if same_dog(one, than) and one.order_key < than.order_key:
            found.append(one)
    return found


def baseline_path(session: Path, name: str) -> Path:
    """Where the earlier session is: as named, or beside the later one."""
    beside = session.parent / name
    return beside if os.path.isfile(beside) else Path(name)


def baseline_name(earlier: Path, folder: Path) -> str:
    """How a re-check in `folder` names its earlier session: by its file alone where that lies beside it."""
    here = Path(os.path.realpath(earlier))
    return earlier.name if str(here.parent) == os.path.realpath(folder) else str(here)


def then_and_now(sheet: CurrentExamination, point: Point) -> Rechecked | None:
    """Both answers with the verdict; None as long as the point has no new answer."""
    if sheet.earlier is None or not sheet.answers_at(point).given:
        return None
    later = examined(sheet.ruleset, sheet.session, name=sheet.path.name, hand=sheet.hand)
    return rechecked(sheet.earlier, later, point, sheet.before)


def further_back(sheet: CurrentExamination, point: Point) -> list[str]:
    """The same against each examination before that one that answered the point, newest first."""
    if not sheet.before or not sheet.answers_at(point).given:
        return []
    later = examined(sheet.ruleset, sheet.session, name=sheet.path.name, hand=sheet.hand)
    found = (rechecked(one, later, point) for one in reversed(sheet.before))
    return [f"Before that: {verdict_text(one)}" for one in found if one.then.given]


def verdict_text(found: Rechecked) -> str:
    """The verdict in a word or two, then both answers."""
    sentence = rechecked_sentence(found)
    return f"{VERDICTS[found.verdict].upper()}. {sentence}" if found.verdict is not None else sentence
