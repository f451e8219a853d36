"""A TOML file's text and tables, or a Problem that says why there are none. Imports no pydantic."""

from __future__ import annotations

import os
import stat
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NoReturn

from hands_on.store.errors import reason_of
from hands_on.toml_text.problems import BadText, Problem

LARGEST = 16 * 2**20
"""Bytes; a session or ruleset is a few dozen kilobytes, so what is larger is something else."""


def read_bytes(path: Path) -> bytes:
    """The file as it is. Raises BadText where there is no readable file of sensible size."""
    name = str(path)
    try:
        # Opened without waiting, so that a pipe without a writer can't hold the program up.
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with open(handle, "rb") as file:
            state = os.fstat(handle)
            if stat.S_ISDIR(state.st_mode):
                _refuse(name, "this is a folder, not a file.", "the name of a .toml file in it.")
            if not stat.S_ISREG(state.st_mode):
                _refuse(name, "this is not an ordinary file.", "a .toml file.")
            if state.st_size > LARGEST:
                size = f"{state.st_size / 2**20:.0f} MB"
                _refuse(name, f"the file has {size}; this is no session or ruleset.", "a .toml file.")
            return file.read()
    except FileNotFoundError:
        _refuse(name, "there is no such file.", "a file that exists.")
    except IsADirectoryError:
        _refuse(name, "this is a folder, not a file.", "the name of a .toml file in it.")
    except PermissionError:
        if path.is_dir():  # what Windows says of a folder
            _refuse(name, "this is a folder, not a file.", "the name of a .toml file in it.")
        _refuse(name, "you may not read this file.", "a file that may be read by you.")
    except OSError as error:
        _refuse(name, f"the file can't be read: {reason_of(error)}.", "a file that can be read.")


def decode(data: bytes, file: str) -> str:
    """The bytes as text; a byte order mark is dropped. Raises BadText with the line that is not UTF-8."""
    if not data.strip(b"\0 \t\r\n"):
        what = "the file holds nothing but zero bytes." if b"\0" in data else "the file is empty."
        _refuse(file, what, "its text from a backup; the program does not overwrite it.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        what = f"the text is not UTF-8: byte {data[error.start]:#04x} stands where none such can."
        raise BadText([Problem(file, line, "", what, "the file saved as UTF-8 in your editor.")]) from error


def parse(text: str, file: str) -> dict[str, Any]:
    """The text's tables. Raises BadText with the line where it stops being TOML."""
    with explained(file):
        try:
            return tomllib.loads(text)
        except tomllib.TOMLDecodeError:
            # Only broken text pays for importing the part that explains it.
            from hands_on.toml_text.parse import parse_tables

            return parse_tables(text, file)


@contextmanager
def explained(file: str) -> Iterator[None]:
    """Turn what a parser lets slip on freakish text (endless nesting, endless digits) into BadText."""
    try:
        yield
    except BadText:
        raise
    except RecursionError as error:
        what = "brackets are nested too deeply to be read."
        raise BadText([Problem(file, None, "", what, "lists and tables a few levels deep.")]) from error
    except ValueError as error:
        what = f"a value can't be read: {error}."
        raise BadText([Problem(file, None, "", what, "a usual value.")]) from error


def newer_format(tables: dict[str, Any], known: int, text: str, file: str) -> Problem | None:
    """The Problem of a file that a newer program wrote."""
    written = tables.get("format")
    if not isinstance(written, int) or isinstance(written, bool) or written <= known:
        return None
    from hands_on.toml_text.lines import key_lines, line_of

    what = f"the file is of format {written}; this program reads format {known} and leaves it as it is."
    line = line_of(key_lines(text), ("format",))
    return Problem(file, line, "format", what, "a newer Hands On to open it with.")


def _refuse(file: str, what: str, right: str) -> NoReturn:
    raise BadText([Problem(file, None, "", what, right)])
