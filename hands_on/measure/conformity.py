"""Is the true value within the limits? The answer is a probability, and a verdict only when it is sure.

With a normal distribution about the value, p = Phi((high - y)/u) - Phi((low - y)/u); a missing limit
drops its term (JCGM 106:2012, 7.2 to 7.4; section numbers from memory). Any other distribution may
be used (7.2): with degrees of freedom given, Student's t scaled by u takes the place of the normal.
A limit belongs to the interval unless it is open (3.3.4); that matters only where u is 0.

A ratio is not normal, but the question whether it lies beyond a limit is one of a normal quantity: a/b < L
where a - L b < 0 (Fieller 1954, J. R. Stat. Soc. B 16: 175-185). So u and its degrees of freedom may be
given as they are at each limit (`measure.derived.against`); p is then exact, not of first order.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

from hands_on.frozen import dataclass
from hands_on.measure.distributions import lower_tail, upper_tail
from hands_on.measure.further import Further, Resting, TakesReason, further_takes

__all__ = [
    "Against",
    "Band",
    "Classification",
    "Verdict",
    "best_probability",
    "classify",
    "p_between",
    "verdict",
]

_TINY = 1e-9
"""Probabilities this close to the confidence count as reaching it."""

Against = Callable[[float], tuple[float, float | None]]
"""u of a value and its degrees of freedom as they are when it is held against a limit."""


@dataclass(frozen=True)
class Band:
    """A stretch of values; None for an end that is not there, ``*_open`` for an end that does not belong.

    ``weight`` is how heavy it is to lie in it: 0 is asked for (or allowed), more is worse. Raises
    ValueError for ends that are not numbers or the wrong way round.
    """

    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False
    weight: int = 0
    label: str = ""

    def __post_init__(self) -> None:
        if any(end is not None and math.isnan(end) for end in (self.low, self.high)):
            raise ValueError("a limit must be a number")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"the lower limit {self.low:g} lies above the upper one {self.high:g}")

    def holds(self, value: float) -> bool:
        """Whether an exact value lies in the band."""
        above = self.low is None or value > self.low or (value == self.low and not self.low_open)
        below = self.high is None or value < self.high or (value == self.high and not self.high_open)
        return above and below


def p_between(
    value: float,
    u: float,
    low: float | None,
    high: float | None,
    *,
    low_open: bool = False,
    high_open: bool = False,
    dof: float | None = None,
    against: Against | None = None,
) -> float:
    """Probability that the true value lies between the limits.

    All in one unit; None stands for a limit that is not there. With ``u`` = 0 it is a plain
    comparison, 1 or 0. ``against`` gives u and degrees of freedom at each limit, where they depend on it;
    ``u`` and ``dof`` then hold near the value. Raises ValueError for a negative u, for something that is
    not a number, and for a lower limit above the upper one.
    """
    if not u >= 0 or math.isinf(u) or not math.isfinite(value):
        raise ValueError("a finite value and a finite uncertainty of nought or more are needed")
    band = Band(low, high, low_open, high_open)
    if u == 0:
        return 1.0 if band.holds(value) else 0.0
    at_low = None if low is None else _standing(value, u, low, dof, against)
    at_high = None if high is None else _standing(value, u, high, dof, against)
    if at_low is None:
        return 1.0 if at_high is None else lower_tail(*at_high)
    if at_high is None:
        return upper_tail(*at_low)
    if at_low[0] > 0:
        return max(0.0, upper_tail(*at_low) - upper_tail(*at_high))
    if at_high[0] < 0:
        return max(0.0, lower_tail(*at_high) - lower_tail(*at_low))
    return max(0.0, 1.0 - lower_tail(*at_low) - upper_tail(*at_high))


def _standing(
    value: float, u: float, limit: float, dof: float | None, against: Against | None
) -> tuple[float, float | None]:
    """How far a limit lies from the value in standard uncertainties, and their degrees of freedom."""
    if against is not None:
        u, dof = against(limit)
    return (limit - value) / u, dof


def best_probability(limits: Band, u: float) -> float:
    """The probability of being within that a value dead in the middle would have; 1 for one-sided limits."""
    if limits.low is None or limits.high is None:
        return 1.0
    return p_between((limits.low + limits.high) / 2.0, u, limits.low, limits.high)


@dataclass(frozen=True)
class Verdict:
    """What is known about a value and its limits.

    ``outcome`` is ``inside``, ``outside`` or ``undecided``; ``likelier_side`` is ``inside``,
    ``below`` or ``above``, whatever the outcome. ``takes_more``: so many further takes by the same
    hand would settle an undecided value with probability ``takes_p``; None with ``takes_reason`` when
    they would not (`measure.further`). ``too_narrow``: even a value in the middle could not be
    called inside by this hand.
    """

    outcome: str
    p_inside: float
    p_below: float
    p_above: float
    likelier_side: str
    takes_more: int | None
    takes_reason: TakesReason | None
    too_narrow: bool
    takes_p: float | None = None


def verdict(
    value: float,
    u: float,
    limits: Band,
    confidence: float = 0.95,
    *,
    dof: float | None = None,
    resting: Resting | None = None,
    against: Against | None = None,
) -> Verdict:
    """Judge a value against limits.

    ``inside`` when p_inside reaches ``confidence``, ``outside`` when it falls to 1 - confidence,
    otherwise ``undecided`` (three outcomes: JCGM 106:2012, 8). ``resting`` tells what part of u repeating
    by the same hand does not reduce; without it nothing is said of further takes. ``against`` as in
    `p_between`. Raises ValueError as `p_between`, and for a confidence outside 0.5 to 1.
    """
    _check(confidence, u, resting)
    p_inside = _p_in(value, u, limits, dof, against)
    p_below = _beside(value, u, limits, dof, against, below=True)
    p_above = _beside(value, u, limits, dof, against, below=False)
    sides = {"inside": p_inside, "below": p_below, "above": p_above}
    outcome = _outcome(p_inside, confidence)
    least = u if resting is None else min(u, resting.lasting)
    too_narrow = u > 0 and best_probability(limits, least) < confidence - _TINY
    further = Further()
    if outcome == "undecided":
        below, above = Band(None, limits.low), Band(limits.high, None)
        parts = [limits, *([below] if limits.low is not None else ())]
        parts += [above] if limits.high is not None else []
        further = _further(value, u, parts, confidence, resting)
    likelier = max(sides, key=lambda side: sides[side])
    return Verdict(
        outcome=outcome,
        p_inside=p_inside,
        p_below=p_below,
        p_above=p_above,
        likelier_side=likelier,
        takes_more=further.takes,
        takes_reason=further.reason,
        too_narrow=too_narrow,
        takes_p=further.p,
    )


def _check(confidence: float, u: float, resting: Resting | None) -> None:
    if not 0.5 < confidence < 1.0:
        raise ValueError("a confidence between 0.5 and 1 is needed")
    if resting is not None and not 0 <= resting.lasting <= u * (1 + 1e-9):
        raise ValueError("the lasting part of an uncertainty cannot exceed it")
    if resting is not None and resting.n < 1:
        raise ValueError("a value rests on one take at least")


def _outcome(p_inside: float, confidence: float) -> str:
    if p_inside >= confidence - _TINY:
        return "inside"
    return "outside" if p_inside <= 1.0 - confidence + _TINY else "undecided"


def _p_in(value: float, u: float, band: Band, dof: float | None, against: Against | None) -> float:
    """Probability of lying in a band."""
    return p_between(
        value,
        u,
        band.low,
        band.high,
        low_open=band.low_open,
        high_open=band.high_open,
        dof=dof,
        against=against,
    )


def _beside(
    value: float, u: float, limits: Band, dof: float | None, against: Against | None, *, below: bool
) -> float:
    """Probability of lying below (or above) the limits; 0 where there is no limit on that side."""
    if below:
        side = None if limits.low is None else Band(None, limits.low, high_open=not limits.low_open)
    else:
        side = None if limits.high is None else Band(limits.high, None, low_open=not limits.high_open)
    return 0.0 if side is None else _p_in(value, u, side, dof, against)


def _further(
    value: float,
    u: float,
    bands: Iterable[Band],
    confidence: float,
    resting: Resting | None,
) -> Further:
    """How many more takes would probably settle a value in one of the bands."""
    if resting is None or not u:
        return Further(reason="not-known")
    return further_takes(value, resting, [(band.low, band.high) for band in bands], confidence)


@dataclass(frozen=True)
class Classification:
    """Which band of a ladder a value may be said to lie in.

    ``probabilities`` go with the bands as given. ``called`` is the index of the band that may be
    named, None while nothing may; ``likeliest`` the band the value most probably lies in.
    ``outcome`` is ``inside`` (weight 0), ``outside`` or ``undecided``. ``p_called`` is the
    probability of lying in a band at least as heavy, on the same side. ``settled``: one single band
    reaches the confidence; otherwise ``takes_more``, ``takes_p`` and ``takes_reason`` say what would help.
    """

    outcome: str
    called: int | None
    likeliest: int
    p_called: float
    probabilities: tuple[float, ...]
    settled: bool
    takes_more: int | None
    takes_reason: TakesReason | None
    takes_p: float | None = None


def classify(
    value: float,
    u: float,
    bands: Sequence[Band],
    confidence: float = 0.95,
    *,
    dof: float | None = None,
    resting: Resting | None = None,
    against: Against | None = None,
) -> Classification:
    """Place a value on a ladder of bands, never heavier than is sure.

    A band is called only when the probability of lying in one at least as heavy, on the same side
    of what is asked for, reaches ``confidence`` (guarded rejection: JCGM 106:2012, 8.3.3). So a
    value just beyond a disqualifying limit is called by the lighter band beside it, or left
    undecided. Bands may stand in any order; ``resting`` and ``against`` as in `verdict`. Raises
    ValueError for no bands, bands that overlap, and as `verdict`.
    """
    _check(confidence, u, resting)
    if not bands:
        raise ValueError("a ladder needs bands")
    sides = _sides(bands)
    probabilities = tuple(_p_in(value, u, band, dof, against) for band in bands)
    likeliest = max(range(len(bands)), key=lambda index: probabilities[index])
    called, p_called = _called(bands, sides, probabilities, confidence)
    p_asked = math.fsum(p for band, p in zip(bands, probabilities, strict=True) if band.weight <= 0)
    if called is not None:
        outcome = "outside"
    else:
        outcome = _outcome(p_asked, confidence)
        if outcome == "inside":
            asked = [index for index, band in enumerate(bands) if band.weight <= 0]
            called, p_called = max(asked, key=lambda index: probabilities[index]), p_asked
    settled = max(probabilities) >= confidence - _TINY
    further = _further(value, u, bands, confidence, resting) if not settled else Further()
    return Classification(
        outcome,
        called,
        likeliest,
        p_called,
        probabilities,
        settled,
        further.takes,
        further.reason,
        further.p,
    )


def _sides(bands: Sequence[Band]) -> tuple[int, ...]:
    """-1 for bands below what is asked for, 1 above, 0 for the asked ones; all 1 where none is asked."""
    order = sorted(
        range(len(bands)),
        key=lambda index: (
            -math.inf if bands[index].low is None else bands[index].low,
            math.inf if bands[index].high is None else bands[index].high,
        ),
    )
    for first, second in pairwise(order):
        end, start = bands[first].high, bands[second].low
        if end is None or start is None or start < end:
            raise ValueError(f"the bands {bands[first]} and {bands[second]} overlap")
        if start == end and not bands[first].high_open and not bands[second].low_open:
            raise ValueError(f"{end:g} belongs to two bands")
    asked = [place for place, index in enumerate(order) if bands[index].weight <= 0]
    sides = [1] * len(bands)
    for place, index in enumerate(order):
        if bands[index].weight <= 0:
            sides[index] = 0
        elif asked and place < asked[0]:
            sides[index] = -1
    return tuple(sides)


def _called(
    bands: Sequence[Band], sides: Sequence[int], probabilities: Sequence[float], confidence: float
) -> tuple[int | None, float]:
    """The heaviest band that is sure enough, with the probability of at least that weight on its side."""
    for weight in sorted({band.weight for band in bands if band.weight > 0}, reverse=True):
        for side in (-1, 1):
            members = [index for index in range(len(bands)) if sides[index] == side]
            as_heavy = math.fsum(probabilities[index] for index in members if bands[index].weight >= weight)
            same = [index for index in members if bands[index].weight == weight]
            if same and as_heavy >= confidence - _TINY:
                return max(same, key=lambda index: probabilities[index]), as_heavy
    return None, 0.0
