"""Small, usual and large windows: nothing is cut off, and what is too small says so."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import dialogue_for
from hands_on.tui.widgets.lines import FooterLine
from tests.tui.driving import begun, sitting


def telling(sheet):
    """One point for each number of answers and kind: those with the longest texts."""
    found = {}
    for stop in sorted(sheet.stops, key=lambda stop: len(stop.point.find)):
        prompt = dialogue_for(stop.point, sheet.ruleset, Answers()).prompt()
        found[stop.point.kind, len(prompt.lines)] = stop
    return found.values()


async def test_what_came_of_takes_never_pushes_the_question_off_a_small_window(folder):
    begun(folder)
    async with sitting(folder, size=(60, 18)) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.type("66.5\r68.5\r")
        await table.settle()
        for told in ("take 3 of 3", "Take 2: 68.5 cm.", "type a reading, Enter", "contradict each other"):
            assert told in table.text
        assert any(line.endswith(" …") for line in table.text.split("\n")[5:]), "what is cut is marked"


SIZES = [(60, 18), (80, 24), (160, 45)]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_every_point_of_the_walk_shows_its_question_and_answers(folder, size):
    begun(folder)
    async with sitting(folder, size=size) as table:
        await table.press("g")
        walk = table.walk
        for stop in telling(walk.sheet):
            walk.go_to(stop.index)
            await table.pilot.pause()
            prompt = walk.dialogue.prompt()
            text = " ".join(table.text.split())
            assert stop.point.label in text
            assert " ".join(prompt.ask.split())[:30] in text, stop.point.id
            assert " ".join(prompt.hint.split())[:16] in text, stop.point.id
            lines = walk.query_one("#lines")
            assert lines.size.height >= min(len(prompt.lines), 3), (stop.point.id, lines.size)
            if size[1] >= 24:
                hidden = lines.virtual_size.height - lines.size.height
                assert hidden <= 0 or lines.max_scroll_y >= hidden, stop.point.id
                assert len(prompt.lines) > 9 or hidden <= 0, (stop.point.id, hidden)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_no_widget_of_any_screen_runs_out_of_the_window(folder, size):
    begun(folder)
    ways = (("n",), ("r",), ("e",), ("9",), ("g",), ("s",), ("j",), ("f",), ("question_mark",), ("r",))
    seen = set()
    async with sitting(folder, size=size) as table:
        for way in ways:
            await table.press(*way)
            seen.add(table.screen_name)
            for widget in table.app.screen.walk_children():
                if widget.display and widget.region.width:
                    assert widget.region.right <= size[0], (way, widget)
            footer = table.app.screen.query(FooterLine).first()
            told = str(footer.render()).split("\n")
            assert max(map(cell_len, told)) <= footer.content_size.width, way
            if way not in (("g",), ("r",)) or table.screen_name == "RecordsScreen":
                await table.press("escape")
    assert len(seen) == len(ways) - 1, "two of them ask by number"


async def test_a_window_too_small_says_so_and_comes_back_as_it_was(folder):
    begun(folder)
    async with sitting(folder) as table:
        at = await table.go_on_to("grade", "grade")
        await table.press("0")
        await table.pilot.resize_terminal(59, 24)
        await table.pilot.pause()
        assert "too small" in table.text
        await table.press("0")
        assert len(table.on_disk.grades) == 1, "keys do nothing unseen"
        await table.pilot.resize_terminal(80, 17)
        await table.pilot.pause()
        assert "too small" in table.text
        await table.pilot.resize_terminal(80, 24)
        await table.pilot.pause()
        assert table.screen_name == "WalkScreen"
        assert table.walk.stop.index == at + 1


async def test_a_wide_window_shows_regions_and_findings_beside_the_point(folder):
    begun(folder)
    async with sitting(folder, size=(160, 45)) as table:
        await table.press("g")
        assert table.walk.query_one("#regions").display
        assert table.walk.query_one("#beside").display
        for row in table.walk.sheet.progress():
            assert row.region.label in table.text
        await table.pilot.resize_terminal(80, 24)
        await table.pilot.pause()
        assert not table.walk.query_one("#regions").display


async def test_without_colours_the_plain_theme_is_used(folder, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with sitting(folder) as table:
        assert table.app.theme == "ansi-dark"


async def test_a_linux_console_gets_the_sixteen_colours(folder, monkeypatch):
    monkeypatch.setenv("TERM", "linux")
    async with sitting(folder) as table:
        assert table.app.theme == "ansi-dark"


@pytest.mark.parametrize("keys", [("full_stop",), ("t", "slash")], ids=["walk", "sheet"])
async def test_the_screen_beneath_a_question_is_laid_out_anew_at_once(folder, keys):
    begun(folder)
    async with sitting(folder, size=(80, 24)) as table:
        await table.press("g", *keys)
        beneath = table.app.screen_stack[-2]
        await table.pilot.resize_terminal(160, 45)
        await table.settle()
        strips = beneath._compositor.render_strips(table.app.size)
        meanwhile = "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)
        await table.press("escape")
        assert table.app.screen is beneath
        assert table.text == meanwhile


async def test_the_first_question_for_a_degree_shows_every_answer_and_what_the_keys_do(folder):
    begun(folder, "poodle-fci-172")
    async with sitting(folder, size=(80, 24)) as table:
        await table.press("g")
        await table.jump_to("forequarters.shoulder")
        await table.press("1")
        for told in ("0   degree not said", "degree not said yet", "1-4 degree", "Class:"):
            assert told in table.text
