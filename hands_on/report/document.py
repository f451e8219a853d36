"""A report as one JSON document; its schema stands beside this module and is printed by `report --schema`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from importlib import resources
from typing import Any

from hands_on.compare.examined import Examined
from hands_on.exam.session import Session
from hands_on.report.record import point_rows
from hands_on.wording.critique.sentence import Critique
from hands_on.wording.documents.evaluation import evaluation_document
from hands_on.wording.documents.session import session_document

__all__ = ["FORMAT", "report_document", "schema_text"]

FORMAT = 1
"""Rises when a key changes its meaning or goes; new keys may come at any time."""


def report_document(
    one: Examined, session: Session, critiques: Mapping[str, tuple[Critique, str]]
) -> dict[str, Any]:
    """Evaluation, session, what was recorded point by point, and the critiques by length.

    `session` is as it stands in its file, signature and amendments with it. Beside each draft stands the
    text the evaluator edited; empty where none is kept.
    """
    document = evaluation_document(one.evaluation) | session_document(session)
    return {
        "format": FORMAT,
        **document,
        "points": [asdict(row) for row in point_rows(one)],
        "critiques": {length: _critique(drafted, edited) for length, (drafted, edited) in critiques.items()},
        "sources": dict(one.ruleset.sources),
    }


def _critique(drafted: Critique, edited: str) -> dict[str, Any]:
    return {
        "language": drafted.language,
        "text": edited or drafted.text,
        "edited": bool(edited),
        "draft": [
            {"text": sentence.text, "answers": list(sentence.answers)}
            for paragraph in drafted.paragraphs
            for sentence in paragraph
        ],
    }


def schema_text() -> str:
    """The JSON Schema (draft 2020-12) of the document."""
    return (resources.files(__package__) / "report.schema.json").read_text(encoding="utf-8")
