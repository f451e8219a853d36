"""Takes of one measurement: their value, its standard uncertainty, and what is odd about them.

How u is made, so that anybody can compute it again (x is the mean of n takes)::

    u1       = sqrt(a^2 + (b x)^2)          one careful take, from the point's default
    sigma_r0 = 0.6 u1                       what lifting the hand off and taking it again changes
    sigma_s  = 0.8 u1                       what stays: the hand's way with the landmark, stance, instrument
    s^2      = spread of the takes, n - 1 in the denominator
    sigma_r^2 = (nu0 sigma_r0^2 + (n - 1) s^2) / (nu0 + n - 1)     with nu0 = 8
    u_repeat = sigma_r / sqrt(n)            u_lasting = sigma_s
    u        = max( sqrt(u_repeat^2 + u_lasting^2), step / sqrt(12) )

    with takes on several stands of the dog, n_j on each, and the share q of sigma_s^2 that is its stand:
    u_lasting^2 = sigma_s^2 (1 - q + q sum((n_j / n)^2))

One take thus has exactly u1. With nothing odd in the spread, u of n takes is u1 sqrt(0.64 + 0.36/n):
more takes by the same hand help little, and two takes that happen to agree do not make it small.

* The split 0.6 to 0.8 is a judgement, from ponies (Lamas and others 2007, Vet. Rec. 160: 691-694,
  within to between people 0.56) and dogs' thigh girths (Bascunan and others 2016, Veterinary Evidence).
* The spread of a few takes is itself uncertain (two takes: by 76 %, JCGM 100:2008, table E.1), so it is
  pooled with the prior by degrees of freedom (pooled variance, JCGM 100:2008, 4.2.4). nu0 = 8 stands for
  a figure good to about a quarter of itself (JCGM 100:2008, G.4.2 and its example).
* An evaluator's own technical error of measurement replaces sigma_r0, with its own degrees of freedom;
  sigma_s stays, since one's own repeats cannot show it. Rounds in which several evaluators took the same dogs
  anew show it, and replace it (ISO 5725-2; `measure.hand.Lasting`).
* A coat, fat, or a dog that does not stand still makes every part larger by a factor (a judgement, in
  `rulesets/common/landmarks.toml`, as q is). Takes on one stand share what the stand does; s is taken within
  stands. A dog stood anew frees it.
* Both parts are judged alike and carry the same doubt, a quarter of themselves: 8 degrees of freedom each
  (JCGM 100:2008, formula G.3: half the inverse square of the relative doubt). Effective degrees of freedom
  follow Welch and Satterthwaite (G.4.1) and go into Student's t wherever something is decided.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from statistics import fmean, median, stdev
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.gum import resolution_u, welch_satterthwaite
from hands_on.measure.hand import OwnHand

__all__ = [
    "LASTING_SHARE",
    "PRIOR_DOF",
    "REPEATABLE_SHARE",
    "SHARED_BY_ONE_HAND",
    "BasisOfU",
    "Counted",
    "DefaultU",
    "Measured",
    "OddKind",
    "OddTakes",
    "Take",
    "Taken",
    "critical_range_factor",
    "expected_repeatability",
    "summarise",
    "summarise_count",
    "take_alarms",
]

OddKind = Literal[
    "implausible",
    "discordant",  # far apart
    "contradictory",  # they cannot all be right, and which is wrong cannot be told
    "aside",  # one is set aside, since the others agree without it
    "drift",
]

REPEATABLE_SHARE = 0.6
LASTING_SHARE = 0.8
PRIOR_DOF = 8.0

SHARED_BY_ONE_HAND = 0.5
"""Share of the lasting variance on one stand that readings by one evaluator have in common; a judgement."""


@dataclass(frozen=True)
class Take:
    """One reading as it was given and in the canonical unit."""

    value: float
    canonical: float
    unit: str = ""


@dataclass(frozen=True)
class DefaultU:
    """Standard uncertainty of one careful take: sqrt(a^2 + (b x)^2), in the canonical unit.

    ``basis`` says what it rests on (``judgement``, ``derived``, ``published``), ``source`` where from.
    ``factor`` makes it larger for this dog, ``because`` of what; ``stand_share`` is the share of the lasting
    variance that is the dog's stand. Raises ValueError for negative or not finite figures.
    """

    a: float
    b: float = 0.0
    basis: str = "judgement"
    source: str = ""
    factor: float = 1.0
    because: tuple[str, ...] = ()
    stand_share: float = 0.0

    def __post_init__(self) -> None:
        if not (0 <= self.a < math.inf and 0 <= self.b < math.inf):
            raise ValueError("the figures of an uncertainty must be finite and not negative")

    def at(self, value: float) -> float:
        """u of one careful take that reads ``value``."""
        return self.factor * math.hypot(self.a, self.b * value)


@dataclass(frozen=True)
class Taken:
    """What the uncertainty of ``n`` takes rests on: the default and, where used, the evaluator's own hand.

    ``floored`` tells that the takes agree better than the instrument can show.
    """

    n: int
    default: DefaultU
    own: OwnHand | None = None
    floored: bool = False
    stands: int = 1
    """On how many stands of the dog they were taken."""


@dataclass(frozen=True)
class Counted:
    """A count: ``counts`` as given where they differ, ``by_chart`` where the tooth chart gave it."""

    counts: tuple[int, ...] = ()
    by_chart: bool = False


BasisOfU = Taken | Counted
"""What an uncertainty rests on."""


@dataclass(frozen=True)
class Measured:
    """The value of n takes with its standard uncertainty u, u^2 = u_repeat^2 + u_lasting^2.

    ``dof`` are effective degrees of freedom (infinite where nothing was estimated from few takes);
    ``sigma_r`` is the repeatability of a single take, ``spread`` the standard deviation of the takes
    (None for one), ``basis`` tells what u rests on. ``contradictory``: the takes cannot all be right, so
    nothing is judged on them.
    """

    value: float
    u: float
    dof: float
    n: int
    u_repeat: float
    u_lasting: float
    sigma_r: float
    spread: float | None
    basis: BasisOfU
    dof_repeat: float = math.inf
    dof_lasting: float = math.inf
    contradictory: bool = False
    u_shared: float = 0.0
    """The part of u_lasting that this hand has in common here in all its readings, of other dogs too."""
    harder: float = 1.0
    """How many times as far off as on a calm dog in short coat its landmarks may be found."""

    @property
    def hand_share(self) -> float:
        """Share of u^2 that is the hand's from take to take, and that more takes make smaller; 0 to 1."""
        return self.u_repeat**2 / self.u**2 if self.u > 0 else 0.0

    def u_after(self, more: int) -> float:
        """u expected after so many further takes by the same hand."""
        return math.hypot(self.sigma_r / math.sqrt(self.n + more), self.u_lasting)


@dataclass(frozen=True)
class OddTakes:
    """Something odd about takes, which count from 1; figures in ``unit``.

    ``values`` are the takes named, ``n`` how many there are; ``apart`` is the largest less the smallest (of
    ``drift`` the first less the last), ``allowed`` what one hand may lie apart.
    """

    kind: OddKind
    takes: tuple[int, ...]
    values: tuple[float, ...]
    unit: str
    n: int
    apart: float = 0.0
    allowed: float = 0.0


def expected_repeatability(
    value: float,
    default_u: DefaultU,
    resolution: float = 0.0,
    own: OwnHand | None = None,
    *,
    stands: int = 1,
) -> float:
    """Standard deviation of single takes by one hand at this size, as expected before they are taken.

    Takes on several ``stands`` of the dog differ by what the stand does, too.
    """
    if own is None:
        hand = REPEATABLE_SHARE * default_u.at(value)
    else:
        hand = max(default_u.factor * own.tem_for(value, default_u.at), resolution_u(resolution))
    if stands < 2:
        return hand
    return math.hypot(hand, math.sqrt(default_u.stand_share) * _lasting(value, default_u, own)[0])


def _lasting(value: float, default_u: DefaultU, own: OwnHand | None) -> tuple[float, float]:
    """What stays in all takes on one stand, and its degrees of freedom."""
    measured = None if own is None else own.lasting_for(value, default_u.at)
    if own is None or own.lasting is None or measured is None:
        return LASTING_SHARE * default_u.at(value), PRIOR_DOF
    return default_u.factor * measured, own.lasting.dof


def summarise(
    values: Sequence[float | Take],
    default_u: DefaultU,
    resolution: float | None = None,
    own: OwnHand | None = None,
    *,
    stands: Sequence[int] | None = None,
) -> Measured:
    """The mean of one or more takes and its uncertainty, by the rule at the head of this module.

    ``values`` and ``resolution`` (the instrument's step) are in the canonical unit; ``stands`` tells of each
    take on which stand of the dog it was taken (default: all on one). Raises ValueError when there is no
    take, one is not finite, the resolution is negative, or ``stands`` has another length.
    """
    readings = [take.canonical if isinstance(take, Take) else float(take) for take in values]
    if not readings:
        raise ValueError("a measurement needs one take at least")
    if not all(math.isfinite(reading) for reading in readings):
        raise ValueError("a take must be a finite number")
    step = resolution or 0.0
    if step < 0:
        raise ValueError("a resolution cannot be negative")
    n = len(readings)
    mean = fmean(readings)
    u_one = default_u.at(mean)
    prior = expected_repeatability(mean, default_u, step, own)
    prior_dof = PRIOR_DOF if own is None else float(own.dof)
    by_stand: dict[int, list[float]] = {}
    for reading, stand in zip(readings, stands or [0] * n, strict=True):
        by_stand.setdefault(stand, []).append(reading)
    dof_repeat = prior_dof + n - len(by_stand)
    within = math.fsum((x - fmean(taken)) ** 2 for taken in by_stand.values() for x in taken)
    sigma_r = math.sqrt((prior_dof * prior * prior + within) / dof_repeat)
    u_repeat = sigma_r / math.sqrt(n)
    lasting, dof_lasting = _lasting(mean, default_u, own)
    shared = math.fsum((len(taken) / n) ** 2 for taken in by_stand.values())
    u_lasting = lasting * math.sqrt(1.0 - default_u.stand_share * (1.0 - shared))
    common = SHARED_BY_ONE_HAND if own is None or own.lasting is None else own.lasting.shared
    u_shared = min(math.sqrt(common) * lasting, u_lasting)
    calm = LASTING_SHARE * u_one / default_u.factor
    floored = math.hypot(u_repeat, u_lasting) < resolution_u(step)
    if floored:
        # what a coarse scale hides, repeating does not bring back: it belongs to the lasting part
        u_lasting, dof_lasting = math.sqrt(resolution_u(step) ** 2 - u_repeat**2), math.inf
    return Measured(
        value=mean,
        u=math.hypot(u_repeat, u_lasting),
        dof=welch_satterthwaite([(u_repeat, dof_repeat), (u_lasting, dof_lasting)]),
        n=n,
        u_repeat=u_repeat,
        u_lasting=u_lasting,
        sigma_r=sigma_r,
        spread=stdev(readings, mean) if n > 1 else None,
        basis=Taken(n, default_u, own, floored, len(by_stand)),
        dof_repeat=dof_repeat,
        dof_lasting=dof_lasting,
        u_shared=u_shared,
        harder=lasting / calm if calm > 0 else 1.0,
    )


def summarise_count(counts: Sequence[int]) -> Measured:
    """The value of a count. A count is no normal quantity: counts that agree are exact (u = 0).

    Counts that differ cannot be averaged: the last one stands, with u as large as they lie apart,
    so that no limit between them is decided before the count is made again. Raises ValueError
    when there is no count or one is negative.
    """
    if not counts:
        raise ValueError("a measurement needs one take at least")
    if min(counts) < 0:
        raise ValueError("a count cannot be negative")
    apart = float(max(counts) - min(counts))
    basis = Counted(tuple(counts) if apart else ())
    return Measured(float(counts[-1]), apart, math.inf, len(counts), 0.0, apart, 0.0, None, basis)


# 95 % points of the range of n standard normal values (infinite degrees of freedom), n = 2 to 20.
# ISO 5725-6, critical-range factors, prints the first as 2.8 3.3 3.6 3.9 (from memory).
_CRITICAL_RANGE = (
    2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5, 4.6, 4.6, 4.7, 4.7, 4.8, 4.8, 4.9, 4.9, 5.0, 5.0,
)  # fmt: skip


def critical_range_factor(n: int) -> float:
    """By how many repeatability standard deviations n takes may lie apart (95 %; ISO 5725-6, from memory).

    For more than 20 takes the figure of 20 is used. Raises ValueError for n < 2.
    """
    if n < 2:
        raise ValueError("a range needs two takes at least")
    return _CRITICAL_RANGE[min(n, 20) - 2]


def take_alarms(
    values: Sequence[float],
    *,
    unit: str,
    sigma_r: float,
    resolution: float | None = None,
    plausible: tuple[float | None, float | None] | None = None,
    is_height: bool = False,
) -> tuple[OddTakes, ...]:
    """What is odd about the takes, in canonical ``unit``; nothing is ever dropped.

    * ``implausible``: outside ``plausible``.
    * ``discordant``: largest minus smallest beyond `critical_range_factor` times ``sigma_r`` (the
      repeatability expected before the takes: 0.6 u1, or the own hand's), and more than one step of
      the scale. Names the takes farthest from the median.
    * ``drift``, for heights only: three takes or more that only fall, by more than one step. A dog
      that settles lets its trunk down between the blades (seen in ponies: Curtis and others 2010,
      Vet. Rec. 167: 127-133); the last takes are then the better ones.
    """
    alarms: list[OddTakes] = []
    low, high = plausible if plausible is not None else (None, None)
    step = resolution or 0.0
    odd = [
        number
        for number, value in enumerate(values, 1)
        if (low is not None and value < low) or (high is not None and value > high)
    ]
    if odd:
        named = tuple(values[number - 1] for number in odd)
        alarms.append(OddTakes("implausible", tuple(odd), named, unit, len(values)))
    if len(values) < 2:
        return tuple(alarms)
    apart = max(values) - min(values)
    limit = max(critical_range_factor(len(values)) * sigma_r, step)
    if apart > limit + 1e-9:
        centre = median(values)
        farthest = max(abs(value - centre) for value in values)
        which = tuple(
            number for number, value in enumerate(values, 1) if abs(value - centre) >= farthest - 1e-9
        )
        named = tuple(values[number - 1] for number in which)
        alarms.append(OddTakes("discordant", which, named, unit, len(values), apart, limit))
    if is_height and len(values) >= 3 and _only_falls(values) and values[0] - values[-1] > step + 1e-9:
        every = tuple(range(1, len(values) + 1))
        alarms.append(OddTakes("drift", every, tuple(values), unit, len(values), values[0] - values[-1]))
    return tuple(alarms)


def _only_falls(values: Sequence[float]) -> bool:
    return all(later < earlier for earlier, later in pairwise(values))
