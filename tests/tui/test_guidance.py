"""Find, Stance and Caution of every point are read at 80 by 24 without leaving the point."""

from __future__ import annotations

import re
from types import SimpleNamespace

from textual.containers import VerticalScroll

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import dialogue_for
from hands_on.exam.dialogue.teeth import TeethDialogue
from hands_on.exam.walk import stops
from hands_on.store.session_file import read_session
from hands_on.tui.parts.point_view import guidance
from hands_on.tui.screens.walk import LEAST_GUIDANCE, lines_of
from hands_on.tui.widgets.answers import AnswerPane
from hands_on.tui.widgets.point_head import MORE, PointHead
from hands_on.tui.widgets.tooth_chart import ToothChart
from tests.tui.driving import LIBRARY, begun, sitting


def in_full(folder):
    """Every point of every edition with what is told there."""
    for head in LIBRARY.heads():
        ruleset, session = LIBRARY.load(head.id), read_session(begun(folder / head.id, head.id))
        sheet = SimpleNamespace(again={}, ruleset=ruleset, session=session)
        for stop in stops(ruleset, session):
            yield f"{head.id} {stop.point.id}", stop, guidance(sheet, stop), ruleset


async def test_every_point_of_every_edition_leaves_room_to_scroll_its_guidance_in(folder):
    begun(folder / "here")
    async with sitting(folder / "here", size=(80, 24)) as table:
        await table.press("g")
        walk, window = table.walk, table.app.size
        pane, head, chart = (walk.query_one(kind) for kind in (AnswerPane, PointHead, ToothChart))
        inside = walk.query_one("#point").content_size
        seen = longer = 0
        for name, stop, told, ruleset in in_full(folder):
            dialogue = dialogue_for(stop.point, ruleset, Answers(), None, "male")
            pane.show(dialogue.prompt())
            chart.show(dialogue if isinstance(dialogue, TeethDialogue) else None, inside)
            room = inside.height - pane.needed - lines_of(chart, inside, window)
            assert room >= LEAST_GUIDANCE, name
            head.show(stop.point.label, "Region, point 10 of 10", told)
            longer += lines_of(head, inside, window) > room
            seen += 1
    assert seen > 1000
    assert longer, "else nothing is proved by the other test"


async def test_what_is_longer_than_its_room_says_so_and_is_read_by_scrolling(folder):
    begun(folder)
    async with sitting(folder, size=(80, 24)) as table:
        await table.press("g")
        walk, guide = table.walk, table.walk.query_one("#guide", VerticalScroll)
        length = {stop.index: len(str(guidance(walk.sheet, stop))) for stop in walk.sheet.stops}
        scrolled = 0
        teeth = next(stop.index for stop in walk.sheet.stops if stop.point.kind == "teeth")
        for index in (*sorted(length, key=length.__getitem__)[-3:], teeth):
            walk.go_to(index)
            await table.settle()
            assert (MORE in table.text) == (guide.max_scroll_y > 0), walk.stop.point.id
            scrolled += guide.max_scroll_y > 0
            read = ""
            for _ in range(20):
                read += f" {table.text}"
                if guide.scroll_y >= guide.max_scroll_y:
                    break
                await table.press("pagedown")
            words = " ".join(re.sub(r"[▁-█]", " ", read).split())
            for _, text in guidance(walk.sheet, walk.stop):
                for start in range(0, len(text.split()), 4):
                    assert " ".join(text.split()[start : start + 2]) in words, walk.stop.point.id
    assert scrolled > 1


async def test_nothing_is_scrolled_where_a_tall_window_has_room_for_all(folder):
    begun(folder)
    async with sitting(folder, size=(80, 24)) as table:
        await table.press("g")
        await table.jump_to("mouth.teeth")
        await table.pilot.resize_terminal(160, 45)
        await table.settle()
        guide = table.walk.query_one("#guide", VerticalScroll)
        assert not guide.show_vertical_scrollbar
        assert "valid from 21.03.2025" in table.text
