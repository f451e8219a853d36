"""The start screen: what can be done from it, and what it knows of the folders."""

from __future__ import annotations

import pytest

from hands_on.tui.asks import OpenFile
from hands_on.tui.screens.start import ENTRIES
from tests.tui.driving import begun, sitting


async def test_with_nothing_kept_it_says_so_and_goes_nowhere(folder):
    async with sitting(folder) as table:
        assert "none unfinished" in table.text
        await table.press("g")
        assert table.screen_name == "StartScreen"
        assert "Nothing is unfinished." in table.text


async def test_nothing_lies_below_the_start_screen_and_no_key_for_going_back_closes_it(folder):
    async with sitting(folder) as table:
        assert [type(screen).__name__ for screen in table.app.screen_stack] == ["StartScreen"]
        await table.press("escape", "minus", "b", "backspace")
        assert table.screen_name == "StartScreen"
        assert table.app.is_running
        assert "none unfinished" in table.text


@pytest.mark.parametrize("key", ["g", "1"])
async def test_the_only_unfinished_examination_opens_at_once(folder, key):
    begun(folder)
    async with sitting(folder) as table:
        assert "1 unfinished" in table.text
        assert "Arko" in table.text
        await table.press(key)
        assert table.screen_name == "WalkScreen"
        assert table.walk.sheet.path == table.path


async def test_of_several_unfinished_one_is_asked_for_newest_first(folder):
    begun(
        folder,
        dog={"call_name": "Old", "sex": "male"},
        examination={"evaluator": "E", "started": "2026-04-01T08:00:00Z"},
    )
    begun(folder, dog={"call_name": "New", "sex": "male"})
    async with sitting(folder) as table:
        await table.press("g")
        assert table.screen_name == "NumberedScreen"
        assert table.text.index("New ·") < table.text.index("Old ·")
        await table.press("2")
        assert table.walk.sheet.session.dog.call_name == "Old"


async def test_one_key_opens_each_screen_and_escape_comes_back(folder):
    screens = {"new": "ChooseEdition", "records": "RecordsScreen", "editions": "EditionsScreen"}
    screens["help"] = "HelpScreen"
    ways = {
        key: screens[entry.action]
        for entry in ENTRIES
        if entry.action in screens
        for key in (entry.number, entry.letter)
    }
    assert len(ways) == 2 * len(screens)
    async with sitting(folder) as table:
        for key, screen in ways.items():
            await table.press(key)
            assert table.screen_name == screen
            await table.press("escape")
            assert table.screen_name == "StartScreen"


async def test_the_menu_works_with_arrows_and_enter(folder):
    async with sitting(folder) as table:
        at = [entry.action for entry in ENTRIES].index("records")
        await table.press(*["down"] * at, "enter")
        assert table.screen_name == "RecordsScreen"


async def test_q_leaves(folder):
    async with sitting(folder) as table:
        await table.press("q")
        assert table.app.return_code == 0
        assert table.app._exit


async def test_a_broken_session_hides_no_other_and_a_notice_is_shown(folder):
    begun(folder)
    (folder / "broken.toml").write_text("format = 1\n[dog\n")
    async with sitting(folder, notice="This is a copy.") as table:
        assert "This is a copy." in table.text
        assert "1 unfinished" in table.text
        assert "2 kept" in table.text


async def test_a_file_named_on_the_command_line_opens_over_the_start_screen(folder):
    path = begun(folder)
    async with sitting(folder, opens=OpenFile(path)) as table:
        assert table.screen_name == "WalkScreen"


async def test_a_broken_file_named_on_the_command_line_is_told_with_its_line(folder):
    folder.mkdir()
    path = folder / "broken.toml"
    path.write_text("format = 1\n[dog\n")
    async with sitting(folder, opens=OpenFile(path)) as table:
        assert table.screen_name == "ReadingScreen"
        assert "broken.toml:2" in "".join(table.text.split())
        assert "left as it is" in table.text
    assert path.read_text() == "format = 1\n[dog\n"


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (160, 45)], ids=str)
async def test_unfinished_ones_for_which_there_is_no_room_are_counted_and_not_cut(folder, size):
    names = [f"Dog{n}" for n in range(30)]
    for name in names:
        begun(folder, dog={"call_name": name, "sex": "male"})
    async with sitting(folder, size=size) as table:
        assert "30 unfinished" in table.text
        shown = sum(f"{name} ·" in table.text for name in names)
        if shown:
            assert f"... and {30 - shown} more: 1 or g" in table.text
        else:
            assert "Not finished yet" not in table.text
        assert shown or size == (60, 20)
