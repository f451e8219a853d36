"""The scribe's line in a real terminal: control keys arrive, and a kill loses no call recorded."""

from __future__ import annotations

import signal
import sys
from pathlib import Path

import pytest

from hands_on.store.session_file import read_session
from tests.terminal.forked import ForkedTerminal
from tests.tui.driving import begun

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")


def test_calls_with_control_keys_are_on_disk_when_the_program_is_killed(tmp_path: Path) -> None:
    path = begun(tmp_path / "sessions")
    terminal = ForkedTerminal(["--sessions", str(path.parent), "examine", str(path)], tmp_path)
    terminal.wait("0 answered")
    terminal.press("c", "For instance: withers 64.5")
    terminal.press("withers 64.5, no cow hocks", "Cow hocks · ruled out")
    terminal.press("\x12", "Cow hocks · unsure · taken by hand")  # Ctrl+R
    terminal.press("\x04\x13", "Cow hocks · slight · left · unsure")  # Ctrl+D, Ctrl+S
    terminal.press("\r", "1. withers 64.5, no cow hocks")
    terminal.press("\x1b[200~steep shoulder\rlevel topline\x1b[201~", "Steep shoulder")
    terminal.press("\r", "2. steep shoulder level topline")
    terminal.send("not finished")
    terminal.wait("not finished")
    terminal.kill(signal.SIGKILL)

    kept = read_session(path)
    assert [note.text for note in kept.notes] == [
        "withers 64.5, no cow hocks",
        "steep shoulder\nlevel topline",
    ]
    (finding,) = kept.notes[0].findings
    assert (finding.degree, finding.side, finding.status) == ("slight", "left", "unsure")
    assert [(take.point, take.value) for take in kept.takes] == [("height", 64.5)]
