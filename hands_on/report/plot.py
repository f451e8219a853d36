"""One point over age as SVG: values with their uncertainty, and the band the edition asks for."""

from __future__ import annotations

import math
from xml.sax.saxutils import escape

from hands_on.compare.dogs.history import Thread
from hands_on.measure.units import format_measured
from hands_on.plain_text import one_line
from hands_on.wording.ages import age_text
from hands_on.wording.rules import asked_band

__all__ = ["age_plot", "plot_words"]

_WIDTH, _HEIGHT = 520, 190
_LEFT, _RIGHT, _TOP, _BOTTOM = 64, 16, 14, 40


def age_plot(thread: Thread) -> str:
    """The plot, with title and description for readers that speak; empty with fewer than two values."""
    drawn = thread.drawn
    if thread.kind != "measure" or len(drawn) < 2:
        return ""
    band = asked_band(thread.moments[-1].session.evaluation, thread.point)
    ends = [edge for edge in band if edge is not None] if band is not None else []
    low = min([value - 2 * u for _, value, u in drawn] + ends)
    high = max([value + 2 * u for _, value, u in drawn] + ends)
    pad = 0.06 * (high - low) or 1.0
    low, high = low - pad, high + pad
    first, last = drawn[0][0], drawn[-1][0]
    span = (last - first) or 1.0

    def across(age: float) -> float:
        return _LEFT + 12 + (age - first) / span * (_WIDTH - _LEFT - _RIGHT - 24)

    def down(value: float) -> float:
        return _TOP + (high - value) / (high - low) * (_HEIGHT - _TOP - _BOTTOM)

    body: list[str] = []
    if band is not None:
        top = down(min(high, band[1] if band[1] is not None else high))
        bottom = down(max(low, band[0] if band[0] is not None else low))
        body.append(
            f'<rect x="{_LEFT}" y="{top:.1f}" width="{_WIDTH - _LEFT - _RIGHT}" '
            f'height="{max(0.0, bottom - top):.1f}" fill="#dfe9f2" stroke="#5b7fa3" stroke-dasharray="4 3"/>'
        )
    floor = _HEIGHT - _BOTTOM
    body.append(f'<path d="M{_LEFT} {_TOP}V{floor}H{_WIDTH - _RIGHT}" fill="none" stroke="#444"/>')
    for tick in _ticks(low, high):
        y = down(tick)
        body.append(f'<path d="M{_LEFT - 4} {y:.1f}H{_LEFT}" stroke="#444"/>')
        body.append(f'<text x="{_LEFT - 8}" y="{y + 4:.1f}" text-anchor="end">{tick:g}</text>')
    line = " ".join(f"{across(age):.1f},{down(value):.1f}" for age, value, _ in drawn)
    body.append(f'<polyline points="{line}" fill="none" stroke="#1a1a1a"/>')
    place = -math.inf
    for age, value, u in drawn:
        x = across(age)
        body.append(
            f'<path d="M{x:.1f} {down(value - u):.1f}V{down(value + u):.1f}" '
            'stroke="#1a1a1a" stroke-width="2"/>'
        )
        body.append(f'<circle cx="{x:.1f}" cy="{down(value):.1f}" r="3.5" fill="#1a1a1a"/>')
        if x - place > 70:
            body.append(
                f'<text x="{x:.1f}" y="{floor + 16}" text-anchor="middle">{escape(age_text(age))}</text>'
            )
            place = x
    unit = f" ({thread.unit})" if thread.unit not in ("", "share") else ""
    body.append(
        f'<text x="{_LEFT}" y="{_HEIGHT - 4}">{escape(one_line(thread.label))}{escape(unit)} over age</text>'
    )
    key = escape(thread.point.replace(".", "-"))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="pt-{key} pd-{key}" '
        f'viewBox="0 0 {_WIDTH} {_HEIGHT}" width="{_WIDTH}" height="{_HEIGHT}" font-family="sans-serif" '
        f'font-size="12" fill="#222"><title id="pt-{key}">{escape(one_line(thread.label))} over age</title>'
        f'<desc id="pd-{key}">{escape(plot_words(thread))}</desc>{"".join(body)}</svg>'
    )


def plot_words(thread: Thread) -> str:
    """The same in words."""
    told = "; ".join(
        f"{age_text(age)}: {format_measured(value, u, thread.unit)}" for age, value, u in thread.drawn
    )
    band = asked_band(thread.moments[-1].session.evaluation, thread.point)
    if band is None:
        return f"{told}. Bars: the standard uncertainty."
    low, high = (f"{edge:g}" if edge is not None else "" for edge in band)
    asked = f"{low} to {high}" if low and high else f"at least {low}" if low else f"at most {high}"
    return f"{told}. Bars: the standard uncertainty. The band: asked of the grown dog, {asked}."


def _ticks(low: float, high: float) -> list[float]:
    """Three to six round values."""
    step = 10 ** math.floor(math.log10((high - low) / 3))
    step = next(step * factor for factor in (1, 2, 5, 10) if (high - low) / (step * factor) <= 5)
    first = math.ceil(low / step)
    return [round(n * step, 6) for n in range(first, math.floor(high / step) + 1)]
