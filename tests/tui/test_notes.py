"""Notes and picked faults: kept word for word, shown as typed."""

from __future__ import annotations

from tests.tui.driving import begun, sitting


async def test_a_note_is_kept_as_typed_with_its_region(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("general.bone")
        await table.press("n")
        await table.type("steep [b]in[/b] shoulder; q?")
        assert table.screen_name == "WalkScreen", "letters go into the note"
        await table.press("enter")
        (note,) = table.on_disk.notes
        assert note.text == "steep [b]in[/b] shoulder; q?"
        assert note.region == "general"
        assert note.by == "E. Example"
        assert "steep [b]in[/b] shoulder" in table.text


async def test_a_pasted_note_keeps_its_lines(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "n")
        from textual.events import Paste

        table.app.post_message(Paste("first\nsecond line"))
        await table.pilot.pause()
        await table.press("enter")
        assert table.on_disk.notes[0].text == "first\nsecond line"


async def test_ctrl_j_makes_a_new_line(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "n", "a", "ctrl+j", "b", "enter")
        assert table.on_disk.notes[0].text == "a\nb"


async def test_a_note_put_aside_is_there_again(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "n")
        await table.type("half a")
        await table.press("escape")
        assert not table.on_disk.notes
        await table.press("0")
        await table.press("n")
        await table.type(" note")
        await table.press("enter")
        assert table.on_disk.notes[0].text == "half a note"


async def test_control_characters_in_a_paste_become_visible(folder):
    begun(folder)
    async with sitting(folder) as table:
        from textual.events import Paste

        await table.press("g", "n")
        table.app.post_message(Paste("red \x1b[31m text"))
        await table.pilot.pause()
        assert "\x1b" not in table.text
        await table.press("enter")
        assert table.on_disk.notes[0].text == "red ␛[31m text"


async def test_a_fault_is_picked_with_degree_and_side(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "f")
        await table.type("cow")
        assert table.text.split("\n")[3].startswith("Cow hocks")
        await table.press("enter", "2", "1")
        (note,) = table.on_disk.notes
        (finding,) = note.findings
        assert (note.text, note.region) == ("", "hindquarters")
        assert (finding.fault, finding.degree, finding.side) == ("hindquarters.cow-hocks", "moderate", "left")
        assert finding.taken_by == "E. Example"
        assert "Cow hocks (moderate, left)" in table.text


async def test_the_newest_note_is_taken_back_from_the_menu(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "n", "a", "enter", "s", "9")
        assert not table.on_disk.notes
