"""Pictures in a terminal that can show them: found out before the screens open, and only where that is safe.

The terminal is asked what it is (primary device attributes, DEC VT340; XTerm Control Sequences, "Send Device
Attributes"): a 4 in its answer means Sixel graphics. Nothing is asked, and nothing sent, where the extra
`pictures` is not installed, where the name of the terminal tells that it only passes on what it is sent, or
where HANDS_ON_PICTURES says `off`. Everywhere else the dog is drawn in characters (`tui.drawing`).
"""

from __future__ import annotations

import importlib.util
import io
import os
import re
import select
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["Answer", "Easel", "Found", "LateAnswer", "Way", "answered", "cell_size", "find_easel", "wanted"]

Way = Literal["sixel", "kitty"]

QUESTION = "\x1b[c"
_ANSWER = re.compile(r"\x1b\[\?([0-9;]*)c")
SIXEL = "4"

PATIENCE = 0.25
"""Seconds to wait for the terminal to say what it is; every terminal of today answers at once."""

SETTING = "HANDS_ON_PICTURES"

_NO_ANSWER = re.compile(r"(linux|dumb|vt100|vt102|vt220|ansi|cons25|screen|tmux|unknown)\b|$")
"""Terminals that show no pictures, or pass on to another terminal what they are sent."""


def wanted(environment: dict[str, str]) -> Way | Literal["ask", "no"]:
    """What the user's surroundings say: a way named, `ask` the terminal, or `no`."""
    setting = environment.get(SETTING, "").strip().lower()
    if setting in ("sixel", "kitty"):
        return setting  # type: ignore[return-value]
    if (
        setting not in ("", "auto")
        or _NO_ANSWER.match(environment.get("TERM", ""))
        or environment.get("TMUX")
    ):
        return "no"
    return "ask"


@dataclass(frozen=True)
class Answer:
    """What a terminal said to the question, with what else came in."""

    sixel: bool = False
    typed: str = ""
    """Letters pressed meanwhile; keys that send more than a letter are lost."""
    due: Literal["", "whole", "rest"] = ""
    """What of the answer had not come yet."""


def answered(came: str) -> Answer:
    """Take the answer out of what came in."""
    found = _ANSWER.search(came)
    before, after = (came[: found.start()], came[found.end() :]) if found else (came, "")
    typed = before.split("\x1b")[0] + after.split("\x1b")[0]
    if found is None:
        return Answer(typed=typed, due="rest" if "\x1b" in came else "whole")
    return Answer(SIXEL in found[1].split(";")[1:], typed)


@dataclass(frozen=True)
class Easel:
    """How pictures are shown here, and how large a cell is in pixels."""

    way: Way
    cell: tuple[int, int]

    def widget(self) -> Any:
        """An empty picture: a widget with an `image` to set."""
        if self.way == "kitty":
            from textual_image.widget import TGPImage

            return TGPImage()
        from hands_on.tui.sixel_picture import SixelPicture

        return SixelPicture()

    def resized(self, cell: tuple[int, int]) -> Easel:
        """The same with cells of another size, told to the library too."""
        from textual_image import _terminal

        _terminal.get_cell_size._result = _terminal.CellSize(*cell)  # type: ignore[attr-defined]
        return Easel(self.way, cell)


@dataclass(frozen=True)
class Found:
    """What was found out of the terminal before the screens open."""

    easel: Easel | None = None
    """How it shows pictures; None where it shows none."""
    answer: Answer = Answer()


def find_easel() -> Found:
    """Find out how this terminal shows pictures.

    To be called before the screens open: they take all that comes in for keys.
    """
    way = wanted(dict(os.environ))
    if way == "no" or importlib.util.find_spec("textual_image") is None:
        return Found()
    answer = answered(_ask()) if way == "ask" else Answer()
    cell = cell_size()
    if cell is None or (way == "ask" and not answer.sixel):
        return Found(answer=answer)
    with _unasked(cell):
        import textual_image.widget  # noqa: F401
    return Found(Easel("sixel" if way == "ask" else way, cell), answer)


class LateAnswer:
    """Takes an answer that comes too late out of the keys: after a bracket signs and figures up to a c."""

    def __init__(self, due: Literal["", "whole", "rest"]) -> None:
        self._awaited, self._within = bool(due), due == "rest"

    def takes(self, letter: str | None) -> bool:
        """Is this key a part of the answer?"""
        if not self._awaited:
            return False
        if not self._within:
            self._within = letter == "["
            return self._within
        if letter and letter in "[?;0123456789":
            return True
        self._within = False
        if letter == "c":
            self._awaited = False
            return True
        return False


def cell_size() -> tuple[int, int] | None:
    """Width and height of a cell in pixels, as the terminal's own size tells; None where it does not."""
    try:
        import fcntl
        import struct
        import termios

        said = fcntl.ioctl(sys.__stdin__.fileno(), termios.TIOCGWINSZ, bytes(8))  # type: ignore[union-attr]
    except (ImportError, OSError, ValueError, AttributeError):
        return None
    rows, columns, wide, high = struct.unpack("HHHH", said)
    if not (rows and columns and wide >= 2 * columns and high >= 2 * rows):
        return None
    return wide // columns, high // rows


def _ask() -> str:
    """Ask the terminal what it is; all that came in until it had answered, or for as long as we wait."""
    try:
        import termios
        import tty

        into, out = sys.__stdin__.fileno(), sys.__stderr__.fileno()  # type: ignore[union-attr]
        before = termios.tcgetattr(into)
    except (ImportError, OSError, ValueError, AttributeError):
        return ""
    came = b""
    try:
        tty.setcbreak(into, termios.TCSANOW)
        os.write(out, QUESTION.encode("ascii"))
        until = time.monotonic() + PATIENCE
        while not _ANSWER.search(came.decode("utf-8", "replace")):
            left = until - time.monotonic()
            if left <= 0 or not select.select([into], [], [], left)[0]:
                break
            part = os.read(into, 1024)
            if not part:
                break
            came += part
    except OSError:
        pass
    finally:
        termios.tcsetattr(into, termios.TCSANOW, before)
    return came.decode("utf-8", "replace")


@contextmanager
def _unasked(cell: tuple[int, int]) -> Iterator[None]:
    """While textual-image is imported: it asks terminals on its own, and swallows keys that come first.

    Where output is none it asks nothing, and takes the size of a cell from the environment.
    """
    names = {"TEXTUAL_CELL_WIDTH": str(cell[0]), "TEXTUAL_CELL_HEIGHT": str(cell[1])}
    before = {name: os.environ.get(name) for name in names}
    stream, sys.__stdout__ = sys.__stdout__, io.StringIO()  # type: ignore[misc, assignment]
    os.environ.update(names)
    try:
        yield
    finally:
        sys.__stdout__ = stream  # type: ignore[misc]
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
