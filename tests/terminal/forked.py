"""Many runs of the program for the start of one: each forked from a process that has loaded its modules.

What runs is the program itself, in a terminal and a process of its own, that can be killed; only the seconds
in which Python loads modules are saved. Forking wants a process without threads: `python -m tests.bench.kill`
is one, a worker of pytest is none.
"""

from __future__ import annotations

import gc
import importlib
import os
import pkgutil
import pty
import sys

import pexpect
from ptyprocess import PtyProcess

from hands_on.cli import main
from tests.terminal.terminal import DEADLINE, Terminal


def load_modules() -> None:
    """Load what the screens need, and leave it to all that are forked."""
    for package in ("hands_on.tui", "hands_on.exam", "hands_on.store", "textual.drivers"):
        found = importlib.import_module(package)
        for module in pkgutil.walk_packages(found.__path__, f"{package}."):
            if "win" not in module.name.rpartition(".")[2] and "web" not in module.name:
                importlib.import_module(module.name)
    importlib.import_module("textual.widgets").Static  # noqa: B018 - the widgets are loaded when named
    gc.freeze()


class ForkedTerminal(Terminal):
    """`hands-on` in a terminal, forked from this process after `load_modules`."""

    def started(self, arguments: list[str], env: dict[str, str], lines: int, columns: int) -> pexpect.spawn:
        """The program in a child of this process."""
        pid, master = pty.fork()
        if pid == 0:
            _run(arguments, env, lines, columns)
        child = pexpect.spawn(None, timeout=DEADLINE)
        child.ptyproc = PtyProcess(pid, master)
        child.pid, child.child_fd = pid, master
        child.closed = child.terminated = False
        child.setwinsize(lines, columns)
        return child


def _run(arguments: list[str], env: dict[str, str], lines: int, columns: int) -> None:
    """In the child: be the program, and end as it does."""
    import fcntl
    import struct
    import termios

    code = 1
    try:
        fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        for number, (name, mode) in enumerate((("stdin", "r"), ("stdout", "w"), ("stderr", "w"))):
            stream = open(number, mode, buffering=1, encoding="utf-8", closefd=False)  # noqa: SIM115
            setattr(sys, name, stream)
            setattr(sys, f"__{name}__", stream)
        os.environ.clear()
        os.environ.update(env)
        code = main(arguments)
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 1
    finally:
        os._exit(code)
