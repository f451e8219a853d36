"""Editions compared, and a session under another edition, as JSON documents."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from hands_on.compare.editions.rule_pair import Comparison
from hands_on.compare.editions.under_another import Change
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.another_edition import before_and_after, change_why
from hands_on.wording.labels import label_words
from hands_on.wording.two_editions import told

__all__ = ["change_document", "editions_document"]


def editions_document(found: Comparison) -> dict[str, Any]:
    """Two editions, as `hands-on rulesets ID --against ID --json` prints them."""
    return {
        "a": _head(found.a),
        "b": _head(found.b),
        "sections": [
            {
                "key": section.key,
                "title": section.title,
                "rows": [asdict(row) for row in section.rows],
                "same": section.same,
            }
            for section in told(found).sections
        ],
    }


def _head(ruleset: Ruleset) -> dict[str, str]:
    edition = ruleset.edition
    return {
        "id": edition.id,
        "title": edition.title,
        "breed": edition.breed,
        "edition": edition.edition,
        "digest": ruleset.digest,
    }


def change_document(change: Change) -> dict[str, Any]:
    """What another edition changes, as `hands-on assess --json` prints it under `changes`."""
    one = change.one
    before, after = before_and_after(change)
    before_class, after_class = change.classes
    return {
        "id": change.id,
        "kind": change.kind,
        "label": label_words(change.named),
        "before": before,
        "after": after,
        "why": change_why(change),
        "cause": change.cause,
        "before_class": before_class,
        "after_class": after_class,
        "before_verdict": _verdict(change.before),
        "after_verdict": _verdict(change.after),
        "side": one.side,
        "detail": one.detail if isinstance(one, Finding) else None,
        "source_before": change.before.source if change.before is not None else "",
        "source_after": change.after.source if change.after is not None else "",
    }


def _verdict(one: Finding | RuleResult | None) -> str | None:
    return one.verdict if isinstance(one, RuleResult) else None
