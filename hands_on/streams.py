"""Standard input, output and error such as every command can rely on, whatever they were when it began.

What is printed is shown and never obeyed: control characters in a name, a path or a note become visible
signs here, for all commands at once. A sign that the terminal's character set lacks is written in plain
letters. An output that is closed or full ends the command with one sentence.
"""

from __future__ import annotations

import codecs
import io
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout, suppress
from typing import Any, TextIO, cast

from hands_on.plain_text import visible

_PLAIN = {
    "±": "+/-", "×": "x", "–": "-", "—": "-", "…": "...", "≥": ">=", "≤": "<=", "→": "->", "←": "<-",
    "·": "-", "•": "-", "°": " deg", "’": "'", "‘": "'", "“": '"', "”": '"', "²": "^2", "½": "1/2",
    "¼": "1/4", "¾": "3/4", "κ": "kappa", "α": "alpha",
}  # fmt: skip
"""How the program's own signs are written where the character set has none."""

_ERRORS = "hands-on-plain"


class OutputFailed(Exception):
    """Standard output does not take what is printed; `str()` says why."""


class Shown(io.TextIOBase):
    """A stream that shows what is written to it; line breaks and tabs alone are obeyed."""

    def __init__(self, stream: TextIO, *, needed: bool) -> None:
        """`needed`: a stream that takes nothing any more ends the command with OutputFailed."""
        self._stream, self._needed = stream, needed

    def write(self, text: str) -> int:
        """Write the text. Raises OutputFailed, BrokenPipeError."""
        with self._told():
            self._stream.write(visible(text, keep="\n\t"))
        return len(text)

    def flush(self) -> None:
        """Hand over what was written. Raises OutputFailed, BrokenPipeError."""
        with self._told():
            self._stream.flush()

    def isatty(self) -> bool:
        """Is it a terminal?"""
        return self._stream.isatty()

    def fileno(self) -> int:
        """The system's number of the stream."""
        return self._stream.fileno()

    def __getattribute__(self, name: str) -> Any:
        # What the base class only has a placeholder for.
        if name in ("encoding", "errors", "buffer"):
            return getattr(object.__getattribute__(self, "_stream"), name)
        return super().__getattribute__(name)

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except BrokenPipeError:
            raise
        except (OSError, ValueError) as error:
            if self._needed:
                from hands_on.store.errors import reason_of

                why = reason_of(error) if isinstance(error, OSError) else "it is closed"
                raise OutputFailed(f"the output can't be written: {why}.") from error


@contextmanager
def standard_streams() -> Iterator[None]:
    """Within, the standard streams are there, take every text, and show it.

    Raises OutputFailed at the end too, where what was printed could not be handed over.
    """
    _open_closed()
    codecs.register_error(_ERRORS, _in_plain_signs)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=_ERRORS)
    out, told = Shown(sys.stdout, needed=True), Shown(sys.stderr, needed=False)
    with redirect_stdout(cast(TextIO, out)), redirect_stderr(cast(TextIO, told)):
        try:
            yield
        finally:
            out.flush()


def give_up_output() -> None:
    """Nobody takes the output any more: what is left of it goes nowhere, without noise at the end."""
    with suppress(OSError, ValueError):
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, sys.stdout.fileno())
        os.close(null)


def takes_unicode(stream: TextIO) -> bool:
    """Can every character be written to the stream as it is?"""
    return (getattr(stream, "encoding", None) or "utf-8").lower().replace("-", "").startswith("utf")


def _open_closed() -> None:
    """A stream that was closed is opened on nothing, so that no file of ours gets its number."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            with suppress(OSError):
                os.open(os.devnull, os.O_RDWR)
    for name, number, mode in (("stdin", 0, "r"), ("stdout", 1, "w"), ("stderr", 2, "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(number, mode, encoding="utf-8", closefd=False))  # noqa: SIM115


def _in_plain_signs(error: UnicodeError) -> tuple[str, int]:
    """What a character set lacks, in plain letters where we know some, else as `\\\\u20ac`."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    missing = error.object[error.start : error.end]
    plain = (_PLAIN.get(char) or char.encode("ascii", "backslashreplace").decode() for char in missing)
    return "".join(plain), error.end
