"""What a signature stands for: a digest over all that was signed."""

from __future__ import annotations

import hashlib
import json

from hands_on.exam.session import Session

__all__ = ["as_signed", "digest_of"]


def digest_of(session: Session) -> str:
    """`sha256:` and the SHA-256 (FIPS 180-4) of the session as canonical JSON.

    Signature and amendments do not count, nor does the file's layout; keys the program does not know do.
    """
    without = {"signature", "amendments"}
    rows = session.model_dump(mode="json", by_alias=True, exclude=without, exclude_defaults=True)
    canonical = json.dumps(rows, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return "sha256:" + hashlib.sha256(canonical.encode("utf-8", "replace")).hexdigest()


def as_signed(session: Session) -> bool | None:
    """Does a signed session still say what was signed? None where nothing was signed, or without digest."""
    signature = session.signature
    if signature is None or not signature.digest:
        return None
    return signature.digest == digest_of(session)
