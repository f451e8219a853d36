"""Records and rulesets: found as you type, broken ones with their problem, opened by Enter."""

from __future__ import annotations

from textual.widgets import Input

from hands_on.store import places
from hands_on.tui.screens.cohort import CohortScreen
from hands_on.tui.widgets.search_list import SearchList
from tests.tui.demo import TOVIK, copied, demo
from tests.tui.driving import begun, sitting


async def test_records_are_found_as_they_are_typed(folder):
    begun(folder, dog={"call_name": "Arko", "sex": "male"})
    begun(folder, dog={"call_name": "Bella", "registered_name": "Bella of Somewhere", "sex": "female"})
    async with sitting(folder) as table:
        await table.press("r")
        assert "2 found" in table.text
        await table.type("somewh")
        assert "1 found" in table.text
        assert "Bella" in table.text
        assert "unfinished" in table.text
        assert "Arko" not in table.text
        await table.press("enter")
        assert table.walk.sheet.session.dog.call_name == "Bella"


async def test_what_was_taken_opens_though_keys_behind_it_change_the_list(folder):
    begun(folder, dog={"call_name": "Arko", "sex": "male"})
    begun(folder, dog={"call_name": "Bella", "sex": "female"})
    async with sitting(folder) as table:
        await table.press("r")
        await table.type("bella")
        searching = table.app.screen.query_one(SearchList)
        searching.post_message(SearchList.Chosen(searching.marked or ""))
        searching.query_one(Input).value = "arko"
        searching.search()
        await table.settle()
        assert table.walk.sheet.session.dog.call_name == "Bella"


async def test_a_broken_session_is_listed_with_its_problem_and_left_alone(folder):
    begun(folder)
    (folder / "bad.toml").write_text("format = 1\n[dog\n")
    async with sitting(folder) as table:
        await table.press("r")
        assert "bad.toml  BROKEN" in table.text
        await table.type("bad.toml")
        await table.press("enter")
        assert "left as it is" in table.text
        await table.press("escape")
        assert table.screen_name == "RecordsScreen"


async def test_a_session_of_an_unknown_edition_says_which_are_here(folder):
    begun(folder, ruleset={"id": "hovawart-fci-19"})
    async with sitting(folder) as table:
        await table.press("r", "enter")
        assert table.screen_name == "ReadingScreen"
        assert "hovawart-fci-190" in " ".join(table.text.split())


async def test_editions_are_found_and_read_with_their_sources(folder):
    async with sitting(folder, size=(120, 60)) as table:
        await table.press("e")
        await table.type("hovawart")
        await table.press("enter")
        assert table.screen_name == "ReadingScreen"
        for part in ("Classes, lightest first", "Disqualifying fault", "Measured", "63 to 70 cm", "[H25]"):
            assert part in table.text, part


async def test_a_broken_edition_hides_no_other_and_tells_its_line(folder, tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    (own / "mine.toml").write_text('format = 1\nid = "mine"\ntitle = Mine\n')
    async with sitting(folder, rulesets=(own,)) as table:
        await table.press("e")
        assert "Hovawart" in table.text
        await table.type("mine")
        assert "BROKEN" in table.text
        assert "mine.toml:3" in "".join(table.text.split())
        await table.press("escape", "n")
        await table.type("mine")
        assert "Nothing fits." in table.text, "a broken edition is not offered for an examination"


async def test_records_come_back_fresh_after_an_examination(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("r")
        assert "0 answers" in table.text
        await table.press("enter", "0", "q")
        await table.settle()
        await table.press("r")
        assert "1 answer" in table.text
        assert places.index_path(folder).exists()


async def test_a_conflict_copy_is_told_apart_from_what_it_is_a_copy_of(folder):
    (path,) = demo(folder, TOVIK)
    copied(path, folder / f"{path.stem} (1).toml")
    async with sitting(folder, size=(120, 30)) as table:
        await table.press("r")
        assert f"signed  CONFLICT COPY of {path.name}" in table.text
        assert table.text.count("signed") == 2


async def test_all_that_was_found_can_be_looked_at_as_a_cohort(folder):
    demo(folder)
    async with sitting(folder) as table:
        await table.press("r", "f5")
        assert "Which dogs?" in table.text
        await table.press("1")
        await table.settle()
        assert isinstance(table.app.screen, CohortScreen)
        text = " ".join(table.text.split())
        assert "3 dogs (2 dogs, 1 bitch)" in text
        assert "Fewer than 10 dogs" in text
        assert "1 of 3, 33 %" in text
        await table.press("enter")
        assert "61.7 cm" in table.text


async def test_a_cohort_of_nobody_says_so(folder):
    demo(folder)
    async with sitting(folder) as table:
        await table.press("r", "f5")
        line = next(row for row in table.text.split("\n") if "years of birth" in row)
        await table.press(line.split()[1])
        await table.type("1999\r")
        await table.settle()
        assert "No dog here fits." in table.text
