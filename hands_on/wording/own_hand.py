"""How much of an uncertainty is the hand's, in words."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.evaluate.result import MeasureResult
from hands_on.measure.units import format_value

__all__ = ["hand_words", "whose_hand"]


def whose_hand(evaluator: str, results: Sequence[MeasureResult]) -> str:
    """Whether the uncertainties are by the evaluator's own hand or general figures; empty without any."""
    taken = [one for one in results if one.rests_on != "counted"]
    if not taken:
        return ""
    own = sum(one.rests_on == "own hand" for one in taken)
    if own:
        rest = len(taken) - own
        return f"By an own hand: {own} of {len(taken)}" + (", the others by general figures" if rest else "")
    if not evaluator.strip():
        return "By general figures: nobody is named as evaluator, and a hand is known by its name"
    return f"By general figures: none of the hand of {evaluator.strip()} is used"


def hand_words(one: MeasureResult) -> str:
    """The own hand's figure where it is used, and the hand's share; empty for what was counted."""
    if not one.u or one.rests_on == "counted":
        return ""
    own = "" if one.own_tem is None else f"one take of it ± {format_value(one.own_tem, one.unit, 2)}; "
    share = f"{100 * one.hand_share:.0f} %"
    return f"{own}{share} of it (by squares) is the hand from take to take, the rest all its takes share"
