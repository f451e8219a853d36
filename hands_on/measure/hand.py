"""The evaluator's own hand: technical error of measurement from repeated takes of several dogs.

TEM = sqrt(sum d^2 / 2n) for two takes of each of n dogs; for K takes, TEM^2 is the mean square
within dogs, sum over dogs of (sum x^2 - (sum x)^2 / K_i) / sum (K_i - 1) (Ulijaszek and Kerr 1999,
Br. J. Nutr. 82: 165-177; Perini and others 2005, Rev. Bras. Med. Esporte 11: 81-85; formulas from
memory). It is the repeatability of one hand on one day, not the part all its takes share. An error
grows with what is measured: deviations are taken as shares of a careful take's uncertainty at that size.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Sequence
from statistics import fmean, stdev

from hands_on.frozen import dataclass

__all__ = ["DOGS_NEEDED", "Lasting", "NotYet", "OwnHand", "own_hand", "reliability", "tem"]

DOGS_NEEDED = 10
"""Fewer dogs taken twice say too little about a hand (common practice)."""


@dataclass(frozen=True)
class Lasting:
    """What stays in all takes of one evaluator, as rounds with repeats measured it (ISO 5725-2).

    ``sd`` is the root of the variance between evaluators and that of evaluator by dog, for readings about
    ``at``; ``dof`` its effective degrees of freedom, from ``dogs`` that each of ``evaluators`` took anew.
    """

    sd: float
    at: float
    dof: float
    evaluators: int
    dogs: int
    shared: float = 0.5
    """Share of the variance that all readings of one hand have in common: that between evaluators."""


@dataclass(frozen=True)
class OwnHand:
    """One evaluator's repeatability at one point, in the point's canonical unit.

    ``tem`` is a standard deviation of single takes; it rests on ``n_repeats`` takes of ``n_dogs`` dogs.
    Where a dog was taken on several days, or left and right, its takes make several sets, each about a
    mean of its own: ``n_sets`` in all (0: one a dog), hence n_repeats - n_sets degrees of freedom.
    ``tem`` holds for readings about ``at`` and grows with size as a careful take's uncertainty does; None:
    it is the same at every size.
    """

    tem: float
    n_dogs: int
    n_repeats: int
    n_sets: int = 0
    at: float | None = None
    lasting: Lasting | None = None
    """What stays in all takes, where rounds measured it."""
    of_round: bool = False
    """Is it the hand of all evaluators of a round, since this one's own is not known?"""

    def __post_init__(self) -> None:
        if self.n_repeats <= max(self.n_dogs, self.n_sets) or self.n_dogs < 1:
            raise ValueError("an own hand needs dogs that were taken more than once")
        if not 0 <= self.tem < math.inf:
            raise ValueError("a technical error must be finite and not negative")

    @property
    def dof(self) -> int:
        return self.n_repeats - (self.n_sets or self.n_dogs)

    def tem_for(self, value: float, u_one: Callable[[float], float]) -> float:
        """The technical error at a reading; ``u_one`` gives the uncertainty of one careful take by size."""
        return self.tem if self.at is None else self.tem * _grown(value, self.at, u_one)

    def lasting_for(self, value: float, u_one: Callable[[float], float]) -> float | None:
        """What stays in all takes at a reading; None where no round measured it."""
        known = self.lasting
        return None if known is None else known.sd * _grown(value, known.at, u_one)


def _grown(value: float, at: float, u_one: Callable[[float], float]) -> float:
    """By what an error grows from one size to another."""
    return u_one(value) / u_one(at) if u_one(at) > 0 else 1.0


@dataclass(frozen=True)
class NotYet:
    """The repeats at hand do not yet make an `OwnHand`: of how many dogs they are, how many are lacking."""

    n_dogs: int
    dogs_wanted: int


def tem(takes: Sequence[Sequence[float]]) -> float:
    """Technical error of measurement; ``takes`` holds for each dog all takes of it.

    Dogs may have different numbers of takes; a dog taken once adds nothing. In the unit of the
    takes. Raises ValueError when no dog was taken twice.
    """
    freedom = sum(len(dog) - 1 for dog in takes if len(dog) > 1)
    if freedom < 1:
        raise ValueError("no dog was taken twice")
    within = math.fsum((take - fmean(dog)) ** 2 for dog in takes if len(dog) > 1 for take in dog)
    return math.sqrt(within / freedom)


def reliability(takes: Sequence[Sequence[float]]) -> float:
    """R = 1 - TEM^2 / SD^2, the share of the spread between takes that is not error.

    SD over all takes. Raises ValueError as `tem`, and when all takes are equal.
    """
    spread = stdev([take for dog in takes for take in dog])
    if spread == 0:
        raise ValueError("takes that are all equal have no reliability")
    return 1.0 - tem(takes) ** 2 / spread**2


def own_hand(
    takes: Sequence[Sequence[float]],
    resolution: float | None = None,
    dogs: Sequence[Hashable] | None = None,
    u_one: Callable[[float], float] | None = None,
) -> OwnHand | NotYet:
    """The evaluator's own figure for one point from sets of takes, or why it must wait.

    Each set holds takes of one dog on one day, on one side; ``dogs`` tells for each set whose it is
    (None: each of another dog). Ten dogs taken at least twice are wanted. ``u_one`` gives the uncertainty
    of one careful take by size: with it dogs of all sizes count alike, and the figure is that of their mean
    size. A TEM below step/sqrt(12) of the instrument is raised to it: equal readings on a coarse scale do
    not make a perfect hand (JCGM 100:2008, F.2.2.1). Raises ValueError for takes that are not finite, and
    for ``dogs`` of
    another length than ``takes``.
    """
    if not all(math.isfinite(take) for dog in takes for take in dog):
        raise ValueError("a take must be a finite number")
    whose = range(len(takes)) if dogs is None else dogs
    repeated = [(dog, taken) for dog, taken in zip(whose, takes, strict=True) if len(taken) > 1]
    n_dogs = len({dog for dog, _ in repeated})
    wanted = DOGS_NEEDED - n_dogs
    if wanted > 0:
        return NotYet(n_dogs, wanted)
    sets = [taken for _, taken in repeated]
    floor = (resolution or 0.0) / math.sqrt(12.0)
    found, at = tem(sets), None
    if u_one is not None and all(u_one(fmean(taken)) > 0 for taken in sets):
        at = fmean([fmean(taken) for taken in sets])
        found = tem([[take / u_one(fmean(taken)) for take in taken] for taken in sets]) * u_one(at)
    return OwnHand(max(found, floor), n_dogs, sum(map(len, sets)), len(sets), at)
