"""The program ended from outside: told to (SIGTERM, SIGHUP), or its terminal gone.

What is on the screens is kept as it is on leaving, the terminal is given back as it was.
"""

from __future__ import annotations

import asyncio
import os
import signal
import sys
import threading
from collections.abc import Callable

LOOK = 1.0
"""Seconds between two looks at whether the terminal is still there."""

SIGNALLED = 128
"""A program ended by a signal ends with this and the signal's number (POSIX.1-2017, 2.8.2)."""


def watch_signals(told: Callable[[int], None]) -> None:
    """Call `told` with the exit code when the system asks the program to end.

    A signal that whoever started the program had ignored (nohup) stays ignored. Not where the system has no
    such signals.
    """
    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        if number is None or signal.getsignal(number) is signal.SIG_IGN:
            continue
        try:
            asyncio.get_running_loop().add_signal_handler(number, told, SIGNALLED + number)
        except (NotImplementedError, RuntimeError, ValueError):
            return


def terminal_gone() -> bool:
    """Has the terminal that the program was started on been closed?"""
    if sys.platform == "win32" or sys.__stdin__ is None:
        return False
    import termios

    try:
        termios.tcgetattr(sys.__stdin__.fileno())
    except (termios.error, OSError, ValueError):
        return True
    return False


def outlive_the_terminal() -> None:
    """What can't be written to a terminal that is gone is dropped.

    Textual's writer ends at the first such write; its queue fills, and the program would wait for ever for
    room in it: no signal, and no look at the terminal, would reach it any more.
    """
    from textual.drivers._writer_thread import WriterThread

    before = threading.excepthook

    def hook(ended: threading.ExceptHookArgs) -> None:
        if isinstance(ended.thread, WriterThread) and issubclass(ended.exc_type, (OSError, ValueError)):
            while ended.thread._queue.get() is not None:
                pass
        else:
            before(ended)

    threading.excepthook = hook


def end_at_once(code: int) -> None:
    """Nobody is there to be shown anything: end without a word, when all is kept."""
    os._exit(code)
