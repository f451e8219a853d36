"""The text of a standard from a file: plain text in whatever encoding it was saved."""

from __future__ import annotations

from pathlib import Path

from hands_on.store.text_file import read_bytes
from hands_on.toml_text.problems import BadText, Problem

__all__ = ["plain_text_of", "standard_text"]


def standard_text(path: Path) -> str:
    """The text of `path`. Raises BadText where there is none: no file, or a PDF itself."""
    return plain_text_of(read_bytes(path), str(path))


def plain_text_of(data: bytes, name: str) -> str:
    """Bytes as text: UTF-8, UTF-16 with its mark, or what Windows writes. Raises BadText for a PDF."""
    if data.startswith(b"%PDF"):
        what = "this is a PDF, not its text."
        raise BadText(
            [Problem(name, 1, "", what, "its text, as `pdftotext FILE` or copying all of it gives.")]
        )
    for marks, encoding in (
        ((b"\xff\xfe", b"\xfe\xff"), "utf-16"),
        ((b"",), "utf-8-sig"),
        ((b"",), "cp1252"),
    ):
        if data.startswith(marks):
            try:
                text = data.decode(encoding)
            except UnicodeDecodeError:
                continue
            break
    else:
        text = data.decode("latin-1")
    if text.count("\0") > len(text) // 100:
        raise BadText([Problem(name, 1, "", "this is no text.", "a plain text file.")])
    return text.replace("\0", " ")
