"""A session's file with its edition, ready to be compared."""

from __future__ import annotations

from pathlib import Path

from hands_on.compare.examined import Examined, examined
from hands_on.store.library import Library
from hands_on.store.session_file import read_session

__all__ = ["examined_file"]


def examined_file(path: Path, library: Library) -> Examined:
    """The session in `path` under its own edition, named by its path.

    Raises BadText (session or edition), UnknownEdition.
    """
    session = read_session(path)
    return examined(library.load(session.ruleset.id), session, name=str(path))
