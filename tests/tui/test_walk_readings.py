"""Readings in the walk: their uncertainty at once, questions where they are odd, hidden while one repeats."""

from __future__ import annotations

from tests.tui.driving import begun, sitting


async def test_the_dog_is_stood_anew_and_does_not_stand_still(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.type("66\r")
        await table.press("full_stop", "2")
        await table.type("66.4\r")
        await table.press("full_stop", "3")
        assert [take.stand for take in table.on_disk.takes] == [1, 2]
        assert table.on_disk.examination.restless
        assert "It does not stand still" in table.text
        await table.press("full_stop", "3")
        assert not table.on_disk.examination.restless


async def test_a_repeat_is_taken_with_the_earlier_readings_hidden(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.type("71.5\r")
        assert "Over height" in table.text
        await table.press("m")
        assert "71.5" not in table.text
        assert "Over height" not in table.text, "a finding gives the reading away"
        await table.type("70.9\r")
        assert "70.9" not in table.text
        assert [take.hidden for take in table.on_disk.takes] == [False, True]
        await table.press("m")
        assert "71.5 cm" in table.text
        assert "70.9 cm" in table.text
        await table.press("full_stop", "1")  # by the keypad
        assert "71.5" not in table.text
        await table.type("71.2\r")
        await table.press("full_stop", "1")
        await table.type("71.3\r")
        assert [take.hidden for take in table.on_disk.takes] == [False, True, True, False]


async def test_a_reading_shows_value_uncertainty_and_verdict_at_once(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.type("71,5")
        assert "> 71,5" in table.text
        await table.press("enter")
        (take,) = table.on_disk.takes
        assert (take.value, take.unit) == (71.5, "cm")
        assert table.walk.stop.point.id == "height", "further takes are asked for"
        assert "= 71.5 ± 0.6 cm (1 take)" in table.text
        assert "outside" in table.text
        assert "Over height" in table.text
        first_time = take.at
        await table.type("71.8")
        await table.press("enter")
        assert [row.value for row in table.on_disk.takes] == [71.5, 71.8]
        assert table.on_disk.takes[0].at == first_time
        assert "(2 takes)" in table.text


async def test_an_odd_reading_is_questioned_and_nothing_recorded_until_settled(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.type("645")
        await table.press("enter")
        assert not table.on_disk.takes
        assert "64.5 cm" in table.text
        await table.press("enter")
        assert [row.value for row in table.on_disk.takes] == [64.5]


async def test_letters_are_commands_only_while_nothing_is_typed(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        at = table.walk.stop.index
        await table.type("25 3/8 in")
        assert table.screen_name == "WalkScreen"
        await table.press("enter")
        (take,) = table.on_disk.takes
        assert (take.value, take.unit) == (25.375, "in")
        await table.press("b")
        assert table.walk.stop.index == at - 1


async def test_a_taken_back_reading_stays_on_record_struck(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.type("71")
        await table.press("enter", "u")
        (take,) = table.on_disk.takes
        assert take.struck == "taken back"
        assert "struck" in table.text


async def test_a_unit_changed_at_a_point_stays_for_the_next_length(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.press("asterisk")
        await table.jump_to("body-length")
        await table.type("28")
        await table.press("enter")
        assert table.on_disk.takes[0].unit == "in"


async def test_a_height_far_from_what_is_asked_is_asked_about_before_it_is_recorded(folder):
    """FCI 190 (2025): 63 to 70 cm of a dog."""
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.press(*"46.5", "enter")
        assert "46.5 cm is far from the 63 to 70 cm" in " ".join(table.text.split())
        assert "isqualif" not in table.text
        await table.press("enter")
        assert table.on_disk.takes == ()
        await table.press("*", "enter")
        (take,) = table.on_disk.takes
        assert take.value == 46.5
