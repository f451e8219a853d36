"""Do stretches of the number line join without a hole and without overlap?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from hands_on.frozen import dataclass
from hands_on.ruleset.rules import Range
from hands_on.toml_text.lines import Path

__all__ = ["Stretch", "ends", "joins"]


@dataclass(frozen=True)
class Stretch:
    """A stretch and where it is written."""

    path: Path
    name: str
    range: Range


@dataclass(frozen=True)
class Flaw:
    """A hole or an overlap: where, what, and what would be right."""

    path: Path
    what: str
    right: str


def describe(stretch: Range) -> str:
    """`63 to 70`, `above 70 to 73`, `below 63`: as the file says it."""
    low = (
        ""
        if stretch.low == -math.inf
        else f"above {stretch.low:g}"
        if stretch.low_open
        else f"{stretch.low:g}"
    )
    high = (
        ""
        if stretch.high == math.inf
        else f"below {stretch.high:g}"
        if stretch.high_open
        else f"{stretch.high:g}"
    )
    if not low:
        return high if stretch.high_open else f"up to {high}"
    if not high:
        return low if stretch.low_open else f"{low} and more"
    return f"{low} {'' if stretch.high_open else 'to '}{high}"


def joins(stretches: Sequence[Stretch]) -> Iterator[Flaw]:
    """Holes and overlaps between neighbours."""
    ordered = sorted(stretches, key=lambda one: (one.range.low, one.range.low_open, one.range.high))
    for before, after in pairwise(ordered):
        yield from _join(before, after)


def _join(before: Stretch, after: Stretch) -> Iterator[Flaw]:
    end, start = before.range.high, after.range.low
    both = f"{before.name} ({describe(before.range)}) and {after.name} ({describe(after.range)})"
    if end < start:
        yield Flaw(
            after.path,
            f"a hole: nothing covers what lies between {end:g} and {start:g}; {both} do not meet.",
            f"{after.name} from `{'from' if before.range.high_open else 'above'} = {end:g}`, "
            f"or {before.name} up to `{'to' if after.range.low_open else 'below'} = {start:g}`.",
        )
    elif end > start:
        top = min(end, after.range.high)
        yield Flaw(
            after.path,
            f"an overlap: what lies between {start:g} and {top:g} belongs to {both}.",
            f"let {after.name} begin where {before.name} ends: "
            f"`{'from' if before.range.high_open else 'above'} = {end:g}`.",
        )
    elif before.range.high_open and after.range.low_open:
        yield Flaw(
            after.path,
            f"a hole: {end:g} itself belongs neither to {before.name} nor to {after.name}.",
            f"`to = {end:g}` on {before.name} or `from = {end:g}` on {after.name}.",
        )
    elif not before.range.high_open and not after.range.low_open:
        yield Flaw(
            after.path,
            f"an overlap: {end:g} itself belongs to {both}.",
            f"`above = {end:g}` on {after.name} or `below = {end:g}` on {before.name}.",
        )


def ends(stretches: Sequence[Stretch], floor: float) -> Iterator[Flaw]:
    """Holes beyond the outermost stretches; below `floor` nothing can lie."""
    if not stretches:
        return
    first = min(stretches, key=lambda one: (one.range.low, one.range.low_open))
    last = max(stretches, key=lambda one: (one.range.high, not one.range.high_open))
    low, high = first.range.low, last.range.high
    if low > floor:
        word = "to" if first.range.low_open else "below"
        yield Flaw(
            first.path,
            f"a hole: nothing covers what lies below {low:g}, where {first.name} begins.",
            f"one more entry in bands: {{ {word} = {low:g}, ... }}.",
        )
    if high < math.inf:
        word = "from" if last.range.high_open else "above"
        yield Flaw(
            last.path,
            f"a hole: nothing covers what lies above {high:g}, where {last.name} ends.",
            f"one more entry in bands: {{ {word} = {high:g}, ... }}.",
        )
