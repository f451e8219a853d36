"""A real terminal for tests: a pseudo-terminal (pexpect) whose screen is kept by an emulator (pyte)."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal as signals
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pexpect
import pyte

from hands_on.store.places import user_cache
from hands_on.store.private import make_folder

DEADLINE = 30.0
"""Seconds after which a text that was waited for counts as missing; a healthy run needs far less."""

ROOT = Path(__file__).resolve().parents[2]


def copy_kept(cache: Path) -> None:
    """Put what this process found sound of editions into a program's cache, as its second start finds it."""
    there = cache / user_cache().name / "checked"
    if there.exists() or not (kept := user_cache() / "checked").is_dir():
        return
    make_folder(there)
    for path in kept.iterdir():
        if not path.name.startswith("."):
            with contextlib.suppress(FileNotFoundError):  # another program may tidy it away meanwhile
                shutil.copy(path, there)


class Terminal:
    """`hands-on` in a terminal of `columns` x `lines`."""

    def __init__(
        self, arguments: list[str], home: Path, *, columns: int = 80, lines: int = 24, **environment: str
    ) -> None:
        self.screen = pyte.Screen(columns, lines)
        self.stream = pyte.ByteStream(self.screen)
        self.raw = b""
        env = {
            **{
                name: value
                for name, value in os.environ.items()
                if name not in ("NO_COLOR", "COLORTERM", "COLUMNS", "LINES")
            },
            "TERM": "xterm-256color",
            "HOME": str(home),
            "XDG_CACHE_HOME": str(home / "cache"),
            "XDG_DATA_HOME": str(home / "data"),
            "PYTHONPATH": str(ROOT),
            "HANDS_ON_PICTURES": "off",
            **environment,
        }
        copy_kept(home / "cache")
        self.child = self.started(arguments, env, lines, columns)
        # Textual asks the terminal about itself and takes silence for "no"; nothing has to be answered.

    def started(self, arguments: list[str], env: dict[str, str], lines: int, columns: int) -> Any:
        """The program, as from a shell."""
        child = pexpect.spawn(
            sys.executable,
            ["-m", "hands_on", *arguments],
            env=env,
            dimensions=(lines, columns),
            timeout=DEADLINE,
        )
        child.delaybeforesend = None
        return child

    @property
    def text(self) -> str:
        """What stands on the screen."""
        rows = (self.screen.buffer[line] for line in range(self.screen.lines))
        return "\n".join("".join(row[at].data for at in range(self.screen.columns)).rstrip() for row in rows)

    def wait(self, wanted: str | Callable[[str], bool]) -> str:
        """Read until the screen shows `wanted`; the screen is returned."""
        end = time.monotonic() + DEADLINE
        shows = wanted if callable(wanted) else lambda text: wanted in text
        while not shows(self.text):
            assert time.monotonic() < end, f"never came: {wanted!r}\n{self.text}"
            try:
                self._feed(self.child.read_nonblocking(65536, timeout=0.2))
            except pexpect.TIMEOUT:
                continue
            except pexpect.EOF:
                assert shows(self.text), f"ended before {wanted!r}\n{self.text}"
        return self.text

    def send(self, keys: str) -> None:
        """Press keys."""
        self.child.send(keys)

    def press(self, keys: str, wanted: str | Callable[[str], bool]) -> str:
        """Press keys and wait for what they lead to."""
        self.send(keys)
        return self.wait(wanted)

    def kill(self, signal: int) -> None:
        """End the program as the system would. What it still writes is read, or it could not end."""
        self.child.kill(signal)
        self.finish()

    def hang_up(self) -> None:
        """Close the terminal over the running program and see it end."""
        child = self.child
        if isinstance(child, pexpect.spawn):
            child.ptyproc.fileobj.close()
            child.ptyproc.closed = child.closed = True
            child = child.ptyproc
        else:
            child.hang_up()
        end = time.monotonic() + DEADLINE
        while child.isalive():
            if time.monotonic() > end:
                os.kill(child.pid, signals.SIGKILL)
                raise AssertionError("it does not end when its terminal is closed")
            time.sleep(0.01)

    def finish(self) -> int:
        """Read to the end; the exit code is returned."""
        end = time.monotonic() + DEADLINE
        while time.monotonic() < end:
            try:
                self._feed(self.child.read_nonblocking(65536, timeout=0.2))
            except pexpect.TIMEOUT:
                continue
            except pexpect.EOF:
                break
        # It may still be ending itself; closing would end it, and then its exit code is not its own.
        while self.child.isalive() and time.monotonic() < end:
            time.sleep(0.01)
        self.child.close()
        return self.child.exitstatus if self.child.exitstatus is not None else -1

    def _feed(self, data: bytes) -> None:
        self.raw += data
        self.stream.feed(data)
