"""Every end of a limit is open or closed as the published text says: above or from, below or to.

The rows are data, one file an edition in tests/data/edition_ends/, each file with its source.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hands_on.ruleset.rules import Limit, Range
from hands_on.store.library import Library

_ROOT = Path(__file__).parents[2]
_library = Library([_ROOT / "rulesets"])


def _rows() -> list[Any]:
    rows = []
    for path in sorted((_ROOT / "tests" / "data" / "edition_ends").glob("*.toml")):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        assert table["source"]
        for row in table["ends"]:
            name = f"{path.stem}: {row['limit']} {row['value']:g}"
            rows.append(pytest.param(path.stem, row["limit"], row["value"], row["gives"], id=name))
    return rows


@pytest.mark.parametrize(("edition", "name", "value", "gives"), _rows())
def test_end_of_limit(edition: str, name: str, value: float, gives: str) -> None:
    """An exact number belongs to one stretch, the one the source named in the file puts it in."""
    limit = next(one for one in _library.load(edition).edition.limits if one.id == name)
    assert _places(limit, round(value, 6)) == [gives]


def _places(limit: Limit, value: float) -> list[str]:
    places = ["asked"] if limit.asked is not None and _holds(limit.asked, value) else []
    for band in limit.bands:
        if _holds(band, value):
            places.append("tolerated" if band.tolerated else band.value or band.class_ or "rulings")
    return places or ["nothing"]


def _holds(stretch: Range, value: float) -> bool:
    above = value > stretch.low or (value == stretch.low and not stretch.low_open)
    below = value < stretch.high or (value == stretch.high and not stretch.high_open)
    return above and below
