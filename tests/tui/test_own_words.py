"""Words put right by hand in the line are remembered, known the next time, listed, changed, taken out."""

from __future__ import annotations

from hands_on.notes import OwnWords
from hands_on.store import places
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.tui.widgets.note_line import NoteLine
from tests.tui.driving import begun, sitting

STEEP, COW = "forequarters.shoulder-steep", "hindquarters.cow-hocks"
PLANK = OwnWords(said="a real plank", means="back.level")
SHELLY = OwnWords(said="[b]shelly[/b]", read_as="general.bone-fine")


def kept(folder) -> tuple[OwnWords, ...]:
    return OwnWordsFile(places.own_words_path(folder)).read()


def heard(table):
    return {thing.id: thing for thing in table.app.screen.query_one(NoteLine).heard.faults}


async def test_a_fault_added_for_words_not_understood_is_known_the_next_time(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        await table.type("neck short, blorps like a fnord")
        await table.press("ctrl+g")
        assert table.screen_name == "FaultScreen"
        await table.type("level back")
        await table.press("enter")
        (added,) = [one for one in heard(table).values() if one.added]
        assert added.taken
        assert "not understood" not in table.text
        name = added.fault
        await table.press("enter")
        assert kept(folder) == (OwnWords(said="blorps like a fnord", means=name),)
        assert "Remembered as your words" in table.text
        assert {f.fault for f in table.on_disk.notes[0].findings} == {"neck.short", name}
        await table.type("slightly blorps like a fnord")
        known = heard(table)[name]
        assert (known.taken, known.degree, known.by_hand) == (True, "slight", False)


async def test_another_fault_meant_and_one_dropped_are_asked_about_the_next_time(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        await table.type("steep in shoulder")
        await table.press("ctrl+o")
        await table.type("steep upper arm")
        await table.press("enter", "enter")
        await table.type("cow hocks")
        await table.press("ctrl+t", "enter")
        first, second = kept(folder)
        assert (first.said, first.read_as) == ("steep in shoulder", STEEP)
        assert first.means == "forequarters.upper-arm-steep"
        assert second == OwnWords(said="cow hocks", read_as=COW)
        await table.type("steep in shoulder, cow hocks")
        assert {name: one.taken for name, one in heard(table).items()} == {
            STEEP: False,
            first.means: False,
            COW: False,
        }, "a clear phrase is neither dropped nor taken in silence"


async def test_taking_what_was_offered_or_another_degree_is_no_correction(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        await table.type("cow hocks")
        await table.press("ctrl+d", "ctrl+s", "enter")
        assert table.on_disk.notes
        assert kept(folder) == ()


async def test_a_list_that_cant_be_read_stops_no_note_and_stays(folder):
    begun(folder)
    path = places.own_words_path(folder)
    path.parent.mkdir(parents=True)
    path.write_text("words = 3\n", encoding="utf-8")
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        assert "Your own words can't be read" in table.text
        await table.type("cow hocks")
        await table.press("ctrl+t", "enter")
        assert table.on_disk.notes[0].text == "cow hocks"
        assert "not remembered" in table.text
        assert path.read_text(encoding="utf-8") == "words = 3\n"
        await table.press("ctrl+l")
        assert "can't be read" in table.text


async def test_phrases_are_listed_changed_and_taken_out(folder):
    OwnWordsFile(places.own_words_path(folder)).remember([PLANK, SHELLY])
    async with sitting(folder) as table:
        await table.press("o")
        assert table.screen_name == "OwnWordsScreen"
        assert "“[b]shelly[/b]”  does not mean Fine bone" in table.text or "[b]shelly[/b]" in table.text
        await table.press("down", "enter")
        await table.press(*["backspace"] * len("plank"))
        await table.type("board")
        await table.press("enter")
        changed = PLANK.model_copy(update={"said": "a real board"})
        assert kept(folder) == (changed, SHELLY)
        await table.press("m")
        await table.type("swayed")
        await table.press("enter")
        assert kept(folder)[0].means == "back.swayed"
        await table.press("d", "0")
        assert len(kept(folder)) == 2
        await table.press("d", "1")
        assert kept(folder) == (SHELLY,)
        await table.press("d", "1")
        assert kept(folder) == ()
        assert "None yet" in table.text
        await table.press("d", "enter", "m", "escape")
        assert table.screen_name == "StartScreen"


async def test_what_is_changed_in_the_list_counts_at_once_in_the_line(folder):
    begun(folder)
    OwnWordsFile(places.own_words_path(folder)).remember([PLANK])
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        await table.type("a real plank")
        assert set(heard(table)) == {"back.level"}
        await table.press("ctrl+l")
        await table.press("d", "1", "escape")
        assert not heard(table)
        assert "not understood" in table.text
