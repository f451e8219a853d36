"""Which cautions an evaluator has read in full today: shown again they would be passed over unread.

A small file in the user's data folder. It is of use for one day; where it cannot be read or written, the
cautions are simply shown in full again.
"""

from __future__ import annotations

import datetime
import hashlib
import json
import os
from collections.abc import Sequence
from contextlib import suppress

from hands_on.exam.cautions import Caution
from hands_on.store import places
from hands_on.store.atomic import write_atomic
from hands_on.store.letters import folded
from hands_on.store.private import make_folder
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.problems import BadText

NAME = "cautions-read.json"


def read_today(evaluator: str, cautions: Sequence[Caution], day: datetime.date) -> frozenset[str]:
    """Ids of those that this evaluator read on that day, with the text they have now."""
    known = _kept(day).get(_who(evaluator), [])
    return frozenset(row.id for row in cautions if _mark(row) in known) if evaluator.strip() else frozenset()


def note_read(evaluator: str, caution: Caution, day: datetime.date) -> None:
    """Remember that this evaluator has read a caution in full."""
    if not evaluator.strip():
        return
    kept = _kept(day)
    marks = kept.setdefault(_who(evaluator), [])
    if _mark(caution) in marks:
        return
    marks.append(_mark(caution))
    with suppress(OSError, ValueError):
        make_folder(places.user_data())
        path = places.user_data() / NAME
        if not os.path.islink(path):
            write_atomic(path, json.dumps({"day": day.isoformat(), "read": kept}))


def _kept(day: datetime.date) -> dict[str, list[str]]:
    """What was read on that day, by evaluator; nothing where the file is of another day or none of ours."""
    path = places.user_data() / NAME
    with suppress(BadText, ValueError, OSError):
        told = json.loads(decode(read_bytes(path), str(path)))
        if (
            isinstance(told, dict)
            and told.get("day") == day.isoformat()
            and isinstance(told.get("read"), dict)
        ):
            return {
                str(who): [mark for mark in marks if isinstance(mark, str)]
                for who, marks in told["read"].items()
                if isinstance(marks, list)
            }
    return {}


def _who(evaluator: str) -> str:
    """The name as it is compared, and not readable in the file."""
    return hashlib.sha256(folded(evaluator.strip()).encode()).hexdigest()[:16]


def _mark(caution: Caution) -> str:
    """A caution with its text: one that was changed is read anew."""
    return f"{caution.id}:{hashlib.sha256(caution.text.encode()).hexdigest()[:12]}"
