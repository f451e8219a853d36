"""What a session holds beside its answers, as JSON: who, where, in whose words, decided and signed how."""

from __future__ import annotations

from typing import Any

from hands_on.exam.answers import amended
from hands_on.exam.session import Session
from hands_on.exam.signing import as_signed

__all__ = ["session_document"]


def session_document(session: Session) -> dict[str, Any]:
    """Dog, examination, notes, summary, outcome given, decisions, signature and its state, amendments.

    `unchanged` of the signature: does the session still say what was signed? null without a digest.
    """
    now = amended(session)
    signature = session.signature
    return {
        "dog": now.dog.model_dump(mode="json", exclude_defaults=True),
        "examination": now.examination.model_dump(mode="json", exclude_defaults=True),
        "held_under": session.ruleset.id,
        "notes": [note.model_dump(mode="json", exclude_defaults=True) for note in now.notes],
        "summary": now.summary.text,
        "outcome": now.summary.outcome or None,
        "decisions": [
            one.model_dump(mode="json", by_alias=True, exclude_defaults=True) for one in now.decisions
        ],
        "signature": None
        if signature is None
        else {
            "name": signature.name,
            "at": signature.at.isoformat(),
            "digest": signature.digest,
            "unchanged": as_signed(session),
        },
        "amendments": [
            one.model_dump(mode="json", by_alias=True, exclude_defaults=True) for one in session.amendments
        ],
    }
