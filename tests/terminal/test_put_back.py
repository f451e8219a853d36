"""However the program is told to end, the terminal is as it was: line settings, screen, cursor, mouse."""

from __future__ import annotations

import os
import re
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.terminal.terminal import DEADLINE, ROOT

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")


def read_until(master: int, wanted: bytes, raw: bytes = b"") -> bytes:
    """Read until what was written holds `wanted`."""
    end = time.monotonic() + DEADLINE
    while wanted not in raw:
        assert time.monotonic() < end, raw[-500:]
        if select.select([master], [], [], 0.2)[0]:
            raw += os.read(master, 65536)
    return raw


def drained(master: int) -> bytes:
    """What is still to be read."""
    raw = b""
    while select.select([master], [], [], 0)[0]:
        raw += os.read(master, 65536)
    return raw


@pytest.mark.parametrize("ending", [signal.SIGTERM, signal.SIGHUP])
def test_a_signal_leaves_the_terminal_as_it_was(ending: int, tmp_path: Path) -> None:
    import fcntl
    import struct
    import termios

    master, slave = os.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    before = termios.tcgetattr(slave)
    program = subprocess.Popen(
        [sys.executable, "-m", "hands_on", "--sessions", str(tmp_path / "s")],
        stdin=slave, stdout=slave, stderr=slave, start_new_session=True,
        preexec_fn=lambda: signal.signal(ending, signal.SIG_DFL),  # as from a shell, also under nohup
        env=os.environ | {"TERM": "xterm-256color", "HOME": str(tmp_path), "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    try:
        raw = read_until(master, b"New examination")
        assert termios.tcgetattr(slave) != before, "keys come one by one while it runs"
        program.send_signal(ending)
        raw += read_until(master, b"\x1b[?1049l")
        program.wait(DEADLINE)
        raw += drained(master)
        assert termios.tcgetattr(slave) == before
    finally:
        program.kill()
        program.wait()
        os.close(master)
        os.close(slave)
    modes = dict(re.findall(rb"\x1b\[\?(\d+)([hl])", raw))
    left_on = {mode for mode, set_ in modes.items() if set_ == b"h"}
    assert left_on <= {b"25", b"7"}, "the cursor shows, lines wrap; no mouse, no other screen"
    assert modes[b"25"] == b"h"
