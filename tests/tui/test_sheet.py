"""By regions' sheets, from a numeric keypad: what departs by number, one key for the rest."""

from __future__ import annotations

from hands_on.exam.region_sheet import at_the_end, given_by_region, sheets
from hands_on.tui.asks import OpenFile
from tests.tui.driving import begun, sitting


async def open_sheet(table, region):
    """Stand on the sheet of a region, by the keypad alone."""
    number = table.number_of(region)
    await table.press("slash", *number, "enter", "slash", "0")
    assert table.screen_name == "SheetScreen"


async def test_a_departure_by_its_number_and_the_rest_by_one_key(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await open_sheet(table, "hindquarters")
        sheet = table.app.screen.points
        hocks = next(row for row in sheet.rows if row.stop.point.id == "hindquarters.hocks")
        typed = [*str(hocks.number), *(["enter"] if len(sheet.rows) > 9 else [])]
        await table.press(*typed)
        assert table.walk.stop.point.id == "hindquarters.hocks"
        await table.press("1", "2", "1", "0")
        assert table.screen_name == "SheetScreen"
        assert "Cow hocks, moderate, left" in table.text
        await table.press("0")
        grades = {row.point: row for row in table.on_disk.grades}
        assert grades["hindquarters.hocks"].fault == "hindquarters.cow-hocks"
        assert not grades["hindquarters.hocks"].by_region
        asked = {row.stop.point.id for row in sheet.rest} - {"hindquarters.hocks"}
        assert {name for name, row in grades.items() if row.by_region} == asked
        assert "given by region" in " ".join(table.text.split())


async def test_what_stands_alone_is_asked_in_turn_and_then_the_next_region(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await open_sheet(table, "general")
        alone = [row.stop.point.id for row in table.app.screen.points.stays_open]
        assert "height" in alone
        assert "body-condition" in alone
        await table.press("0")
        for name in alone:
            assert table.walk.stop.point.id == name
            await table.press("enter", "enter")
        assert table.screen_name == "SheetScreen"
        assert table.app.screen.points.region.id != "general"
        assert not table.on_disk.takes


async def test_one_changes_between_sheet_and_points_and_keeps_the_place(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("hindquarters.hocks")
        await table.press("t")
        assert table.screen_name == "SheetScreen"
        assert table.app.screen.points.region.id == "hindquarters"
        await table.press("t")
        assert table.walk.stop.point.id == "hindquarters.hocks"
        await table.press("0")
        assert table.walk.stop.point.id != "hindquarters.hocks", "point by point again"
        await table.press("slash", "0")
        assert table.screen_name == "SheetScreen"
        await table.press("full_stop", "5")
        assert table.screen_name == "WalkScreen"


async def test_enter_leaves_no_region_open_unasked_and_the_last_offers_the_end(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        sheet = table.walk.sheet
        await open_sheet(table, sheets(sheet.stops, sheet.session)[-1])
        await table.press("enter")
        assert "Enter once more leaves them open" in " ".join(table.text.split())
        await table.press("enter")
        assert table.screen_name == "NumberedScreen"
        assert "The end of the walk" in table.text


async def test_what_is_said_of_the_whole_examination_stands_on_the_last_sheet(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        sheet = table.walk.sheet
        late = at_the_end(sheet.stops, sheet.session)
        last = sheets(sheet.stops, sheet.session)[-1]
        await open_sheet(table, last)
        assert "Temperament, throughout: Steadiness" in " ".join(table.text.split())
        row = next(row for row in table.app.screen.points.rows if row.stop == late[-1])
        assert len(table.app.screen.points.rows) < 10, "one figure opens a row"
        await table.press(str(row.number))
        assert table.walk.stop == late[-1]
        await table.press("1", "2", "0")
        assert table.screen_name == "SheetScreen"
        assert table.app.screen.points.region.id == last, "back on the sheet it was opened from"
        await table.press("0")
        assert "The end of the walk" in table.text
        graded = {row.point: row.by_region for row in table.on_disk.grades}
        assert [graded[stop.point.id] for stop in late] == [True] * (len(late) - 1) + [False]


async def test_a_jump_to_where_the_walk_ends_leads_to_its_own_sheet(folder):
    """Of temperament only what is said at the end is open: its own sheet still opens, not the last one."""
    path = begun(folder)
    async with sitting(folder, opens=OpenFile(path, sheets=True)) as table:
        await open_on_sheet(table, "temperament")
        await table.press("0")
        assert table.app.screen.points.region.id != "temperament"
        await open_on_sheet(table, "temperament")
        assert table.app.screen.points.region.id == "temperament"


async def test_a_region_that_a_walk_leaves_out_is_not_called_done(folder):
    path = begun(folder, walk="structure")
    async with sitting(folder, opens=OpenFile(path)) as table:
        await table.press("slash")
        assert "Mouth  (0/6 left out)" in table.text
        assert "done" not in table.text


async def test_a_point_that_stands_alone_in_the_last_region_leads_to_the_end(folder):
    path = begun(folder, walk="structure")
    async with sitting(folder, opens=OpenFile(path, sheets=True)) as table:
        await open_on_sheet(table, "hindfeet")
        await table.press("0")
        assert table.walk.stop.point.id == "hindfeet.dewclaw-state"
        await table.press("1")
        assert "The end of the walk" in table.text


async def test_the_rest_is_taken_back_by_one_key_and_single_answers_stay(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("neck.length")
        await table.press("0")
        await open_sheet(table, "neck")
        await table.press("0")
        given = [row for row in table.on_disk.grades if row.by_region]
        assert given
        await open_on_sheet(table, "neck")
        await table.press("u", "0")
        assert [row.point for row in table.on_disk.grades] == ["neck.length"]
        assert {row.point for row in table.on_disk.replaced} == {row.point for row in given}


async def test_what_was_begun_by_sheets_goes_on_by_sheets(folder):
    path = begun(folder)
    async with sitting(folder, opens=OpenFile(path, sheets=True)) as table:
        assert table.screen_name == "SheetScreen"
        await open_on_sheet(table, "neck")
        await table.press("0", "q")
    async with sitting(folder) as table:
        await table.press("g")
        assert table.screen_name == "SheetScreen"
        rows = [row for row in table.app.screen.points.rows if given_by_region(row.answers)]
        assert not rows, "the region behind the one that was done"


async def open_on_sheet(table, region):
    number = next(str(row.number) for row in table.app.screen.sheet.progress() if row.region.id == region)
    await table.press("slash", *number, "enter")


async def test_a_full_disk_keeps_the_sheet_where_it_is(folder, monkeypatch):
    import errno
    import os

    from hands_on.store import session_file

    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await open_sheet(table, "neck")

        def full(path, text, **how):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

        monkeypatch.setattr(session_file, "write_atomic", full)
        await table.press("0")
        assert table.screen_name == "SheetScreen"
        assert "NOT SAVED: the disk is full" in table.text


async def test_a_measure_that_the_edition_does_not_ask_is_taken_from_its_region(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        sheet = table.walk.sheet
        asked = {stop.point.id for stop in sheet.stops}
        await table.jump_to("hindquarters.hocks")
        await table.press("plus")
        extra = next(
            (number, point)
            for number, point in enumerate(
                (
                    p
                    for p in sheet.ruleset.points.values()
                    if p.kind == "measure" and p.region == "hindquarters"
                ),
                1,
            )
            if point.id not in asked
        )
        assert "not asked)" in table.text
        await table.press(*str(extra[0]), "enter")
        assert table.walk.stop.point.id == extra[1].id
        low, high = extra[1].plausible
        await table.type(f"{(low + high) / 2:g}\r")
        assert [take.point for take in table.on_disk.takes] == [extra[1].id]
        await table.press("u")
        assert table.walk.stop.point.id == extra[1].id, "struck, and it keeps its place"


async def test_a_region_without_measures_says_so(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        regions = {p.region for p in table.walk.sheet.ruleset.points.values() if p.kind == "measure"}
        bare = next(stop for stop in table.walk.sheet.stops if stop.region.id not in regions)
        await table.jump_to(bare.point.id)
        await table.press("i")
        assert "no measure is defined" in table.text


async def test_what_waits_for_a_refresh_finds_the_screen_gone_and_ends_nothing(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        walk = table.walk
        await open_sheet(table, "neck")
        left = table.app.screen
        assert not walk.stands
        walk._fit()
        await table.press("slash", "0")
        assert table.screen_name == "WalkScreen"
        left._fit()
