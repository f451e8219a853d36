"""What is asked for as a scale on a line, with everybody's value on it."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["asked_scale"]


def asked_scale(
    low: float | None, high: float | None, values: Sequence[tuple[str, float]], width: int, unit: str
) -> list[str]:
    """Three lines: marks of those measured, the scale with what is asked drawn thick, its ends in figures.

    `low` and `high`: what is asked for, None for no end there; `values`: a mark of one sign and a value.
    Empty where there is too little room or nobody has a value.
    """
    if width < 30 or not values:
        return []
    every = [value for _, value in values]
    ends = [end for end in (low, high) if end is not None]
    least, most = min([*every, *ends]), max([*every, *ends])
    margin = (most - least) * 0.15 or max(abs(most) * 0.05, 1.0)
    start, end = least - margin, most + margin

    def place(value: float) -> int:
        return round((value - start) / (end - start) * (width - 1))

    line = ["─"] * width
    first, last = 0 if low is None else place(low), width - 1 if high is None else place(high)
    for at in range(first, last + 1):
        line[at] = "━"
    if low is not None:
        line[first] = "┣"
    if high is not None:
        line[last] = "┫"
    marks = [" "] * width
    for mark, value in values:
        at = place(value)
        if marks[at] != " ":  # two at one place stand beside each other
            at = next((n for n in (at + 1, at - 1, at + 2, at - 2) if 0 <= n < width and marks[n] == " "), at)
        marks[at] = mark
    figures = [" "] * width
    named = [
        (at, text)
        for at, text in ((first, f"{low:g}" if low is not None else ""), (last, _named(high, unit)))
        if text
    ]
    for at, text in named:
        begin = max(0, min(at, width - len(text)))
        if all(sign == " " for sign in figures[max(0, begin - 1) : begin + len(text) + 1]):
            figures[begin : begin + len(text)] = text
    return ["".join(row).rstrip() for row in (marks, line, figures)]


def _named(value: float | None, unit: str) -> str:
    if value is None:
        return ""
    return f"{value:g}" if unit in ("", "share") else f"{value:g} {unit}"
