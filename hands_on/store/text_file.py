"""A file's text, or a Problem that says why there is none. Imports no pydantic."""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import NoReturn

from hands_on.store.errors import reason_of
from hands_on.toml_text.problems import BadText, Problem

LARGEST = 8 * 2**20
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
        if os.path.isdir(path) and not os.access(path, os.R_OK):
            _refuse(name, "you may not read this folder.", "a folder that may be read by you.")
        if os.path.isdir(path):  # what Windows says of any folder
            _refuse(name, "this is a folder, not a file.", "the name of a .toml file in it.")
        _refuse(name, "you may not read this file.", "a file that may be read by you.")
    except OSError as error:
        _refuse(name, f"the file can't be read: {reason_of(error, 'read')}.", "a file that can be read.")
    except BadText:
        raise
    except ValueError:  # an end of text, or half a character, in the name
        _refuse(name, "no file can have this name.", "a file that exists.")


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


def _refuse(file: str, what: str, right: str) -> NoReturn:
    raise BadText([Problem(file, None, "", what, right)])
