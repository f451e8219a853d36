"""Nothing unsaved leaves without a question, "Saved" is said of what is on disk, what is written waits."""

from __future__ import annotations

import os

import pytest
from textual.events import Key, Paste

from hands_on.exam.dialogue.stray import StrayNumber
from hands_on.exam.session import Summary
from hands_on.store.drafts import DraftFile, FormDraft, Written
from hands_on.store.new_edition import begin
from hands_on.store.session_file import read_session
from hands_on.tui import session_screen
from hands_on.tui.asks import CritiqueOf, NewExamination, SeminarRound, WriteEdition
from hands_on.tui.parts import form
from tests.tui.demo import TOVIK, demo
from tests.tui.driving import HOVAWART, LIBRARY, NOW, begun, sitting


@pytest.fixture
def draft(folder):
    """The draft file of the only session."""
    return DraftFile(begun(folder))


@pytest.mark.parametrize(
    "place", ["~nosuchuser/x.toml", f"{'x' * 300}.toml", "file/below/x.toml", "/proc/x/y.toml"]
)
async def test_f6_to_a_place_that_cannot_be_is_told_and_the_answers_stay(place, folder, tmp_path):
    begun(folder)
    (tmp_path / "file").write_text("", "utf-8")
    async with sitting(folder) as table:
        await table.go_on_to("grade", "grade")
        await table.press("0", "f6")
        box = table.app.screen.query_one("Input")
        box.value = str(tmp_path / place) if place.startswith("file") else place
        await table.press("enter")
        assert table.screen_name == "TypedScreen"
        assert "Not saved to" in str(table.app.screen.query_one("#message").render())
        await table.press("escape", "0")
        assert len(table.on_disk.grades) == 2


async def test_a_new_examination_that_is_nowhere_on_disk_is_not_left_unasked_from_the_cautions(tmp_path):
    """Nothing can be written below a file; F6 goes on elsewhere from the cautions too."""
    (tmp_path / "file").write_text("", "utf-8")
    async with sitting(tmp_path / "file" / "sessions", opens=NewExamination(HOVAWART)) as table:
        await table.type("Arko")
        await table.press("enter", "m")
        for field in table.app.screen.fields().values():
            if field.field_name == "evaluator":
                field.query_one("Input").value = "E. Example"
        await table.press("f2")
        assert table.screen_name == "CautionsScreen"
        await table.press("q")
        assert table.screen_name == "NumberedScreen"
        await table.press("1")
        await table.press("f5")
        assert "NOT SAVED" in table.text
        await table.press("ctrl+q")
        assert table.screen_name == "NumberedScreen"
        await table.press("4")
        assert table.app.farewell
        assert all(line.startswith("Not saved: ") for line in table.app.farewell)


async def test_a_file_removed_meanwhile_is_written_again_before_saved_is_said(folder):
    path = begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade")
        await table.press("0")
        path.unlink()
        await table.press("q")
        assert table.app.farewell[0] == f"Saved: {path}"
    assert len(read_session(path).grades) == 1


async def test_a_note_being_written_is_on_disk_and_here_again_after_a_kill(folder, draft, monkeypatch):
    monkeypatch.setattr(session_screen, "KEEP", 0.01)
    async with sitting(folder) as table:
        await table.press("g", "n")
        await table.type("a touch steep")
        for _ in range(200):
            if draft.path.exists() and draft.read().note == "a touch steep":
                break  # what was kept while it was being typed is kept anew
            await table.pilot.pause(0.01)
        assert draft.read() == Written(note="a touch steep")
        kept = draft.path.read_bytes()
        await table.press("escape", "q", "2")
        assert not draft.path.exists(), "dropped by the key that says so"
    draft.path.write_bytes(kept)  # as a kill leaves it
    async with sitting(folder) as table:
        await table.press("g", "n")
        await table.type(" in shoulder\r")
        assert [note.text for note in table.on_disk.notes] == ["a touch steep in shoulder"]
        await table.press("q")
    assert not draft.path.exists()


async def test_what_was_dropped_and_changed_by_hand_is_here_again_after_a_kill(folder, draft, monkeypatch):
    monkeypatch.setattr(session_screen, "KEEP", 0.01)
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        await table.type("steep in shoulder, clean throat")
        await table.press("ctrl+t", "ctrl+n", "ctrl+d")
        for _ in range(200):
            if draft.path.exists() and "slight" in draft.read().by_hand:
                break
            await table.pilot.pause(0.01)
        kept = draft.path.read_bytes()
        await table.press("escape", "q", "2")
    draft.path.write_bytes(kept)  # as a kill leaves it
    async with sitting(folder) as table:
        await table.press("g", "c")
        await table.settle()
        assert "clean throat · dropped" in table.text
        await table.press("enter")
        session = table.on_disk
        assert [row.degree for row in session.notes[0].findings] == ["slight"]
        assert not session.grades, "what was dropped answers no point"


async def test_a_summary_being_written_is_kept_by_ctrl_q_and_waits_after_a_kill(folder, draft):
    DraftFile(draft.path.with_name(draft.path.name[1:].removesuffix(".draft"))).keep(
        Written(summary="A good")
    )
    async with sitting(folder) as table:
        await table.press("g")
        assert "The summary that was being written is here again" in " ".join(table.text.split())
        await table.press("r", "s")
        await table.type(" dog")
        await table.press("ctrl+q")
        assert table.on_disk.summary == Summary(text="A good dog")
        assert table.screen_name == "ReviewScreen"
        await table.press("ctrl+q")
    assert not draft.path.exists()


async def test_what_was_recorded_already_is_not_offered_a_second_time(folder):
    """Killed after the note was saved and before its draft was removed."""
    path = begun(folder, notes=[{"text": "cow hocks", "at": NOW}])
    DraftFile(path).keep(Written(note="cow hocks"))
    async with sitting(folder) as table:
        await table.press("g", "q")
        assert table.screen_name == "StartScreen"


async def test_forms_with_anything_typed_are_left_only_after_a_question(folder):
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await table.press("enter", "m")
        for leave in ("escape", "ctrl+q"):
            await table.press(leave)
            assert table.screen_name == "NumberedScreen"
            await table.press("1")
        await table.press("escape", "2")
        assert table.screen_name == "StartScreen"


@pytest.mark.parametrize(
    ("keys", "skipped"),
    [("68.5", False), ("68,5", False), ("9.5", False), (".3", True)],
)
async def test_a_number_typed_where_none_is_asked_skips_nothing(keys, skipped, folder):
    """At a graded point: 6 and 8 are no answers there, the point opens the menu, 5 would be a dog in pain."""
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("hindquarters.hocks")
        await table.type(keys)
        assert bool(table.on_disk.skips) is skipped
        if not skipped:
            assert "A number is being typed" in table.text
            await table.type("\r0")
            assert [grade.point for grade in table.on_disk.grades] == ["hindquarters.hocks"]


@pytest.mark.parametrize(("typed", "step"), [("6.", 6), ("5.", 5), ("4,", 4)])
async def test_behind_a_step_of_a_scale_the_point_opens_the_menu_where_nothing_can_be_skipped(
    typed, step, folder
):
    """5 is no fault, and does not lead on either: `4.5` would skip the next point as a dog in pain."""
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.jump_to("body-condition")
        await table.type(typed)
        assert table.screen_name == "NumberedScreen"
        await table.press("5")
        assert "Something is recorded here" in table.text
        assert [grade.step for grade in table.on_disk.grades] == [step]
        assert table.on_disk.skips == ()
        await table.press("enter")
        assert table.walk.stop.point.id != "body-condition"


def test_a_slip_of_the_finger_is_mended_by_the_next_figure():
    stray = StrayNumber()
    stray.pressed(refused=True)
    assert not stray.takes("3")
    stray.pressed(refused=False)
    assert stray.takes("."), "still one number: 93.5"
    assert stray.takes("5")
    assert stray.takes("enter")
    assert not stray.takes(".")


@pytest.mark.parametrize("letters", ["²", "٣", "①", "੩", "½"])
async def test_figures_of_other_scripts_are_no_numbers_of_lines(letters, folder):
    begun(folder)
    async with sitting(folder) as table:
        for way in ("3", "4", "5", "6", "7"):
            await table.press(way)
            for letter in letters:
                table.app.post_message(Key(letter, letter))
            await table.pilot.pause()
            for _ in range(4):
                if table.screen_name != "StartScreen":
                    await table.press("escape")
        assert table.app.is_running


async def test_a_critique_being_edited_is_on_disk_and_here_again_after_a_kill(folder, draft, monkeypatch):
    monkeypatch.setattr(session_screen, "KEEP", 0.01)
    async with sitting(folder) as table:
        await table.press("g", "r", "t", "f3")
        await table.type("My own words. ")
        for _ in range(200):
            if draft.path.exists() and b"My own words. " in draft.path.read_bytes():
                break
            await table.pilot.pause(0.01)
        kept = draft.path.read_bytes()
        assert b"My own words. " in kept
        await table.press("escape")
        assert not draft.path.exists() or draft.path.read_bytes() != kept
        (critique,) = table.on_disk.critiques
        await table.press("q")
    path = draft.path.with_name(draft.path.name[1:].removesuffix(".draft"))
    path.write_text(path.read_text("utf-8").replace("My own words. ", ""), "utf-8")
    draft.path.write_bytes(kept)  # as a kill leaves it
    async with sitting(folder) as table:
        await table.press("g", "r")
        await table.press("ctrl+q")
        assert "A critique is waiting" in table.text
        await table.press("1", "t")
        area = table.app.screen.query_one("TextArea")
        assert area.text == critique.text
        assert table.app.screen.length == critique.length
        await table.press("escape")
        assert table.on_disk.critiques == (critique,)


async def test_a_form_being_filled_in_is_on_disk_and_here_again_after_a_signal(folder, monkeypatch):
    monkeypatch.setattr("hands_on.tui.app.terminal_gone", lambda: False)
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await table.type("Arko\rf")
        table.app.told_to_end(143)
    (left,) = folder.glob(".*.form")
    assert left.stat().st_mode & 0o077 == 0 or os.name == "nt"
    async with sitting(folder, opens=NewExamination("any-dog")) as table:
        assert "here again" in table.text
        assert table.app.screen.values()["call_name"] == "Arko"
        assert table.app.screen.values()["sex"] == "female"
        await table.press("escape")
        assert table.screen_name == "NumberedScreen"
        await table.press("2")
    assert not list(folder.glob(".*.form*"))


async def test_a_round_being_set_up_is_here_again_with_its_dogs_and_gone_once_written(folder, monkeypatch):
    monkeypatch.setattr(form, "KEEP", 0.01)
    async with sitting(folder, opens=SeminarRound()) as table:
        await table.press("1")
        await table.type("hovawart\r")
        await table.type("Spring")
        host = table.app.screen
        host.query_one("TextArea").text = "Arko, m, 2023-05-14\nBela, f"
        for _ in range(200):
            if [path for path in folder.glob(".*.form") if b"Bela" in path.read_bytes()]:
                break
            await table.pilot.pause(0.01)
        table.app.exit()  # as a kill, nothing is done on the way
    async with sitting(folder, opens=SeminarRound()) as table:
        await table.press("1")
        await table.type("hovawart\r")
        assert table.app.screen.values()["title"] == "Spring"
        assert table.app.screen.values()["dogs"] == "Arko, m, 2023-05-14\nBela, f"
        await table.press("f2")
        assert table.screen_name == "RoundScreen"
    assert not list(folder.glob(".*.form*"))


def test_two_programs_with_the_same_form_keep_what_each_is_given(tmp_path):
    first, second = FormDraft(tmp_path, "new-dog", NOW), FormDraft(tmp_path, "new-dog", NOW)
    first.keep({"call_name": "Arko"})
    second.keep({"call_name": "Bela"})
    third = FormDraft(tmp_path, "new-dog", NOW)
    assert third.found == {}
    second.close()
    third.close()
    assert FormDraft(tmp_path, "new-dog", NOW).found == {"call_name": "Bela"}


async def test_a_line_that_was_typed_is_dropped_by_the_second_key_only(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "f6")
        at_first = table.app.screen.query_one("Input").value
        await table.press("escape")
        assert table.screen_name == "WalkScreen", "nothing was typed"
        for leave in ("escape", "ctrl+q"):
            await table.press("f6")
            await table.type("x")
            await table.press(leave)
            assert table.app.screen.query_one("Input").value == f"{at_first}x"
            assert "not taken yet" in table.text
            await table.type("y")
            await table.press(leave)
            assert table.screen_name == "TypedScreen", "asked anew of what is typed since"
            await table.press(leave)
            assert table.screen_name == "WalkScreen"


async def test_a_pasted_text_is_dropped_by_the_second_key_only(folder, tmp_path):
    own = tmp_path / "own"
    begin("own-1", LIBRARY.heads(), None, own / "own-1.toml")
    async with sitting(folder, rulesets=(own,), opens=WriteEdition(own / "own-1.toml", list)) as table:
        await table.press("2", "2")
        table.app.post_message(Paste("Height 60 cm.\n"))
        await table.pilot.pause()
        await table.press("ctrl+q")
        assert "not taken yet" in table.text
        await table.press("ctrl+q")
        assert table.screen_name == "NumberedScreen"


async def test_a_question_over_what_is_not_kept_is_closed_by_ctrl_q_and_then_it_is_asked(folder):
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await table.type("Arko")
        await table.press("f1")
        assert table.screen_name != "DogScreen"
        await table.press("ctrl+q")
        assert table.screen_name == "DogScreen"
        await table.press("ctrl+q")
        assert "No examination has been started yet." in table.text


async def test_not_saved_is_told_once_on_the_cautions_and_no_longer_than_it_holds(folder, monkeypatch):
    begun(folder, cautions=())
    async with sitting(folder) as table:
        await table.press("g")
        monkeypatch.setattr("hands_on.store.atomic.os.replace", _full)
        await table.press("enter", "f5")
        assert table.text.count("NOT SAVED") == 1
        assert "Tried again." in table.text
        monkeypatch.undo()
        await table.press("f5")
        assert "NOT SAVED" not in table.text
        assert "Saved." in table.text


def _full(*_):
    raise OSError(28, "No space left on device")


async def test_a_number_half_typed_is_dropped_by_the_second_ctrl_q_only(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("measure")
        await table.type("64")
        await table.press("ctrl+q")
        assert "64 is not taken yet" in table.text
        await table.press("enter")
        assert [take.value for take in table.on_disk.takes] == [64]
        await table.type("6")
        await table.press("ctrl+q", "ctrl+q")
        assert table.screen_name == "StartScreen"
        assert len(table.on_disk.takes) == 1


async def test_a_signed_critique_is_left_without_a_reason_only_by_dropping_the_change(folder):
    (path,) = demo(folder, TOVIK)
    before = path.read_bytes()
    async with sitting(folder, opens=CritiqueOf(path)) as table:
        await table.type("Mine. ")
        await table.press("escape", "escape")
        assert "Without a reason nothing signed is changed." in table.text
        await table.press("1")
        assert table.app.screen.query_one("TextArea").text.startswith("Mine. ")
        await table.press("escape", "escape", "2")
        assert table.screen_name == "StartScreen"
    assert path.read_bytes() == before
    assert not list(folder.glob(".*.draft"))
