"""What a re-check goes back to: the earlier examination, shown at a point only once that is answered anew."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.compare.dogs.changed import Rechecked, rechecked
from hands_on.compare.dogs.recheck import plan
from hands_on.compare.examined import Examined, examined
from hands_on.ruleset.points import Point
from hands_on.store.errors import StoreError
from hands_on.store.examined import examined_file
from hands_on.toml_text.problems import BadText
from hands_on.wording.recheck import VERDICTS, plan_words, rechecked_sentence

if TYPE_CHECKING:
    from hands_on.store.library import Library
    from hands_on.tui.current_examination import CurrentExamination


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
    sheet.before = _before(sheet.earlier, path, library)
    started = sheet.session.examination.started
    found = plan(sheet.earlier, sheet.ruleset, started.date() if started is not None else None)
    sheet.again = {item.point: plan_words(item) for item in found.items}


def _before(earlier: Examined, path: Path, library: Library) -> tuple[Examined, ...]:
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
    return tuple(reversed(found))


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


def verdict_text(found: Rechecked) -> str:
    """The verdict in a word or two, then both answers."""
    sentence = rechecked_sentence(found)
    return f"{VERDICTS[found.verdict].upper()}. {sentence}" if found.verdict is not None else sentence
