"""What is known about a value and its limits, in one short sentence for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hands_on.measure.units import format_measured

if TYPE_CHECKING:
    from hands_on.measure.conformity import Band

__all__ = ["more_takes_text", "percent", "told"]

_SIDE_TEXT = {"inside": "likelier within", "below": "likelier below", "above": "likelier above"}


def percent(p: float) -> str:
    """A probability for people: ``66 %``, ``0.4 %``, ``under 0.1 %``, ``over 99.9 %``."""
    if p <= 0.0 or p >= 1.0:
        return f"{p:.0%}".replace("%", " %")
    if p < 0.001:
        return "under 0.1 %"
    if p > 0.999:
        return "over 99.9 %"
    digits = 1 if p < 0.0995 or p > 0.9 else 0
    return f"{100 * p:.{digits}f} %"


def more_takes_text(more: int | None, reason: str) -> str:
    """Whether more takes by the same hand would settle it; empty where nothing is known of that."""
    if more is not None:
        return f"{more} more take{'s' if more > 1 else ''} would probably settle it"
    return "more takes would not settle it" if reason else ""


def told(
    value: float,
    u: float,
    limits: Band,
    outcome: str,
    p_sides: dict[str, float],
    *,
    hopeless: bool,
    takes: str,
    unit: str,
    asked: str,
) -> str:
    """Value, limits, outcome and how sure it is: ``71.5 ± 0.5 cm, asked 63 to 70: outside, 0.3 % ...``.

    ``p_sides`` gives the probability of ``inside``, ``below`` and ``above``; ``takes`` is what
    `more_takes_text` gives; ``hopeless`` that the band is too narrow for this hand, however often it tries;
    ``asked`` is the word before the limits, which are printed without the unit of the value.
    """
    head = f"{format_measured(value, u, unit)}, {asked} {limits.text()}: "
    if u == 0:
        return head + outcome
    within = percent(p_sides["inside"])
    if outcome == "inside":
        return f"{head}inside, {within} sure"
    if outcome == "outside":
        return f"{head}outside, {within} that it is within"
    if hopeless:
        side = max(p_sides, key=lambda name: p_sides[name])
        # Dead in the middle of a very narrow band every side is unlikely: then the figure alone is told.
        by_figure = p_sides[side] < 0.5 and limits.holds(value)
        likelier = "by the figure within" if by_figure else _SIDE_TEXT[side]
        chance = within if by_figure else percent(p_sides[side])
        return f"{head}no hand can tell a band this narrow; {likelier} ({chance})"
    return "; ".join(filter(None, (f"{head}undecided, {within} that it is within", takes)))
