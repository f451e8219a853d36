"""Copies that a synchronised folder makes where two machines changed one file.

Such a copy is a whole session and none of it may be lost, but it is no examination of its own. It is known by
its name (that of another file here, with a mark behind it) and by the same dog, evaluator and start in both.
"""

from __future__ import annotations

import re

__all__ = ["original_of"]

_MARKS = re.compile(
    r"""
    (?P<stem>.+?)
    (?:
        \s\([^()]*\bconflict[^()]*\)      # x (conflicted copy 2026-01-01)
      | [.\s_-](?:sync-)?conflict\b.*      # x.sync-conflict-20260101-101500-ABCDEFG
      | \s\(\d{1,3}\)                      # x (1)
      | \s-\sCopy(?:\s\(\d{1,3}\))?        # x - Copy (2)
    )
    \.toml
    """,
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)


def original_of(name: str) -> str | None:
    """The name of the file that a file of this name may be a copy of; None where the name tells of none."""
    found = _MARKS.fullmatch(name)
    return f"{found['stem']}.toml" if found else None
