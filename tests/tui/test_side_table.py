"""Columns of a table that shows all of them: as wide as they need, and no interval torn apart."""

from __future__ import annotations

import pytest

from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.tui.screens.cohort import COLUMNS
from hands_on.tui.widgets.side_table import in_cell, shared_out

CELLS = (("How often", "2 of 4, 50 % [15 to 85 %]"), ("Degrees", "2 slight"), ("Class", "2 Fault"))


def test_columns_are_as_wide_as_they_need_where_there_is_room():
    assert shared_out(100, (9, 4, 5), CELLS) == [25, 8, 7]


def test_no_word_and_no_interval_is_torn_where_the_room_holds_them():
    """Shares alone give 10, 10, 10: too little for the interval, of 12 cells."""
    widths = shared_out(30, (1, 1, 1), CELLS)
    assert widths == [12, 8, 7]
    assert in_cell(CELLS[0][1], widths[0]) == ["2 of 4, 50 %", "[15 to 85 %]"]


def test_where_not_even_the_words_have_room_the_shares_decide():
    assert shared_out(18, (1, 1, 1), (("Krippendorff's",), ("interval]",), ("Answers",))) == [6, 6, 6]


def test_an_interval_longer_than_its_cell_is_wrapped_like_other_words():
    assert in_cell("5 [15 to 85 %]", 8) == ["5 [15 to", "85 %]"]


@pytest.mark.parametrize("edition", sorted(path.stem for path in shipped_rulesets().glob("*.toml")))
def test_at_eighty_columns_no_interval_of_a_cohort_is_torn(edition):
    """48 cells are left beside the labels; the longest intervals, degrees and the edition's own classes."""
    classes = Library([shipped_rulesets()]).load(edition).classes.values()
    cells = (
        (
            COLUMNS[0].name,
            "12 of 100, 42 % [26 to 66 %]; 3 too young to judge",
            "1.095 [1.082 to 1.154], spread",
        ),
        (COLUMNS[1].name, "2 degree not said", "12 moderate, 1 slight, 3 extreme"),
        (
            COLUMNS[2].name,
            *(f"12 {one.label}, 3 no class" for one in classes),
            "outside 1 of 3, 33 % [21 to 100 %]",
        ),
    )
    for column, width in zip(cells, shared_out(48, (9, 4, 5), cells), strict=True):
        for cell in column:
            for line in in_cell(cell, width):
                assert line.count("[") == line.count("]"), (width, cell)
