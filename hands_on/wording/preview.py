"""The dogs made up for a preview of an edition, in words."""

from __future__ import annotations

from hands_on.evaluate.samples import Sample
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.rules import class_name

__all__ = ["sample_text"]


def sample_text(ruleset: Ruleset, one: Sample) -> str:
    """`inside: 58.5 cm: inside`, with the class of the departure where there is one."""
    unit = f" {one.limit.unit}" if one.limit.unit else ""
    told = f"{one.where}: {one.value:.4g}{unit} gives {one.verdict}"
    told += f", {one.band}" if one.band else ""
    cls = class_name(ruleset, one.cls) if one.cls else ""
    if one.where == "at":
        told += f" ({cls} if outside)" if cls and one.verdict == "undecided" else f", {cls}" if cls else ""
        return f"{told}; the figure itself is {'still free' if one.belongs else 'outside already'}"
    told += f", {cls}" if cls else ""
    if one.verdict == "undecided" and not one.band:
        return f"{told}: the measure cannot tell it for certain"
    return told
