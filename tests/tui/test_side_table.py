"""Columns of a table that shows all of them: as wide as they need, and no interval torn apart."""

from __future__ import annotations

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
