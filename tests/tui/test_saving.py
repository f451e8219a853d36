"""When saving fails: said at once, answers stay, another try, another place; a session held elsewhere."""

from __future__ import annotations

import errno
import os

import pytest

from hands_on.store.open_session import OpenSession
from hands_on.store.session_file import read_session
from hands_on.tui.asks import NewExamination
from tests.tui.driving import NOW, begun, sitting


@pytest.fixture
def disk(monkeypatch):
    """A disk that can be made full and empty again."""
    from hands_on.store import session_file

    really = session_file.write_atomic
    state = {"full": False}

    def write(path, text, **how):
        if state["full"]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return really(path, text, **how)

    monkeypatch.setattr(session_file, "write_atomic", write)
    return state


async def test_a_full_disk_is_told_at_once_and_f5_saves_later(folder, disk):
    begun(folder)
    async with sitting(folder) as table:
        at = await table.go_on_to("grade", "grade")
        disk["full"] = True
        await table.press("0")
        assert "NOT SAVED: the disk is full · F5 tries again" in table.text
        assert table.walk.stop.index == at, "it stays where it can be seen"
        assert not table.on_disk.grades
        await table.press("enter", "0", "f5")
        assert "NOT SAVED" in table.text
        disk["full"] = False
        await table.press("f5")
        assert len(table.on_disk.grades) == 2
        assert "NOT SAVED" not in table.text


async def test_f6_goes_on_in_another_place(folder, disk, tmp_path):
    begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade", "grade")
        disk["full"] = True
        await table.press("0")
        disk["full"] = False
        await table.press("f6")
        box = table.app.screen.query_one("Input")
        box.value = str(tmp_path / "no such folder" / "a.toml")
        await table.press("enter")
        assert table.screen_name == "TypedScreen"
        assert "the folder is " in str(table.app.screen.query_one("#message").render())
        box.value = str(tmp_path / "elsewhere.toml")
        await table.press("enter")
        assert table.screen_name == "WalkScreen"
        assert len(read_session(tmp_path / "elsewhere.toml").grades) == 1
        await table.press("enter", "0")
        assert len(read_session(tmp_path / "elsewhere.toml").grades) == 2


async def test_leaving_with_something_unsaved_is_asked_first(folder, disk):
    begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade")
        disk["full"] = True
        await table.press("0", "q")
        assert table.screen_name == "NumberedScreen"
        await table.press("1")
        assert table.screen_name == "WalkScreen"
        disk["full"] = False
        await table.press("q", "2")
        assert len(table.on_disk.grades) == 1


async def test_saving_is_tried_again_by_itself(folder, disk, monkeypatch):
    monkeypatch.setattr("hands_on.tui.session_screen.RETRY", 0.05)
    begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade", "grade")
        disk["full"] = True
        await table.press("0")
        assert not table.on_disk.grades
        disk["full"] = False
        for _ in range(100):
            if table.on_disk.grades:
                break
            await table.pilot.pause(0.05)
        assert len(table.on_disk.grades) == 1


async def test_a_file_changed_by_somebody_else_is_left_as_it_is(folder):
    path = begun(folder)
    async with sitting(folder) as table:
        await table.go_on_to("grade")
        text = path.read_text() + "\n# somebody was here\n"
        path.write_text(text)
        await table.press("0")
        assert "NOT SAVED" in table.text
        assert "F6 saves elsewhere" in " ".join(table.text.split())
        assert path.read_text() == text


async def test_the_second_opener_reads_only_and_is_told_who_holds_it(folder):
    path = begun(folder)
    with OpenSession.open(path, NOW) as other:
        assert not other.read_only
        async with sitting(folder, size=(120, 30)) as table:
            await table.go_on_to("grade")
            assert "READ ONLY: open elsewhere" in table.text
            assert f"process {os.getpid()}" in table.text
            before = path.read_text()
            await table.press("0", "u", "n", "f", "s", "1")
            assert path.read_text() == before
            other.close()
            await table.press("f5")
            assert "Nobody else holds it now" in table.text
            await table.press("0")
            assert len(table.on_disk.grades) == 1


async def test_dog_screen_with_nowhere_to_write_still_goes_on(folder, disk):
    disk["full"] = True
    async with sitting(folder, opens=NewExamination("hovawart-fci-190")) as table:
        fields = table.app.screen.fields()
        await table.type("Arko")
        fields["sex"].entry().pick("male")
        fields["evaluator"].entry().value = "E"
        await table.press("f2")
        assert table.screen_name == "CautionsScreen"
        assert "NOT SAVED: the disk is full" in table.text
        disk["full"] = False
        await table.press("enter")
        assert [row.answer for row in table.on_disk.cautions] == ["read"]
