"""The common files as they were read and found sound, kept in the cache under a digest of their texts.

Reading them again is a third of the time a command takes. What is kept is JSON and passes the model again; it
is looked at only where every byte of every file is the same. It can be thrown away at any
time.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from hands_on.ruleset.files import CommonFile
from hands_on.store.atomic import write_atomic
from hands_on.store.places import close_own_folders, user_cache
from hands_on.store.private import make_folder

__all__ = ["keep", "kept"]

Texts = Sequence[tuple[str, bytes]]
"""Names and bytes of the files, in order."""


def kept(texts: Texts) -> list[CommonFile] | None:
    """The files as they were kept; None where others were, nothing is, or it can't be read."""
    try:
        lines = _place().read_text(encoding="utf-8").splitlines()
        if not lines or lines[0] != _digest(texts) or len(lines) != len(texts) + 1:
            return None
        return [CommonFile.model_validate_json(line) for line in lines[1:]]
    except (OSError, ValueError, RecursionError):
        return None


def keep(texts: Texts, files: Sequence[CommonFile]) -> None:
    """Keep them; where that can't be done nothing is lost but time."""
    dumped = [file.model_dump(mode="json", by_alias=True, exclude_unset=True) for file in files]
    lines = [json.dumps(one, ensure_ascii=True, separators=(",", ":")) for one in dumped]
    if [CommonFile.model_validate_json(line) for line in lines] != list(files):
        return
    with suppress(OSError, ValueError):
        make_folder(_place().parent)
        close_own_folders()
        write_atomic(_place(), "\n".join([_digest(texts), *lines]) + "\n")


def _place() -> Path:
    return user_cache() / "common-parts.jsonl"


def _digest(texts: Texts) -> str:
    found = hashlib.sha256(f"{sorted(CommonFile.model_fields)}".encode())
    for name, data in texts:
        found.update(f"\0{name}\0{len(data)}\0".encode("utf-8", "replace"))
        found.update(data)
    return found.hexdigest()
