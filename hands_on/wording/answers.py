"""What a session says at one point, in words. Pure, and unwrapped."""

from __future__ import annotations

from hands_on.compare.answer import AS_ASKED, Answer, Charted, Chosen, Departure, Graded, Stepped
from hands_on.measure.units import format_measured
from hands_on.ruleset.dentition import FULL, place_name
from hands_on.ruleset.points import ChoicePoint, ScalePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["answer_words"]

_TEETH_NAMED = 4
"""Teeth named one by one before the rest is only counted."""


def answer_words(answer: Answer, ruleset: Ruleset) -> str:
    """An answer as people say it; of a skipped point the reason, of an open one nothing."""
    said = answer.said
    if said is None:
        return answer.skipped_because
    if isinstance(said, Graded):
        return _graded(said, ruleset)
    if isinstance(said, Stepped):
        return _step(said, answer.point, ruleset)
    if isinstance(said, Chosen):
        return _chosen(said, answer.point, ruleset)
    if isinstance(said, Charted):
        return _chart(said)
    words = format_measured(answer.value or 0.0, answer.u or 0.0, answer.unit)
    each = ", ".join(f"{side or 'no side said'} {value:.4g}" for side, value in said.sides)
    return f"{words} ({each})" if each else words


def _graded(said: Graded, ruleset: Ruleset) -> str:
    words = [_departure(one, ruleset) for one in said.departures] or [AS_ASKED]
    words += [f"no {_within(ruleset, ruleset.label(fault))}" for fault in said.ruled_out]
    return "; ".join(words)


def _departure(one: Departure, ruleset: Ruleset) -> str:
    unsure = "unsure" if one.unsure else ""
    return ", ".join(filter(None, (_within(ruleset, ruleset.label(one.fault)), one.degree, one.side, unsure)))


def _within(ruleset: Ruleset, label: str) -> str:
    """A label within a sentence: its first letter small in English, unless it is one of several capitals."""
    return label if label[1:2].isupper() or ruleset.language != "en" else label[:1].lower() + label[1:]


def _step(said: Stepped, point: str, ruleset: Ruleset) -> str:
    if said.step is None:
        return AS_ASKED
    scale = ruleset.points.get(point)
    steps = scale.steps if isinstance(scale, ScalePoint) else ()
    label = next((step.label for step in steps if step.value == said.step), "no such step")
    return label if label.startswith(str(said.step)) else f"{said.step}: {label}"


def _chosen(said: Chosen, point: str, ruleset: Ruleset) -> str:
    known = ruleset.points.get(point)
    labels = {one.id: one.label for one in known.options} if isinstance(known, ChoicePoint) else {}
    words = []
    for side, options in said.options:
        told = "; ".join(_within(ruleset, labels.get(option, option)) for option in options)
        words.append(f"{side}: {told}" if side else told)
    return "; ".join(words)


def _chart(said: Charted) -> str:
    parts = []
    for state, teeth in said.teeth.items():
        named = [f"{tooth} {place_name(tooth)}" for tooth in teeth[:_TEETH_NAMED]]
        more = len(teeth) - _TEETH_NAMED
        named += [f"and {more} more"] if more > 0 else []
        parts.append(f"{state} {', '.join(named)}")
    return "; ".join(parts) or f"all {FULL} there and sound"
