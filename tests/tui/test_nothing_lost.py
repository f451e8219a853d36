"""Nothing unsaved leaves without a question, "Saved" is said of what is on disk, what is written waits."""

from __future__ import annotations

import pytest
from textual.events import Key

from hands_on.exam.dialogue.stray import StrayNumber
from hands_on.exam.session import Summary
from hands_on.store.drafts import DraftFile, Written
from hands_on.store.session_file import read_session
from hands_on.tui import session_screen
from hands_on.tui.asks import NewExamination
from tests.tui.driving import HOVAWART, NOW, begun, sitting


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
            if draft.path.exists():
                break
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
