"""One point over age as large as there is room: axes with their words, what is asked for, a bar of ± u."""

from __future__ import annotations

from itertools import pairwise

from hands_on.compare.answer import scale_of
from hands_on.compare.dogs.history import Thread
from hands_on.measure.units import format_value
from hands_on.ruleset.base import DEGREES
from hands_on.tui.dots import Dots
from hands_on.tui.drawing import no_blocks
from hands_on.wording.ages import age_text
from hands_on.wording.asked_beside import asked_of

__all__ = ["away", "large_plot", "scale_ends"]

_LEFT = 12
"""Cells for the words of the upright axis."""


def _two_sided(thread: Thread) -> bool:
    values = [value for _, value, _ in thread.drawn]
    return min(values, default=0.0) < 0 < max(values, default=0.0)


def away(thread: Thread, value: float) -> float:
    """Where a value is drawn: a departure always upwards from as asked, unless it went both ways."""
    if thread.kind != "grade" or _two_sided(thread):
        return value
    return abs(value)


def scale_ends(thread: Thread) -> tuple[float, float]:
    """Lowest and highest place of a graded point or a scale, always all of it, so that plots are alike."""
    if thread.kind == "grade":
        return (-float(len(DEGREES)) if _two_sided(thread) else 0.0), float(len(DEGREES))
    point = thread.moments[-1].session.ruleset.points.get(thread.point)
    places = scale_of(point) if point is not None else None
    values = [value for _, value, _ in thread.drawn]
    every = [float(place) for place in places or ()] + values
    return min(every), max(every)


def large_plot(thread: Thread, width: int, height: int) -> list[str]:
    """The plot in `width` x `height` cells; nothing where fewer than two values can be drawn."""
    drawn = thread.drawn
    if len(drawn) < 2 or width < _LEFT + 20 or height < 6:
        return []
    asked = asked_of(thread.moments[-1].session, thread.point, thread.unit) if thread.unit else None
    ends = [end for end in (asked.low, asked.high) if end is not None] if asked is not None else []
    if thread.kind == "measure":
        low = min([value - u for _, value, u in drawn] + ends)
        high = max([value + u for _, value, u in drawn] + ends)
        margin = (high - low) * 0.05 or 1.0
        low, high = low - margin, high + margin
    else:
        low, high = scale_ends(thread)
    dots = Dots(width, height, letters=no_blocks())
    rows, first, last = height - 2, drawn[0][0], drawn[-1][0]
    span, years, room = (high - low) or 1.0, (last - first) or 1.0, width - _LEFT - 3

    def across(age: float) -> float:
        return _LEFT + 1 + (age - first) / years * room

    def down(value: float) -> float:
        return (high - value) / span * (rows - 1) + 0.3

    for row in range(rows):
        dots.text(_LEFT, row, "|" if no_blocks() else "│")
    for value, words in _ticks(thread, low, high):
        dots.text(0, min(rows - 1, int(down(value))), words[: _LEFT - 1].rjust(_LEFT - 1))
    for end, words in zip(ends, _named_ends(thread, ends), strict=True):
        dots.line(((_LEFT + 1, down(end)), (width - 1, down(end))), "fine", "dotted")
        dots.text(width - len(words), max(0, int(down(end)) - 1), words)
    for (age, value, _), (after, later, _) in pairwise(drawn):
        here, there = (across(age), down(away(thread, value))), (across(after), down(away(thread, later)))
        dots.line((here, there), "fine", "dotted")
    for age, value, u in drawn:
        at = down(away(thread, value))
        ends_at = (down(value + u), down(value - u)) if u else (at, at)
        dots.line([(across(age), end) for end in ends_at], "fine")
        dots.dot(across(age), at, "heavy")
    dots.text(
        _LEFT, rows, ("+" if no_blocks() else "└") + ("-" if no_blocks() else "─") * (width - _LEFT - 1)
    )
    taken = -1
    for age, _, _ in drawn:
        words = age_text(age)
        at = max(0, min(round(across(age)) - len(words) // 2, width - len(words)))
        if at > taken:
            dots.text(at, rows + 1, words)
            taken = at + len(words) + 1
    return dots.rows()


def _named_ends(thread: Thread, ends: list[float]) -> list[str]:
    return [f"asked {format_value(end, thread.unit)}" for end in ends]


def _ticks(thread: Thread, low: float, high: float) -> list[tuple[float, str]]:
    """Values on the upright axis, in words."""
    if thread.kind == "measure":
        # The outer two are the lowest and highest drawn: the margins are a twentieth of what lies between.
        steps = [low + (high - low) * share for share in (1 / 22, 0.5, 21 / 22)]
        return [
            (value, format_value(value, thread.unit, 2 if thread.unit == "share" else 1)) for value in steps
        ]
    if thread.kind != "grade":
        return [(float(step), f"{step:g}") for step in range(int(low), int(high) + 1)]
    up = [(float(n), degree) for n, degree in enumerate(DEGREES, 1)]
    if low < 0:
        both = [(-n, f"{degree} -") for n, degree in up] + [(n, f"{degree} +") for n, degree in up]
        return [(0.0, "as asked"), *both]
    return [(0.0, "as asked"), *up]
