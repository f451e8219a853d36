"""Teeth and bite in the walk: the chart by number and by arrows, the gap asked for where a bite has one."""

from __future__ import annotations

import pytest

from tests.tui.driving import begun, sitting

TEETH = "mouth.teeth"


async def test_the_tooth_chart_marks_by_number_and_by_arrows(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to(TEETH)
        await table.type("105")
        await table.press("enter")
        assert table.on_disk.teeth.missing == (105,)
        await table.press("down", "right", "asterisk", "enter")
        assert table.on_disk.teeth.unseen == (301,)
        rows = table.text.split("\n")
        upper = next(at for at, row in enumerate(rows) if "1xx" in row)
        assert rows[upper].split("|")[0].split()[1:] == [f"{n:02}" for n in range(10, 0, -1)]
        assert rows[upper + 1].split("|")[0].split()[1:] == list("·····-····")
        assert "- missing  ? unseen  w worn  b broken  + extra  m milk" in table.text
        await table.press("0")
        assert table.on_disk.teeth.missing == (105,), "nought wipes no mark"
        assert table.walk.stop.point.id != TEETH
        await table.jump_to(TEETH)
        await table.press("u", "1")
        assert table.on_disk.teeth.missing == ()
        assert table.on_disk.teeth.unseen == (301,)
        assert table.on_disk.replaced[-1].teeth.missing == (105,)


async def test_the_chart_writes_full_numbers_where_there_is_room(folder):
    begun(folder)
    async with sitting(folder, size=(200, 50)) as table:
        await table.press("g")
        await table.jump_to(TEETH)
        assert " 105 104 103 102 101 | 201 202 " in table.text


@pytest.mark.parametrize(
    ("option", "gap"), [("overshot", "overshot-gap"), ("undershot", "undershot-gap"), ("level", None)]
)
async def test_the_gap_of_a_bite_is_asked_next_where_one_was_chosen(option, gap, folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("mouth.bite")
        number = next(n for n, one in enumerate(table.walk.stop.point.options, 1) if one.id == option)
        await table.press(str(number))
        while table.walk.dialogue.busy:
            await table.press("0")
        assert ("Asked next: gap when" in " ".join(table.text.split())) == (gap is not None)
        await table.press("enter")
        assert (table.walk.stop.point.id == gap) == (gap is not None)


async def test_missing_teeth_picked_from_the_list_of_faults_lead_to_the_chart(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.press("f", *"missing", "space", *"teeth", "enter")
        assert table.walk.stop.point.id == TEETH
        assert "Which?" in table.text
        await table.type("105\r")
        assert table.on_disk.teeth.missing == (105,)
        assert [row.fault for note in table.on_disk.notes for row in note.findings] == ["mouth.teeth-missing"]
        found = [one for one in table.walk.sheet.evaluation.findings if one.id == "mouth.teeth-missing"]
        assert len(found) == 1, "the chart says which, and it counts once"
