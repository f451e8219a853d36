"""How much of an uncertainty is the hand's, in words."""

from __future__ import annotations

from hands_on.evaluate.result import MeasureResult
from hands_on.measure.units import format_value

__all__ = ["hand_words"]


def hand_words(one: MeasureResult) -> str:
    """The own hand's figure where it is used, and the hand's share; empty for what was counted."""
    if not one.u or one.rests_on == "counted":
        return ""
    own = "" if one.own_tem is None else f"one take of it ± {format_value(one.own_tem, one.unit, 2)}; "
    share = f"{100 * one.hand_share:.0f} %"
    return f"{own}{share} of it (by squares) is the hand from take to take, the rest all its takes share"
