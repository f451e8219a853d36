"""Many runs of the program for the start of one: each forked from a process that has loaded its modules.

What runs is the program itself, in a terminal and a process of its own, that can be killed; only the seconds
in which Python loads modules and the reader of notes learns an edition's wording are saved. Forking wants a
process without threads, which a worker of pytest is none of: the `Nursery` is a process for that alone.

    test --socket: arguments, environment--> nursery --fork--> watcher --fork in a terminal--> program
      ^---------- terminal, number of the process, in the end its status ------/
"""

from __future__ import annotations

import atexit
import contextlib
import functools
import gc
import importlib
import json
import os
import pkgutil
import select
import signal
import socket
import subprocess
import sys
import threading
import time
from typing import Any

from pexpect import fdpexpect

from tests.lexicons import build_once
from tests.terminal import terminal as terminals
from tests.terminal.terminal import ROOT, Terminal

LONGEST_ORDER = 1 << 20


class ForkedTerminal(Terminal):
    """`hands-on` in a terminal, forked from a process that stands ready."""

    EDITION = "any-dog"
    """The edition whose wording is learned before the program starts; of any other it learns it itself."""
    PIXELS = (0, 0)
    """What the terminal says of its width and height; 0 where it does not know."""

    def started(self, arguments: list[str], env: dict[str, str], lines: int, columns: int) -> Any:
        """The program in a process of the nursery's."""
        size = [lines, columns, *self.PIXELS]
        order = {"arguments": arguments, "env": env, "size": size, "edition": self.EDITION}
        return Nursery.of_this_process().run(order)


class Child(fdpexpect.fdspawn):
    """A process that is another's child, as far as `Terminal` asks for one."""

    def __init__(self, terminal: int, pid: int, told: socket.socket) -> None:
        super().__init__(terminal, timeout=terminals.DEADLINE)
        self.pid, self.told = pid, told
        self.exitstatus: int | None = None
        self.signalstatus: int | None = None
        self.terminated = False

    def isalive(self) -> bool:
        """Has its end not been told yet?"""
        if not self.terminated and select.select([self.told], [], [], 0)[0]:
            code = int(self.told.recv(64) or b"-9")
            self.terminated = True
            self.exitstatus, self.signalstatus = (code, None) if code >= 0 else (None, -code)
            self.told.close()
        return not self.terminated

    def kill(self, sig: int) -> None:
        """Send it a signal."""
        if self.isalive():
            os.kill(self.pid, sig)

    def close(self, force: bool = False) -> None:
        """Take its terminal away and see it end; with `force` it is made to."""
        self.hang_up()
        end = time.monotonic() + (0.5 if force else terminals.DEADLINE)
        while self.isalive():
            if time.monotonic() > end:
                self.kill(signal.SIGKILL)
            time.sleep(0.01)

    def __del__(self) -> None:
        """A test that failed half-way leaves nothing behind."""
        if not self.terminated:
            with contextlib.suppress(OSError, ValueError):
                self.kill(signal.SIGKILL)
            self.told.close()
        self.hang_up()

    def hang_up(self) -> None:
        """Close its terminal."""
        if not self.closed:
            os.close(self.child_fd)
            self.child_fd, self.closed = -1, True


class Nursery:
    """The process that stands ready, as seen from a test."""

    _of: Nursery | None = None
    _lock = threading.Lock()

    @classmethod
    def of_this_process(cls) -> Nursery:
        """The one of this process; it ends with it."""
        with cls._lock:
            if cls._of is None:
                cls._of = cls()
                atexit.register(cls._of.end)
            return cls._of

    def __init__(self) -> None:
        self.orders, theirs = socket.socketpair()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.terminal.forked", str(theirs.fileno())],
            pass_fds=[theirs.fileno()], cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)},
        )  # fmt: skip
        theirs.close()

    def run(self, order: dict[str, object]) -> Child:
        """Have the program started."""
        told, watcher = socket.socketpair()
        with self._lock, watcher:
            text = json.dumps(order).encode()
            socket.send_fds(self.orders, [len(text).to_bytes(4, "big")], [watcher.fileno()])
            self.orders.sendall(text)
        pid, handles, _, _ = socket.recv_fds(told, 64, 1)
        return Child(handles[0], int(pid), told)

    def end(self) -> None:
        """No more orders: the process ends."""
        self.orders.close()
        self.process.wait(terminals.DEADLINE)


def serve(orders: socket.socket) -> None:
    """In the nursery: take orders until there are no more."""
    build_once()
    load_modules()
    while True:
        length, handles, _, _ = socket.recv_fds(orders, 4, 1)
        with contextlib.suppress(ChildProcessError):
            while os.waitpid(-1, os.WNOHANG)[0]:
                pass  # watchers that are done
        if not length:
            return
        order = json.loads(_whole(orders, int.from_bytes(length, "big")))
        told = socket.socket(fileno=handles[0])
        learn(order["edition"])
        if os.fork() == 0:
            orders.close()
            watch(order, told)
        told.close()


def _whole(orders: socket.socket, length: int) -> bytes:
    text = b""
    while len(text) < length:
        text += orders.recv(length - len(text))
    return text


def load_modules() -> None:
    """Load what the screens need, and leave it to all that are forked."""
    for package in ("hands_on.tui", "hands_on.exam", "hands_on.store", "textual.drivers"):
        found = importlib.import_module(package)
        for module in pkgutil.walk_packages(found.__path__, f"{package}."):
            if "win" not in module.name.rpartition(".")[2] and "web" not in module.name:
                importlib.import_module(module.name)
    importlib.import_module("textual.widgets").Static  # noqa: B018 - the widgets are loaded when named
    importlib.import_module("hands_on.cli")
    gc.freeze()


@functools.cache
def learn(edition: str) -> None:
    """Build the lexicon of an edition, and leave it to all that are forked."""
    from hands_on.store.library import Library
    from hands_on.store.places import shipped_rulesets
    from hands_on.store.wording import lexicon

    lexicon(Library([shipped_rulesets()]), edition)
    gc.freeze()


def watch(order: dict[str, Any], told: socket.socket) -> None:
    """In a process of its own: run the program in a terminal, tell its number and in the end its status."""
    import pty

    pid, terminal = pty.fork()
    if pid == 0:
        told.close()
        _run(order["arguments"], order["env"], order["size"])
    socket.send_fds(told, [str(pid).encode()], [terminal])
    os.close(terminal)
    code = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    with contextlib.suppress(OSError):  # the test is over
        told.send(str(code).encode())
    os._exit(0)


def _run(arguments: list[str], env: dict[str, str], size: list[int]) -> None:
    """In the child: be the program, and end as it does."""
    import fcntl
    import struct
    import termios

    from hands_on.cli import main

    code = 1
    try:
        fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", *size))
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


if __name__ == "__main__":
    serve(socket.socket(fileno=int(sys.argv[1])))
