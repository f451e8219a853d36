"""Side by side, the projector, sire and dam, drawings: what stands where, what is hidden, what is told."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from hands_on.compare.dogs.side_by_side import side_by_side
from hands_on.tui.asks import Pairing, ShowSideBySide
from hands_on.tui.questions.pick_sessions import PickSessions
from hands_on.tui.screens.compare import CompareScreen
from hands_on.tui.screens.projector import ProjectorScreen
from hands_on.tui.side_rows import compared_parts
from hands_on.tui.widgets.figure import FigurePane
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording.dogs import cell_words, verdict_mark
from hands_on.wording.labels import label_words
from hands_on.wording.order import answer_label
from tests.tui.demo import BRUMO, BRUMO_BY_ANOTHER, FENJA, TOVIK, copied, demo, held, opening
from tests.tui.driving import sitting


def one_line(text):
    return " ".join(text.split())


async def test_two_dogs_stand_side_by_side_with_the_difference_and_its_verdict_in_words(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    compared = side_by_side(sessions)
    height = next(row for row in compared.rows if row.id == "height")
    assert height.real
    cells = [cell_words(compared, height, place) for place in (0, 1)]
    async with sitting(folder, **opening(ShowSideBySide, sessions)) as table:
        lines = table.text.split("\n")
        (row,) = (line for line in lines if line.lstrip().startswith("Height at the"))
        assert [cells[0] in row, cells[1] in row] == [True, True]
        assert row.index(cells[0]) < row.index(cells[1])
        assert row.rstrip(" ▁▂▃▄▅▆▇█").endswith("real")
        heads = next(line for line in lines if "Brumo" in line and "Side by side" not in line)
        assert heads.index("Brumo") == row.index(cells[0])
        assert all(cell_len(line) <= 80 for line in lines)


async def test_the_filter_leaves_only_what_differs_and_says_so(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    async with sitting(folder, **opening(ShowSideBySide, sessions)) as table:
        screen = table.app.screen
        assert isinstance(screen, CompareScreen)
        assert any(row.mark == "the same" for part in screen.query_one(SideTable).parts for row in part.rows)
        await table.press("d")
        parts = screen.query_one(SideTable).parts
        differing = {label_words(row.named) for row in screen.compared.rows if row.differs}
        points = [part for part in parts if part.id in dict(screen.compared.regions)]
        assert {row.label for part in points for row in part.rows if row.label} == differing
        assert "ONLY WHAT DIFFERS" in table.text
        assert "the same" not in table.text
        await table.press("d")
        assert "ONLY WHAT DIFFERS" not in table.text


async def test_regions_are_stepped_through_and_jumped_to(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    async with sitting(folder, **opening(ShowSideBySide, sessions)) as table:
        side = table.app.screen.query_one(SideTable)
        first = side.parts[0].id
        await table.press("enter")
        assert side.part_on_top.id == side.parts[1].id
        await table.press("plus", "b", "minus")
        assert side.part_on_top.id == first
        await table.press("j")
        number = next(n for n, part in enumerate(side.parts, 1) if part.id == "order")
        await table.type(str(number))
        await table.press("enter")
        assert table.screen_name == "CompareScreen"
        assert side.part_on_top.id == "order"
        assert side.part_on_top.title in table.text


async def test_an_order_whose_first_place_is_uncertain_says_so_and_what_it_depends_on(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    order = side_by_side(sessions).order
    assert not order.settled
    assert order.depends_on
    async with sitting(folder, (100, 40), **opening(ShowSideBySide, sessions)) as table:
        screen = table.app.screen
        assert isinstance(screen, CompareScreen)
        screen._go("order")
        await table.pilot.pause()
        text = one_line(table.text)
        assert "This order is uncertain" in text
        assert f"It depends on {order.depends_on[0].dog}, {answer_label(order.depends_on[0])}" in text


async def test_of_five_dogs_two_columns_fit_80_columns_and_the_arrows_show_the_others(folder):
    sessions = held(demo(folder))
    names = side_by_side(sessions).dogs
    async with sitting(folder, **opening(ShowSideBySide, sessions)) as table:
        side = table.app.screen.query_one(SideTable)
        assert side.shown == 2
        assert "3 more" in table.text
        await table.press("right", "right", "right", "right", "right")
        assert side.first == len(names) - 2
        assert f"5 {names[4]}" in table.text
        await table.press("left")
        assert side.first == len(names) - 3
        await table.pilot.resize_terminal(160, 45)
        await table.pilot.pause(0.05)
        assert side.shown == 4, (side.size, side._label_width, side._mark_width)
        assert side.first == len(names) - side.shown, "no empty column at the right"


async def test_a_high_wide_window_shows_regions_and_the_dogs_beside_the_table(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    async with sitting(folder, (160, 45), **opening(ShowSideBySide, sessions)) as table:
        for _, label in table.app.screen.compared.regions:
            assert label in table.text
        pane = table.app.screen.query_one(FigurePane)
        assert pane.region.x > 100
        for part in (
            "line: Brumo, 68.2 cm high",
            "chain: Fenja, 61.7 cm high",
            "Light: assumed",
            "Both to one scale",
        ):
            assert part in one_line(str(pane.render()))
        await table.pilot.resize_terminal(80, 24)
        await table.pilot.pause()
        assert "chain: Fenja" not in table.text
        await table.press("o")
        assert table.screen_name == "FigureScreen"
        assert "chain: Fenja" in table.text


def test_where_nobody_looked_a_fault_is_not_told_as_absent(folder):
    paths = demo(folder, BRUMO, FENJA)
    brumo, fenja = held(paths)
    found = next(one for one in brumo.evaluation.findings if one.id == "eyes.light")
    assert found.points
    (point,) = found.points
    text = paths[1].read_text()
    graded = [block for block in text.split("\n\n") if f'point = "{point}"' in block]
    assert graded
    for block in graded:
        text = text.replace(block + "\n\n", "")
    paths[1].write_text(text)
    unseen = held(paths)[1]
    for other, cell in ((fenja, "no"), (unseen, "not examined")):
        parts = compared_parts(side_by_side([brumo, other]), only_different=False)
        (row,) = (row for part in parts for row in part.rows if row.label == label_words(found.named))
        assert row.cells[1] == cell


# --- projector ---------------------------------------------------------------------------------------


async def test_the_projector_asks_first_and_shows_the_answers_on_a_key(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    async with sitting(folder, (160, 45), **opening(ShowSideBySide, sessions)) as table:
        await table.press("d", "p")
        screen = table.app.screen
        assert isinstance(screen, ProjectorScreen)
        assert [row.id for slide in screen.slides for row in slide.rows] == [
            row.id for row in (*screen.compared.rows, *screen.compared.proportions) if row.differs
        ]
        for slide in screen.slides[:7]:
            (row,) = slide.rows
            words = {cell_words(screen.compared, row, place) for place in (0, 1)}
            assert label_words(row.named) in table.text
            assert "Brumo" in table.text
            assert "Fenja" in table.text
            assert not [word for word in words if len(word) > 8 and word in one_line(table.text)]
            assert "█" in table.text, "the question stands in big letters"
            await table.press("enter")
            for word in words:
                assert one_line(word)[:40] in one_line(table.text), label_words(row.named)
            assert verdict_mark(row.headline) in table.text
            await table.press("enter")
        screen.at, screen.open = len(screen.slides) - 1, False
        await table.press("enter")
        assert "last one" in table.text


async def test_the_projector_draws_the_dogs_over_the_whole_screen_and_keeps_hidden_names(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    async with sitting(folder, (160, 45), **opening(ShowSideBySide, sessions)) as table:
        await table.press("p", "a", "o")
        assert table.screen_name == "FigureScreen"
        assert "line: Dog 1, 68.2 cm high" in table.text
        assert "Fenja" not in table.text
        assert "Both to one scale" in table.text
        await table.press("s")
        assert "Brought to one height" in table.text


async def test_the_projector_goes_back_and_from_region_to_region(folder):
    sessions = held(demo(folder, BRUMO, FENJA))
    async with sitting(folder, **opening(ShowSideBySide, sessions)) as table:
        await table.press("p")
        screen = table.app.screen
        assert isinstance(screen, ProjectorScreen)
        regions = list(dict.fromkeys(slide.region for slide in screen.slides))
        await table.press("enter", "enter", "b")
        assert (screen.at, screen.open) == (0, True), "back shows the answers again"
        await table.press("n")
        assert (screen.slide.region, screen.open) == (regions[1], False)
        await table.press("m")
        assert screen.slide.region == regions[1]
        assert len(screen.slide.rows) > 1
        label = label_words(screen.slide.rows[1].named)
        assert label.split()[0] in table.text
        await table.press("pageup", "escape")
        assert table.screen_name == "CompareScreen"


# --- sire and dam ------------------------------------------------------------------------------------


async def test_sire_and_dam_begin_with_the_cautions(folder):
    sessions = held(demo(folder, FENJA, BRUMO))
    async with sitting(folder, (100, 40), **opening(Pairing, sessions)) as table:
        text = one_line(table.text)
        assert text.index("Conformation is not genetics") < text.index("Faults they share")
        assert "no health test" in text
        heads = next(line for line in table.text.split("\n") if "Sire: Brumo" in line)
        assert "Dam: Fenja" in heads, "the dog is the sire, whichever was named first"


# --- choosing ----------------------------------------------------------------------------------------


async def test_sessions_are_marked_by_number_and_space_in_the_order_of_the_columns(folder):
    demo(folder)
    async with sitting(folder) as table:
        await table.press("c")
        screen = table.app.screen
        assert isinstance(screen, PickSessions)
        await table.press("2", "enter")
        assert "At least 2" in table.text
        await table.press("down", "down", "space")
        await table.press("slash")
        await table.type("tovik")
        await table.press("enter")
        assert len(screen.rows) == 1
        await table.press("1")
        marked = list(screen.marked)
        assert len(marked) == 3
        assert "Marked: 1 " in table.text
        assert "3 Tovik" in table.text
        await table.press("enter")
        assert [one.name for one in table.app.screen.compared.sessions] == [str(path) for path in marked]


async def test_no_more_than_six_are_marked(folder):
    (path,) = demo(folder, TOVIK)
    for n in range(2, 9):
        copied(path, folder / f"tovik-{n}.toml")
    async with sitting(folder) as table:
        await table.press("c", *"1234567")
        assert len(table.app.screen.marked) == 6
        assert "6 at most" in table.text
        await table.press("3", "7")
        assert len(table.app.screen.marked) == 6


async def test_from_the_records_an_examination_is_compared_with_others(folder):
    demo(folder, BRUMO, FENJA)
    async with sitting(folder) as table:
        await table.press("r", "f3")
        screen = table.app.screen
        assert isinstance(screen, PickSessions)
        assert len(screen.marked) == 1
        await table.press("1" if screen.rows[0].path not in screen.marked else "2", "enter")
        assert table.screen_name == "CompareScreen"


async def test_a_session_that_cannot_be_read_is_told_and_nothing_is_compared(folder):
    paths = demo(folder, BRUMO, FENJA)
    async with sitting(folder) as table:
        await table.press("c", "1", "2")
        paths[0].write_text("format = 1\n[dog\n")
        await table.press("enter")
        assert "can't be opened" in table.text
        await table.press("escape")
        assert table.screen_name == "StartScreen"


async def test_names_are_shown_as_typed(folder):
    paths = demo(folder, BRUMO, BRUMO_BY_ANOTHER)
    evil = "[b]Bru[/b] \\u001b[31mmo"
    for path in paths:
        copied(path, folder / f"x-{path.name}", ('call_name = "Brumo"', f'call_name = "{evil}"'))
        path.unlink()
    sessions = held(sorted(folder.glob("*.toml")))
    async with sitting(folder, (160, 45), **opening(ShowSideBySide, sessions)) as table:
        assert "[b]Bru[/b] ␛[31mmo" in table.text
        await table.press("p", "enter")
        assert "[b]Bru[/b] ␛[31mmo" in table.text
        await table.press("escape", "o")
        assert "[b]Bru[/b] ␛[31mmo" in one_line(table.text)


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (160, 45)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_nothing_runs_out_of_the_window(folder, size):
    sessions = held(demo(folder))
    async with sitting(folder, size, **opening(ShowSideBySide, sessions)) as table:
        for way in ((), ("p",), ("enter",), ("m",), ("escape", "o"), ("escape", "j")):
            await table.press(*way)
            for widget in table.app.screen.walk_children():
                if widget.display and widget.region.width:
                    assert widget.region.right <= size[0], (way, widget)
