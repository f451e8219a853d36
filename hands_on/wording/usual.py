"""What is right at a point of which the edition says nothing: what 0 gives there, and who says so."""

from __future__ import annotations

from hands_on.frozen import dataclass
from hands_on.ruleset.points import ChoicePoint, Point, ScalePoint, TeethPoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Usual", "usually_right"]


@dataclass(frozen=True)
class Usual:
    """In words, with the keys of the sources."""

    text: str
    keys: tuple[str, ...]


def usually_right(ruleset: Ruleset, point: Point) -> Usual | None:
    """What 0 gives at a scale, a choice or the tooth chart; None where no single answer is asked for."""
    if isinstance(point, ScalePoint) and point.right_steps:
        steps = " or ".join(map(str, point.right_steps))
        return _usual(ruleset, point, f"{steps} on the scale of {len(point.steps)}")
    if isinstance(point, TeethPoint):
        teeth = ruleset.edition.teeth
        if teeth is not None and teeth.text:
            return Usual(teeth.text.rstrip("."), teeth.source)
        return _usual(ruleset, point, "all 42 teeth")
    if isinstance(point, ChoicePoint) and point.as_asked:
        label = next(option.label for option in point.options if option.id == point.as_asked)
        return _usual(ruleset, point, label)
    return None


def _usual(ruleset: Ruleset, point: Point, text: str) -> Usual:
    own = not ruleset.edition.sources.keys().isdisjoint(point.source)
    return Usual(text if own else f"{text}; this edition says no more", point.source)
