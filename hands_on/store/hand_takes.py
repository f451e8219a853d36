"""The readings of one finished session, by point, as the index keeps them for the evaluator's own hand.

Read from the file's tables without the session's model, as quickly as the list of records is.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterable
from typing import Any

from hands_on.frozen import dataclass
from hands_on.store.letters import folded

HIDDEN = "hidden"
"""The key of a take that was taken while the earlier ones were hidden; a file without it has no repeats."""

Reading = float | str
"""A take as entered: a number, or the text as typed."""

Place = tuple[str, str, str]
"""Point, side and unit as entered; the last two may be empty."""


@dataclass(frozen=True)
class Taken:
    """What one evaluator read on one dog in one session."""

    evaluator: str
    """As `hand_key` gives it."""
    dog: str
    """What tells this dog from every other, as well as the file can."""
    day: str
    readings: dict[Place, list[Reading]]

    @property
    def stored(self) -> str:
        """The readings as the index holds them."""
        rows = [[*place, values] for place, values in self.readings.items()]
        return json.dumps(rows, separators=(",", ":"), ensure_ascii=False)


def stored_readings(text: str) -> dict[Place, list[Reading]]:
    """The readings that `Taken.stored` gave."""
    return {(point, side, unit): values for point, side, unit, values in json.loads(text)}


def hand_key(evaluator: str) -> str:
    """An evaluator's name as names are compared: case, accents and spaces do not count."""
    return " ".join(folded(evaluator).split())


def taken_of(tables: dict[str, Any]) -> Taken | None:
    """The readings of a session that is signed or finished, has a day, and names evaluator and dog.

    Of each point and side the first take counts, and those taken on the same stand while the earlier ones
    were hidden. Struck
    takes are left out, and takes that somebody else than evaluator or scribe gave. Amendments are put in
    place of what they replace. None where no take is one.
    """
    held, dog = _table(tables, "examination"), _table(tables, "dog")
    evaluator, name = hand_key(_text(held, "evaluator")), _identity(dog)
    day = held.get("started") or held.get("finished")
    done = held.get("finished") is not None or bool(_table(tables, "signature"))
    if not (done and evaluator and name and isinstance(day, datetime.date)):
        return None
    hands = {"", evaluator, hand_key(_text(held, "scribe"))}
    readings: dict[Place, list[Reading]] = {}
    seen: dict[tuple[str, str], object] = {}
    repeated = False
    for take in _amended(tables):
        point, side, value = _text(take, "point"), _text(take, "side"), take.get("value")
        stand = take.get("stand", 1)
        blind = (point, side) not in seen or (take.get(HIDDEN) is True and seen[point, side] == stand)
        seen.setdefault((point, side), stand)
        if not (point and blind) or _text(take, "struck") or hand_key(_text(take, "by")) not in hands:
            continue
        if isinstance(value, int | float | str) and not isinstance(value, bool):
            readings.setdefault((point, side, _text(take, "unit")), []).append(value)
            repeated = repeated or take.get(HIDDEN) is True
    if not repeated:
        return None
    return Taken(evaluator, name, f"{day:%Y-%m-%d}", readings)


def _amended(tables: dict[str, Any]) -> list[dict[str, Any]]:
    """The takes as they stand now."""
    takes = _rows(tables.get("takes"))
    for amendment in _rows(tables.get("amendments")):
        point = _text(amendment, "point")
        if point:
            takes = [take for take in takes if take.get("point") != point] + _rows(amendment.get("takes"))
    return takes


def _identity(dog: dict[str, Any]) -> str:
    """Number or name, and what sets two dogs of one name apart; empty where the dog has neither."""
    names = ("chip", "tattoo", "registration", "registered_name", "call_name")
    known = next((text for key in names if (text := _text(dog, key).strip())), "")
    return "|".join((folded(known), _text(dog, "sex"), str(dog.get("born", "")))) if known else ""


def _rows(value: Any) -> list[dict[str, Any]]:
    return [row for row in value if isinstance(row, dict)] if isinstance(value, Iterable) else []


def _table(tables: dict[str, Any], key: str) -> dict[str, Any]:
    value = tables.get(key)
    return value if isinstance(value, dict) else {}


def _text(table: dict[str, Any], key: str) -> str:
    value = table.get(key, "")
    return value if isinstance(value, str) else ""
