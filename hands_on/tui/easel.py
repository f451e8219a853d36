"""Pictures in a terminal that can show them: found out once the screens stand, and only where that is safe.

The terminal is asked what it is (primary device attributes, DEC VT340; XTerm Control Sequences, "Send Device
Attributes"): a 4 in its answer means Sixel graphics. Nothing is asked, and nothing sent, where the extra
`pictures` is not installed, where the name of the terminal tells that it only passes on what it is sent, or
where HANDS_ON_PICTURES says `off`. Everywhere else the dog is drawn in characters (`tui.drawing`). Nobody
waits for the answer: Textual hands it on as keys, from which it is taken.
"""

from __future__ import annotations

import io
import os
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["QUESTION", "Answer", "Easel", "Way", "cell_size", "easel_of", "installed", "wanted"]

Way = Literal["sixel", "kitty"]

QUESTION = "\x1b[c"
SIXEL = "4"

PATIENCE = 3.0
"""Seconds after which what looks like an answer is taken for keys again."""

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


def installed() -> bool:
    """Is the extra `pictures` there?"""
    from importlib.util import find_spec

    return find_spec("textual_image") is not None


class Answer:
    """Takes the terminal's answer out of the keys: after a bracket signs and figures, up to a c."""

    def __init__(self) -> None:
        self._due, self._came = True, ""
        self.sixel = False
        """Whether it spoke of Sixel graphics."""

    def too_late(self) -> None:
        """No answer is waited for any longer."""
        self._due = False

    def takes(self, letter: str | None) -> bool:
        """Is this key a part of the answer? Textual may put a caret in the place of the escape."""
        if not self._due or not letter:
            return False
        if letter in ("^[" if not self._came else "[?;0123456789"):
            self._came += letter
            return True
        whole = re.fullmatch(r"\^?\[\?([0-9;]*)", self._came)
        self._came = ""
        if whole is None or letter != "c":
            return False
        self._due, self.sixel = False, SIXEL in whole[1].split(";")[1:]
        return True


@dataclass(frozen=True)
class Easel:
    """How pictures are shown here, and how large a cell is in pixels."""

    way: Way
    cell: tuple[int, int]

    def widget(self) -> Any:
        """An empty picture: a widget with an `image` to set."""
        if "textual_image" not in sys.modules:
            with _unasked(self.cell):
                import textual_image.widget  # noqa: F401
        if self.way == "kitty":
            from textual_image.widget import TGPImage

            return TGPImage()
        from hands_on.tui.sixel_picture import SixelPicture

        return SixelPicture()

    def fitted(self) -> Easel:
        """The same for cells as large as they are now; the library is told too."""
        cell = cell_size()
        if cell in (None, self.cell):
            return self
        if "textual_image" in sys.modules:
            from textual_image import _terminal

            _terminal.get_cell_size._result = _terminal.CellSize(*cell)  # type: ignore[attr-defined]
        return Easel(self.way, cell)


def easel_of(way: Way) -> Easel | None:
    """Pictures shown that way; None where the terminal does not tell how large its cells are."""
    cell = cell_size()
    return None if cell is None else Easel(way, cell)


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
