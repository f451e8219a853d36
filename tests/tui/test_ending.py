"""The terminal closed over the running program: nothing waits for it any more."""

from __future__ import annotations

import io
import threading

import pytest
from textual.drivers._writer_thread import MAX_QUEUED_WRITES, WriterThread

from hands_on.tui.ending import outlive_the_terminal

DEADLINE = 30.0
"""Seconds after which somebody counts as waiting for ever; a healthy run needs none."""


class Gone(io.StringIO):
    """A terminal that was closed: EIO for every write (POSIX.1-2017, write)."""

    def write(self, text: str) -> int:
        raise OSError(5, "Input/output error")


def test_what_cannot_be_written_any_more_is_dropped_and_nobody_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)  # put back afterwards
    outlive_the_terminal()
    writer = WriterThread(Gone())
    writer.start()

    def draw() -> None:
        for _ in range(3 * MAX_QUEUED_WRITES):
            writer.write("a row")
        writer.stop()

    drawing = threading.Thread(target=draw, daemon=True)
    drawing.start()
    drawing.join(DEADLINE)
    assert not drawing.is_alive()
    assert not writer.is_alive()


def test_any_other_thread_that_fails_is_told_as_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[object] = []
    monkeypatch.setattr(threading, "excepthook", lambda ended: told.append(ended.exc_type))
    outlive_the_terminal()
    failing = threading.Thread(target=lambda: [][0])
    failing.start()
    failing.join()
    assert told == [IndexError]
