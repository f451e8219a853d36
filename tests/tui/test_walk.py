"""The walk from a numeric keypad: every answer on disk before the next point shows."""

from __future__ import annotations

import pytest

from hands_on.ruleset.points import faults_of
from hands_on.tui.widgets.answers import AnswerPane
from tests.tui.driving import begun, sitting

HOCKS = "hindquarters.hocks"


async def test_an_answer_is_on_disk_and_the_next_point_shows(folder):
    begun(folder)
    async with sitting(folder) as table:
        at = await table.go_on_to("grade")
        first = table.walk.stop
        await table.press("0")
        (grade,) = table.on_disk.grades
        assert (grade.point, grade.as_asked, grade.by) == (first.point.id, True, "E. Example")
        assert grade.at is not None
        assert table.walk.stop.index == at + 1
        assert "saved 09:30" in table.text
        assert f"{first.point.label}: recorded: as asked for." in table.text


async def test_a_departure_asks_degree_and_side_and_adds_to_the_findings(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to(HOCKS)
        await table.press("1")
        assert "how far?" in table.text
        (half,) = table.on_disk.grades
        assert (half.fault, half.degree, half.side) == ("hindquarters.cow-hocks", None, None)
        assert "Class: " in table.text, "what it is and costs shows before the degree is said"
        assert "In use: " in table.text
        await table.press("2")
        assert "which side?" in table.text
        await table.press("1")
        (grade,) = table.on_disk.grades
        assert (grade.fault, grade.degree, grade.side) == ("hindquarters.cow-hocks", "moderate", "left")
        assert "1 finding" in table.text
        assert "Cow hocks (moderate, left)" in table.text
        assert "recorded: moderate, left" in table.text


async def test_take_back_by_letter_and_by_the_keypad_menu(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to(HOCKS)
        await table.press("1", "2", "1", "u")
        assert not table.on_disk.grades
        assert "Nothing found yet" in table.text
        await table.press("1", "2", "1")
        assert table.on_disk.grades
        await table.press("full_stop", "8")
        assert not table.on_disk.grades


async def test_points_are_skipped_with_their_reasons_from_the_keypad(folder):
    begun(folder)
    reasons = {
        "1": "the dog would not allow it", "2": "the coat hides it", "3": "no instrument",
        "4": "not needed today", "5": "dog in pain or upset: stopped",
    }  # fmt: skip
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("head.stop")
        at = table.walk.stop.index
        for number, (key, reason) in enumerate(reasons.items(), 1):
            point = table.walk.stop.point.id
            await table.press("full_stop", key)
            assert (table.on_disk.skips[-1].point, table.on_disk.skips[-1].reason) == (point, reason)
            assert table.walk.stop.index == at + number
        await table.press("minus")
        assert f"Skipped: {reason}" in table.text
        await table.press("u")
        assert len(table.on_disk.skips) == len(reasons) - 1


async def test_a_typed_reason_is_kept_as_typed(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "s", "6")
        await table.type("table [too] small")
        await table.press("enter")
        assert table.on_disk.skips[0].reason == "table [too] small"


async def test_a_whole_region_is_skipped_and_opened_again(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        mouth = table.number_of("mouth")
        await table.press("slash", *mouth, "enter")
        assert table.walk.stop.region.id == "mouth"
        await table.press("full_stop", "7", "1")
        (skip,) = table.on_disk.skips
        assert (skip.region, skip.reason) == ("mouth", "the dog would not allow it")
        assert table.number_of(table.walk.stop.region.id) == str(int(mouth) + 1)
        await table.press("minus", "u")
        assert not table.on_disk.skips


async def test_what_is_answered_is_not_skipped_over(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade")
        await table.press("0", "b", "s", "1")
        assert table.on_disk.grades
        assert not table.on_disk.skips
        assert "take it back first" in table.text


async def test_jumping_shows_progress_and_takes_two_figures(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade")
        region = table.walk.stop.region
        await table.press("0", "j")
        assert f"{region.label}  (1/" in table.text
        (row,) = (row for row in table.walk.sheet.progress() if row.number == 13)
        first, second = str(row.number)
        await table.press(first)
        assert table.screen_name == "NumberedScreen"
        await table.press(second, "enter")
        assert table.walk.stop.region == row.region


async def test_the_next_open_point_goes_round(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        last = len(table.walk.sheet.stops) - 1
        table.walk.go_to(last)
        await table.press("o")
        assert table.walk.stop.index == 0


async def test_behind_the_last_point_the_review_is_offered(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        table.walk.go_to(len(table.walk.sheet.stops) - 1)
        await table.press("enter")
        assert table.screen_name == "WalkScreen", "an open point is not passed by one Enter"
        await table.press("enter")
        assert "This was the last point" in table.text
        await table.press("1")
        assert table.screen_name == "ReviewScreen"


async def test_going_on_starts_at_the_first_open_point(folder):
    begun(folder)
    async with sitting(folder) as table:
        at = await table.go_on_to("grade", "grade")
        await table.press("0", "enter", "enter")
        assert table.walk.stop.index == at + 2
        await table.press("q")
        assert table.screen_name == "StartScreen"
        assert any("hands-on examine" in line and table.path.name in line for line in table.app.farewell)
        await table.settle()
        await table.press("g")
        assert table.walk.stop.index == at + 1


async def test_explain_tells_how_why_and_with_which_source(folder):
    begun(folder)
    async with sitting(folder, size=(100, 80)) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.press("question_mark")
        for part in (
            "How to find it",
            "Why it matters",
            "FCI-Standard N° 190",
            "How sure a reading is",
            "15 months",
        ):
            assert part in table.text, part
        await table.press("escape")
        assert table.walk.stop.point.id == "height"


async def test_keys_of_a_keypad_in_application_mode_work_too(folder):
    # Names Textual gives to keypad keys under the kitty keyboard protocol (its _keyboard_protocol.py).
    begun(folder)
    async with sitting(folder) as table:
        at = await table.go_on_to("grade")
        await table.press("0", "subtract")
        assert table.walk.stop.index == at
        await table.press("divide")
        assert table.screen_name == "NumberedScreen"
        await table.press("subtract", "decimal")
        assert table.screen_name == "NumberedScreen"
        await table.press("escape", "multiply")
        assert "unsure" in str(table.walk.query_one(AnswerPane).query_one("#ask").render())


@pytest.mark.parametrize(
    ("sex", "typed", "fault", "offered"),
    [
        ("female", "retained testicle", "reproductive.retained-testicle", False),
        ("male", "retained testicle", "reproductive.retained-testicle", True),
        ("male", "doggy bitch", "general.doggy-bitch", False),
        ("female", "doggy bitch", "general.doggy-bitch", True),
    ],
)
async def test_a_fault_that_only_the_other_sex_can_have_is_not_offered(folder, sex, typed, fault, offered):
    begun(folder, dog={"call_name": "Arko", "sex": sex, "born": "2023-05-14", "colour": "black"})
    async with sitting(folder) as table:
        await table.press("g")
        asked = {one for stop in table.walk.sheet.stops for one in faults_of(stop.point)}
        if fault.startswith("reproductive"):
            assert (fault in asked) == offered
        await table.press("f")
        found = table.app.screen._finder.find(typed)
        assert (fault in found) == offered


async def test_what_seldom_stands_together_is_asked_about_at_its_points(folder):
    """A steep shoulder and full reach: common practice."""
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("forequarters.shoulder")
        await table.press("1", "3", "3")
        assert table.on_disk.grades[0].degree == "marked"
        await table.jump_to("movement.reach")
        await table.press("0")
        assert table.walk.stop.point.id != "movement.reach"
        assert "seldom stand together" in " ".join(table.text.split()), "at once, at the point behind"
        await table.press("0")
        assert "seldom stand together" not in " ".join(table.text.split()), "told once"
        await table.jump_to("movement.reach")
        assert "seldom stand together" in " ".join(table.text.split())


async def test_what_a_region_given_as_asked_raises_is_told_at_once(folder):
    """A steep shoulder, then movement as asked on its sheet: full reach with it is common practice again."""
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("forequarters.shoulder")
        await table.press("1", "3", "3")
        await table.jump_to("movement.topline")
        await table.press("t", "0")
        assert {row.point for row in table.on_disk.grades if row.by_region} >= {"movement.reach"}
        assert "seldom stand together" in " ".join(table.text.replace("│", " ").split())
