"""Under the note line: of more rows than there is room for, some are shown whole and the others counted."""

from __future__ import annotations

import re

import pytest

from hands_on.tui.heard_rows import HeardRow
from hands_on.tui.widgets.understood import rows_in_part

ROWS = tuple(
    HeardRow(f"Region {n // 4}", f"[{n + 1}]", f"fault {n} " + "words " * (n % 5), f"id{n}")
    for n in range(20)
)


@pytest.mark.parametrize("room", [5, 6, 9, 14])
@pytest.mark.parametrize("marked", range(20))
def test_the_marked_row_is_there_whole_under_its_region_and_the_others_are_counted(marked, room):
    lines = [line.plain for line in rows_in_part(ROWS, f"id{marked}", 40, room)]
    assert len(lines) <= room
    (at,) = [n for n, line in enumerate(lines) if line.startswith("> ")]
    assert f"[{marked + 1}] fault {marked} " in lines[at]
    signs = [int(n) for line in lines for n in re.findall(r"\[(\d+)\]", line)]
    assert signs == list(range(signs[0], signs[-1] + 1)), "no row between is left out"
    said = {kind: int(n) for n, kind in re.findall(r"(\d+) more (above|below)", lines[-1])}
    assert (said.get("above", 0), said.get("below", 0)) == (signs[0] - 1, 20 - signs[-1])
    assert lines[0].lstrip("> ").startswith("Region"), "the first row shown tells its region"


def test_rows_that_just_fit_are_all_shown_and_nothing_is_counted():
    one_line = tuple(HeardRow("Neck", f"[{n}]", "short", f"id{n}") for n in range(6))
    lines = [line.plain for line in rows_in_part(one_line, "id2", 40, 6)]
    assert len(lines) == 6
    assert not any("more" in line for line in lines)


def test_words_not_understood_stand_in_sight_below_the_last_thing_that_can_be_marked():
    rows = (*ROWS, HeardRow("", "[?]", "not understood: fnord"))
    assert any("fnord" in line.plain for line in rows_in_part(rows, "id19", 60, 6))
