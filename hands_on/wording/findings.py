"""Findings of one dog, in words."""

from __future__ import annotations

from hands_on.evaluate.result import Evaluation, Finding
from hands_on.wording.rules import rule_sentence

__all__ = ["measured_words"]


def measured_words(evaluation: Evaluation, finding: Finding) -> str:
    """What was measured, limit by limit; empty for what was seen."""
    return "; ".join(dict.fromkeys(rule_sentence(evaluation, rule) for rule in finding.rules))
