"""The stretches of values beside what a limit asks for, and the class each gives one dog."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

from hands_on.evaluate.circumstances import Circumstances
from hands_on.evaluate.classes import NONE, Classes
from hands_on.evaluate.departure import Called
from hands_on.evaluate.measures import Measures
from hands_on.evaluate.reasons import Reason
from hands_on.evaluate.result import Rung
from hands_on.frozen import dataclass
from hands_on.measure import conformity
from hands_on.ruleset.rules import Band, Limit, Range
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "ROUNDED",
    "Case",
    "class_in",
    "class_there",
    "finite",
    "light_class",
    "rungs",
    "stretch",
    "weighed",
]

ROUNDED = 9
"""Decimals at which a computed number and a limit count as equal."""


@dataclass(frozen=True, eq=False)
class Case:
    """What limits are held against: one dog under one edition, and the faults found in it."""

    ruleset: Ruleset
    circumstances: Circumstances
    measures: Measures
    present: frozenset[str]

    @cached_property
    def classes(self) -> Classes:
        """The edition's classes in these circumstances."""
        return Classes(self.ruleset, self.circumstances)

    @property
    def confidence(self) -> float:
        """How sure the edition wants a verdict to be."""
        return self.ruleset.edition.confidence

    def with_attribute(self, name: str, value: str) -> Case:
        """The same where a limit has decided an attribute of the dog."""
        return replace(self, circumstances=self.circumstances.with_attribute(name, value))


def stretch(part: Range, weight: int = 0) -> conformity.Band:
    """A ruleset's range as a stretch of values with a weight."""
    low, high = finite(part.low), finite(part.high)
    label = part.label if isinstance(part, Band) else ""
    return conformity.Band(
        low, high, low is not None and part.low_open, high is not None and part.high_open, weight, label
    )


def finite(end: float) -> float | None:
    """An end of a range, None where it has none."""
    return end if math.isfinite(end) else None


def weighed(case: Case, band: Band) -> conformity.Band:
    """A stretch with its weight; what counts outside is 1 at least."""
    return stretch(band, case.classes.weight(class_there(case, band)))


def class_there(case: Case, band: Band) -> str:
    """The class of a stretch, whether the value lies in it or not."""
    if band.tolerated:
        return NONE
    return band.class_ or _by_rulings(case, band).cls


def class_in(case: Case, limit: Limit, band: Band) -> Called:
    """The class of a stretch that the value lies in, and why."""
    if band.tolerated:
        return Called(NONE, limit.source, limit.reading, (Reason("tolerated"),))
    if band.class_ is None:
        return _by_rulings(case, band)
    switch = next(iter(limit.when.switch), "") if limit.when is not None and limit.when.switch else ""
    return Called(band.class_, limit.source, limit.reading, (), switch)


def light_class(
    case: Case, limit: Limit, ladder: Sequence[conformity.Band], best: int, probabilities: Sequence[float]
) -> Called:
    """The class of an undecided value: the likeliest on its side that does not disqualify.

    `ladder` begins with what is asked for; `best` is the place of the stretch that the figure lies in.
    """
    fault = limit.bands[best - 1].fault
    options = [
        (probabilities[place], class_in(case, limit, band))
        for place, band in enumerate(limit.bands, 1)
        if band.fault == fault and ladder[place].weight > 0
    ]
    light = [(p, called) for p, called in options if not case.classes.disqualifies(called.cls)]
    lacking = tuple(dict.fromkeys(name for _, called in options for name in called.lacking))
    if not light:
        return replace(case.classes.lightest_sure, lacking=lacking)
    return replace(max(light, key=lambda option: option[0])[1], lacking=lacking)


def rungs(
    case: Case, limit: Limit, ladder: Sequence[conformity.Band], probabilities: Sequence[float]
) -> tuple[Rung, ...]:
    """The whole ladder as judged: what is asked for first, then the limit's stretches."""
    asked = Rung(ladder[0], probabilities[0], NONE)
    beside = (
        Rung(values, p, class_there(case, band), band.fault, band.degree)
        for band, values, p in zip(limit.bands, ladder[1:], probabilities[1:], strict=True)
    )
    return (asked, *beside)


def _by_rulings(case: Case, band: Band) -> Called:
    if band.fault is None:
        return case.classes.unnamed()
    return case.classes.class_of(band.fault, band.degree, band.place, case.present)
