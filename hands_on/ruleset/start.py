"""The text that a new edition begins with: the template, or another edition's file under a new name."""

from __future__ import annotations

import re

from hands_on.toml_text.edit import with_text

__all__ = ["begun", "copied", "flaw_of_id"]

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")

RESERVED = ("common",)
"""What `builds_on` says of no edition."""


def flaw_of_id(name: str) -> str:
    """Why `name` can be no new edition's id, with what would be right; empty when it can."""
    if name in RESERVED:
        return f'"{name}" is a word of the format. Right: the breed and whose edition, for instance my-breed.'
    if not _ID.fullmatch(name):
        likely = re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-")
        right = likely if _ID.fullmatch(likely) else "my-breed"
        return (
            f'"{name}" is no id: it is made of small letters and digits (a to z, 0 to 9), with single '
            f"hyphens between. Right: for instance {right}."
        )
    return ""


def begun(template: str, name: str) -> str:
    """The template as the start of the edition `name`."""
    return with_text(with_text(template, "id", name), "title", f"{name}, a new edition")


def copied(text: str, name: str, *, origin: str, title: str) -> str:
    """The file of the edition `origin`, which is called `title`, as the start of the edition `name`."""
    head = (
        f"# Started as a copy of {origin}. The sources named below are that edition's: change them with the\n"
        "# figures, and take out what your edition does not say.\n#\n"
    )
    if "\r\n" in text:
        head = head.replace("\n", "\r\n")
    return head + with_text(with_text(text, "id", name), "title", f"{title} (copy: {name})")
