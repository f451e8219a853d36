"""Each point drawn: beside the guidance where there is room, by its key on a screen of its own."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from hands_on.figure.looks import look_at_point, unseen_at_point
from hands_on.tui.widgets.point_figure import LEAST_WIDTH, point_rows
from tests.tui.driving import LIBRARY, begun, sitting

RULES = LIBRARY.load("hovawart-fci-190")
BUILD = {"general", "head", "ears", "neck", "forequarters", "forefeet", "chest", "back", "croup-tail",
         "hindquarters", "hindfeet"}  # fmt: skip


LOOKS = {}


def look_once(rules, point, sex):
    """The looks of a point are the same in every size of window: they are found once."""
    key = (rules.id, point.id, sex)
    if key not in LOOKS:
        LOOKS[key] = look_at_point(rules, point, sex)
    return LOOKS[key]


@pytest.mark.parametrize(
    ("edition", "size"),
    [("hovawart-fci-190", (77, 20)), ("hovawart-fci-190", (150, 40)), ("dachshund-fci-148", (78, 20))],
)
def test_every_point_of_build_is_drawn_within_its_room_or_its_reason_is_told(edition, size, monkeypatch):
    monkeypatch.setattr("hands_on.tui.widgets.point_figure.look_at_point", look_once)
    rules = LIBRARY.load(edition)
    for point in rules.points.values():
        rows = point_rows(rules, point, "male", *size)
        assert len(rows) <= size[1], point.id
        assert max(map(len, rows), default=0) <= size[0], point.id
        if point.region in BUILD:
            assert rows, point.id
            assert look_once(rules, point, "male") or unseen_at_point(rules, point)


def test_what_departs_looks_other_than_what_is_asked():
    point = RULES.points["hindquarters.hocks"]
    rows = point_rows(RULES, point, None, 78, 20)
    assert rows[0].startswith("Cow hocks, from behind")
    assert rows[1].split() == ["as", "asked", "slight", "marked"]
    aside = 22
    slight, marked = ([row[30 + n * (aside + 2) :][:aside].strip() for row in rows[2:9]] for n in (0, 1))
    assert slight != marked


def test_too_little_room_shows_nothing_rather_than_a_scribble():
    assert point_rows(RULES, RULES.points["back.topline"], None, 3 * LEAST_WIDTH + 3, 30) == []
    smallest = point_rows(RULES, RULES.points["back.topline"], None, 58, 14, 0)  # in a window of 60 by 18
    assert smallest
    assert all(cell_len(row) <= 58 for row in smallest)
    assert point_rows(RULES, RULES.points["back.topline"], None, 80, 9) == []


async def at(table, point):
    await table.press("g")
    screen = table.app.screen
    if not hasattr(screen, "menu"):
        await table.press("t")
        screen = table.app.screen
    screen.go_to(screen.sheet.index_of(point))
    await table.pilot.pause()


async def test_a_high_window_shows_the_point_beside_its_answers(folder):
    begun(folder)
    async with sitting(folder, (160, 45)) as table:
        await at(table, "back.topline")
        await table.pilot.pause()
        assert "Sway back, from the side" in table.text
        assert "What was graded is drawn twice as strong as felt" in table.text


async def test_a_key_shows_it_large_and_n_the_next_departure(folder):
    begun(folder)
    async with sitting(folder, (80, 24)) as table:
        await at(table, "forequarters.shoulder")
        assert "from the side" not in table.text
        await table.press("k")
        assert table.screen_name == "PointFigureScreen"
        assert "Steep shoulder, from the side" in table.text
        await table.press("n")
        assert table.text.index("Over-angulated in front, from") < table.text.index(
            "Short shoulder blade, from"
        )
        await table.press("escape")
        assert table.screen_name == "WalkScreen"


async def test_a_measurement_shows_where_the_stick_lies(folder):
    begun(folder)
    async with sitting(folder, (80, 24)) as table:
        await at(table, "body-length")
        await table.press("k")
        for words in ("Point of buttock", "Point of shoulder", "◉ found by hand"):
            assert words in table.text
