"""The scribe's line: what is understood while typing, what keys change of it, what goes on record."""

from __future__ import annotations

import datetime

import pytest
from textual.events import Paste

from hands_on.exam.session import Signature
from hands_on.notes import FoundAffirmed, FoundFault, Reading
from hands_on.store.open_session import OpenSession
from hands_on.store.session_file import read_session
from hands_on.tui import keys
from hands_on.tui.asks import OpenFile
from hands_on.tui.heard_rows import signs_of
from hands_on.tui.screens.scribe import ScribeScreen
from hands_on.tui.widgets.note_line import NoteLine
from tests.tui.driving import NOW, begun, sitting

CALL = "withers 64.5, blorp of the fnord, a touch steep in shoulder, no cow hocks"
COW, STEEP = "hindquarters.cow-hocks", "forequarters.shoulder-steep"


def row(table, sign: str) -> str:
    """The line of what was understood that begins with a number."""
    rows = [text for text in table.text.split("\n") if f"{sign} " in text and " · " in text]
    assert len(rows) == 1, (sign, table.text)
    return rows[0]


def things(table) -> dict[str, object]:
    line = table.app.screen.query_one(NoteLine)
    return {thing.id: thing for thing in line.heard.things}


@pytest.fixture
def calls(folder):
    """The scribe's line over a fresh walk, the wording ready."""
    begun(folder)

    async def opened(table, *keys: str):
        await table.press(*(keys or ("g", "c")))
        await table.settle()
        return table

    return opened


def unsure_of_cow_hocks(text, lexicon, *, region=None, point=None):
    """A reader that is not sure, so that what is to be confirmed does not hang on its tuning."""
    if "hocks" not in text:
        return Reading(text)
    likely = FoundFault(
        COW, None, None, "present", 0.62, (0, len(text)), False, ("hindquarters.bowed-hocks",)
    )
    return Reading(text, (likely,))


def right_in_doubt(text, lexicon, *, region=None, point=None):
    """A reader that calls the depth of chest right in doubt, and the throat for sure."""
    if "throat" not in text:
        return Reading(text)
    doubt = FoundAffirmed("chest.depth", None, (0, 14), 0.62, False)
    return Reading(text, affirmed=(doubt, FoundAffirmed("neck.throat", None, (16, 27), 0.95, True)))


async def test_what_is_called_out_shows_by_region_as_it_is_typed(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type(CALL[:12])
        assert "Height at the withers 64.5 cm" in row(table, "[1]")
        assert "Steep shoulder" not in table.text
        await table.type(CALL[12:])
        assert "Forequarters" in row(table, "[2]")
        assert "Steep shoulder · slight" in row(table, "[2]")
        assert "Hindquarters" in row(table, "[3]")
        assert "Cow hocks · ruled out" in row(table, "[3]")
        marked = " ".join(table.text.split())
        assert (
            "withers [1]64.5, [?]blorp of the fnord, [2]a touch steep in shoulder, [3]no cow hocks" in marked
        )
        assert "not understood, stays in the words: blorp of the fnord" in marked, "nothing is cut"
        assert not table.on_disk.notes, "nothing is recorded before Enter"


async def test_points_called_right_are_told_whole_and_what_stands_is_kept_is_said_once(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type("eyes dark, scissor bite, well laid back shoulders, skull neither broad nor narrow")
        told = " ".join(table.text.split())
        line = table.app.screen.query_one(NoteLine)
        right = [one for one in line.heard.right if one.taken and not one.asks]
        assert len(right) >= 3
        for one in right:
            sign = signs_of(line.heard)[one.id]
            assert f"{sign} {one.point.label}: {one.words} · as asked" in told
            assert f"{sign}{one.words}" in told, "its words are marked in the note"
        assert told.count("nothing is overwritten") == 1
        shown = table.text.split("[=1] ", 1)[1].split("nothing is overwritten")[0]
        assert "…" not in shown


async def test_a_point_called_right_in_doubt_is_taken_only_by_hand_and_a_sure_one_can_be_dropped(
    folder, calls, monkeypatch
):
    monkeypatch.setattr("hands_on.tui.parts.note_reader.read_note", right_in_doubt)
    async with sitting(folder, size=(100, 30)) as table:
        await calls(table)
        await table.type("chest to elbow, good throat")
        assert "chest to elbow · as asked · to be confirmed (62 %)" in row(table, "[=1]")
        assert "good throat · as asked" in row(table, "[=2]")
        await table.press("ctrl+t")
        assert "good throat · dropped" in row(table, "[=2]"), "the newest words are marked"
        for key, why in [
            ("ctrl+d", "no degree"),
            ("ctrl+s", "both sides"),
            ("ctrl+r", "as asked or dropped"),
        ]:
            await table.press(key)
            assert why in table.text
        await table.press("ctrl+o")
        assert table.screen_name == "ScribeScreen"
        assert "names no fault" in table.text
        await table.press("ctrl+p", "f2")
        assert "chest to elbow · as asked · taken by hand" in row(table, "[=1]")
        await table.press("enter")
        assert "= 1 point as asked; 1 left in the words" in table.text
        (grade,) = table.on_disk.grades
        assert (grade.point, grade.as_asked, grade.by) == ("chest.depth", True, "E. Example")
        assert grade.note == "called out: chest to elbow"
        assert table.on_disk.notes[0].findings == ()
        await table.type("chest to elbow, good throat")
        assert "answered already" in row(table, "[=1]")
        await table.press("ctrl+p", "ctrl+t")
        assert "taken" not in row(table, "[=1]")
        assert "Depth of chest: answered already. It stays as it is." in table.text
        await table.press("enter")
        assert [grade.point for grade in table.on_disk.grades] == ["chest.depth", "neck.throat"]


async def test_enter_records_and_clears_for_the_next_call(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type(f"{CALL}\rcow hocks\rblorp fnord\rlovely\r")
        assert table.screen_name == "ScribeScreen"
        session = table.on_disk
        assert [note.text for note in session.notes] == [CALL, "cow hocks", "blorp fnord", "lovely"]
        first = session.notes[0]
        assert (first.region, first.point, first.by) == ("", "", "E. Example")
        assert {(f.fault, f.degree, f.status, f.taken_by) for f in first.findings} == {
            (STEEP, "slight", "present", ""),
            (COW, None, "absent", ""),
        }
        assert all(f.confidence > 0.5 for f in first.findings)
        assert [(take.point, take.value, take.unit) for take in session.takes] == [("height", 64.5, "cm")]
        assert "4. lovely" in table.text
        assert "2. cow hocks" in table.text
        assert "1. withers" not in table.text, "the last three calls are shown"
        assert "kept as words, nothing taken from them" in table.text
        await table.press("escape")
        assert table.screen_name == "WalkScreen"
        assert "Cow hocks" in table.text


async def test_what_the_program_is_not_sure_of_is_taken_only_by_hand(folder, calls, monkeypatch):
    monkeypatch.setattr("hands_on.tui.parts.note_reader.read_note", unsure_of_cow_hocks)
    async with sitting(folder) as table:
        await calls(table)
        await table.type("hocks\rhocks")
        assert table.on_disk.notes[0].findings == ()
        assert "to be confirmed (62 %) · or" in row(table, "[1]")
        await table.press("ctrl+t")
        assert "taken by hand" in row(table, "[1]")
        await table.press("enter")
        (finding,) = table.on_disk.notes[1].findings
        assert (finding.fault, finding.taken_by, finding.confidence) == (COW, "E. Example", 0.62)


async def test_a_dropped_finding_stays_words(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type("cow hocks, withers 64.5")
        await table.press("ctrl+t")
        assert "Height at the withers 64.5 cm · dropped" in row(table, "[2]")
        await table.press("up")
        assert things(table)[COW].taken
        await table.press("f2")
        assert "Cow hocks · dropped" in row(table, "[1]")
        await table.press("enter")
        session = table.on_disk
        assert session.notes[0].text == "cow hocks, withers 64.5"
        assert (session.notes[0].findings, session.takes) == ((), ())


async def test_degree_side_and_status_are_changed_with_keys(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type("cow hocks")
        await table.press("ctrl+d", "ctrl+d", "ctrl+s", "ctrl+r", "ctrl+r")
        assert "Cow hocks · moderate · left · unsure · taken by hand" in row(table, "[1]")
        await table.type(" so")
        assert "moderate · left · unsure" in row(table, "[1]"), "a change holds while typing goes on"
        await table.press("enter")
        (finding,) = table.on_disk.notes[0].findings
        assert (finding.degree, finding.side, finding.status) == ("moderate", "left", "unsure")
        assert finding.taken_by == "E. Example"


async def test_another_fault_is_picked_alternatives_first(folder, calls, monkeypatch):
    monkeypatch.setattr("hands_on.tui.parts.note_reader.read_note", unsure_of_cow_hocks)
    async with sitting(folder) as table:
        await calls(table)
        await table.type("hocks")
        await table.press("ctrl+o")
        assert table.screen_name == "FaultScreen"
        first, second = table.text.split("\n")[3:5]
        assert (first.split("  ")[0], second.split("  ")[0]) == ("Bowed hocks", "Cow hocks")
        await table.type("steep shoulder")
        await table.press("enter")
        assert table.screen_name == "ScribeScreen"
        assert "Steep shoulder · taken by hand" in row(table, "[1]")
        await table.press("enter")
        (finding,) = table.on_disk.notes[0].findings
        assert (finding.fault, finding.confidence) == (STEEP, None)


async def test_an_odd_reading_is_asked_about_and_nothing_recorded_before(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type("withers 645, no cow hocks")
        assert "odd, will be asked about" in row(table, "[1]")
        await table.press("enter")
        assert table.screen_name == "NumberedScreen"
        assert "645 cm cannot be right here" in table.text
        assert "64.5 cm" in table.text
        assert not table.on_disk.notes
        await table.press("escape")
        assert table.app.screen.query_one(NoteLine).text == "withers 645, no cow hocks"
        assert not table.on_disk.notes
        await table.press("enter", "1")
        session = table.on_disk
        assert [(take.value, take.unit) for take in session.takes] == [(64.5, "cm")]
        assert session.notes[0].text == "withers 645, no cow hocks"
        await table.type("withers 645")
        await table.press("enter", "0")
        assert len(table.on_disk.takes) == 1, "it stays in the words only"
        assert table.on_disk.notes[1].text == "withers 645"


async def test_a_bare_number_under_a_measurement_is_that_measurement(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("height")
        await table.settle()
        await table.press("n")
        await table.type("64.5")
        assert "Height at the withers 64.5 cm · a reading" in table.text
        await table.press("enter")
        assert [(take.point, take.value) for take in table.on_disk.takes] == [("height", 64.5)]
        (note,) = table.on_disk.notes
        assert (note.text, note.region, note.point) == ("64.5", table.walk.stop.region.id, "height")
        assert "(1 take)" in table.text, "the point shows its new reading"


async def test_the_words_stay_on_disk_as_typed_and_are_shown_as_typed(folder, calls):
    words = "[b]cow hocks[/b] [/] =1+1 <i>&amp; [$error]x"
    async with sitting(folder) as table:
        await calls(table)
        await table.type(words)
        assert words in table.text
        below = table.text.split(words)[1].split("\n")[1]
        assert below.replace("[?]", "").replace("[1]", "").strip() == words, "in the marked note too"
        await table.press("enter")
        assert f"1. {words}" in table.text
        assert table.on_disk.notes[0].text == words


async def test_a_paste_of_several_lines_is_one_call_and_the_arrows_move_the_cursor_then(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        table.app.post_message(Paste("cow hocks\nno throatiness"))
        await table.pilot.pause()
        assert len(things(table)) == 2
        await table.press("up", "end")
        await table.type(" left")
        await table.press("enter")
        assert table.on_disk.notes[0].text == "cow hocks left\nno throatiness"


async def test_leaving_keeps_what_was_typed_and_changed_for_the_next_time(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.type("cow hocks")
        await table.press("ctrl+d", "escape", "q")
        assert "Put aside and not recorded" in table.text, "leaving the examination asks"
        await table.press("1", "c")
        assert "Cow hocks · slight · taken by hand" in row(table, "[1]")
        await table.press("enter")
        assert table.on_disk.notes[0].findings[0].degree == "slight"


async def test_the_same_line_opens_in_the_review(folder, calls):
    async with sitting(folder) as table:
        await calls(table, "g", "r", "c")
        assert table.screen_name == "ScribeScreen"
        await table.type("no cow hocks\r")
        await table.press("escape")
        assert table.screen_name == "ReviewScreen"
        assert any("no cow hocks" in line.text for line in table.app.screen.rows)


async def test_keys_that_have_nothing_to_act_on_say_so(folder, calls):
    async with sitting(folder) as table:
        await calls(table)
        await table.press("ctrl+d")
        assert "Nothing is understood yet" in table.text
        await table.type("withers 64.5")
        for key in ("ctrl+d", "ctrl+r", "ctrl+o"):
            await table.press(key)
            assert "reading" in table.text.split("[1]")[2]
        await table.press("ctrl+s")
        assert "Left and right are not told apart here" in table.text


@pytest.mark.parametrize("table", ["note", "scribe"])
def test_every_key_of_the_line_names_something_it_does(table):
    for action in keys.in_line(table).values():
        assert callable(getattr(NoteLine, f"action_{action.split('(')[0]}", None)), action


async def test_help_tells_the_lines_keys(folder, calls):
    async with sitting(folder, size=(100, 60)) as table:
        await calls(table)
        await table.press("f1")
        assert table.screen_name == "HelpScreen"
        assert "Another fault was meant" in table.text


async def test_a_signed_examination_takes_calls_as_amendments_with_one_reason_for_all(folder, calls):
    path = begun(folder)
    with OpenSession.open(path, NOW) as opened:
        signed = opened.session.model_copy(update={"signature": Signature(name="E. Example", at=NOW)})
        assert opened.put(signed)
    async with sitting(folder) as table:
        table.app.go(OpenFile(path))
        await table.pilot.pause()
        await table.press("c")
        await table.settle()
        await table.type("withers 64.5\r")
        assert table.screen_name == "TypedScreen"
        assert not read_session(path).amendments
        await table.type("forgotten\r")
        await table.type("cow hocks\r")
        session = read_session(path)
        assert (session.takes, session.notes) == ((), ())
        assert {amendment.reason for amendment in session.amendments} == {"forgotten"}
        assert [note.text for row in session.amendments for note in row.notes] == [
            "withers 64.5",
            "cow hocks",
        ]


async def test_a_session_held_elsewhere_opens_no_line_and_says_who_holds_it(folder):
    path = begun(folder)
    with OpenSession.open(path, NOW + datetime.timedelta(minutes=1)):
        async with sitting(folder) as table:
            table.app.go(OpenFile(path))
            await table.pilot.pause()
            await table.press("c")
            assert not any(isinstance(screen, ScribeScreen) for screen in table.app.screen_stack)
            assert "READ ONLY: open elsewhere" in table.text


async def test_notes_are_kept_where_the_wording_cannot_be_read(folder, calls, monkeypatch):
    def broken(library, edition):
        raise OSError("no such file")

    monkeypatch.setattr("hands_on.tui.parts.note_reader.lexicon", broken)
    async with sitting(folder) as table:
        await calls(table)
        assert "Notes are kept as typed" in table.text
        await table.type("cow hocks\r")
        assert table.on_disk.notes[0].text == "cow hocks"


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (160, 45)], ids=str)
async def test_line_marks_and_findings_have_room_in_every_window(folder, calls, size):
    async with sitting(folder, size=size) as table:
        await calls(table)
        await table.type(CALL)
        for sign in ("[1]", "[2]", "[3]"):
            assert table.text.count(sign) >= 2, (sign, table.text)
        await table.press("escape", "n")
        await table.press("ctrl+n", "ctrl+n", "ctrl+n")
        for widget in table.app.screen.walk_children():
            if widget.display and widget.region.width:
                assert widget.region.right <= size[0]
                assert widget.region.bottom <= size[1], widget
        assert "> " in table.text


async def test_after_a_dictation_the_walk_asks_only_what_is_still_open(folder, calls):
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("neck.length")
        following = [stop.point.id for stop in table.walk.sheet.stops]
        after = following[following.index("neck.length") + 1 :]
        await calls(table, "c")
        await table.type("neck short, clean throat, well laid back shoulders\r")
        assert "= Short neck; 2 points as asked" in table.text
        await table.press("escape")
        called = {"neck.length", "neck.throat", "forequarters.shoulder"}
        first = next(name for name in after if name not in called)
        assert table.walk.stop.point.id == first
        assert "called out; on with what is open" in table.text
        kept = table.on_disk.notes[0]
        assert [row.fault for row in kept.findings] == ["neck.short"]
        seen = []
        for _ in range(12):
            seen.append(table.walk.stop.point.id)
            await table.press("0" if table.walk.stop.point.kind != "measure" else "plus")
        assert not called & set(seen)
