"""Why no better outcome is left open, in words."""

from __future__ import annotations

from hands_on.evaluate.result import Evaluation
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.labels import label_words

__all__ = ["outcome_label", "outcome_reasons"]


def outcome_label(ruleset: Ruleset, outcome: str) -> str:
    """An outcome in words, as typed where the edition has none of that name."""
    return next((one.label for one in ruleset.edition.outcomes if one.id == outcome), outcome)


def outcome_reasons(evaluation: Evaluation) -> tuple[str, ...]:
    """One phrase for each thing that bears on the best outcome left, with the source of a cap."""
    ruleset = evaluation.classes.ruleset
    labels = {outcome.id: outcome.label for outcome in evaluation.circumstances.outcomes()}
    said = []
    for reason in evaluation.outcome_reasons:
        cap, names = reason.cap, ", ".join(map(label_words, reason.names))
        if cap is None:
            said.append("the age is not known: the grades of every age are left open")
            continue
        label = labels[cap.at_most]
        if reason.kind == "degree-not-said":
            said.append(f"{names}: no degree to go by; from {cap.from_degree} up {label.lower()} at most")
            continue
        beside = "practice beside the standard, not applied: " if reason.kind == "practice" else ""
        said.append(f"{beside}{label} at most: {names} ({ruleset.source_text(cap.source)})")
    return tuple(said)
