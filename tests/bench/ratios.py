"""Are the probabilities of every proportion those of drawn landmarks?

    python -m tests.bench.ratios [DRAWS]

For each proportion that an edition judges, at each of its limits, a dog is made whose value lies at the
limit, near it and far from it, of ordinary size and of two thirds of it. Then landmarks are drawn: what an
evaluator thinks of where each one is, once for all measurements from there, and the rest of each
measurement by itself. That is done twice: with errors exactly as large as assumed, where Fieller's question
with a normal distribution must give the share of draws; and with each size of error only as good as is
assumed of it, a quarter of itself, where the probability told, by Student's t, must.

Printed, the largest difference of each proportion: of the normal from errors as assumed, of what is told from
doubtful ones; in the head the drawing's own standard error. The last column is how far the two
distributions lie apart: no error, but what the doubt about the sizes does. 0.01 is wanted of what is told.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from hands_on.evaluate.measures import measure
from hands_on.evaluate.shared_landmarks import span_of, spread_of
from hands_on.evaluate.values import Incomputable, readings
from hands_on.exam.session import Session
from hands_on.measure.conformity import Against, p_between
from hands_on.measure.landmarks import variance
from hands_on.measure.takes import LASTING_SHARE, PRIOR_DOF, REPEATABLE_SHARE
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.values import Value
from hands_on.store.library import Library

RULESETS = Path(__file__).parents[2] / "rulesets"
AWAY = (-6.0, -2.5, -1.7, -1.0, 0.0, 0.6, 1.7, 2.5, 6.0)
"""How far from a limit, in about one standard uncertainty."""


@dataclass(frozen=True)
class Placed:
    """A dog for one limit: its lengths, cm, and what the program says of it."""

    edition: Ruleset
    limit: Limit
    lengths: Mapping[str, float]
    p_inside: float
    p_normal: float
    """The same with the normal in the place of Student's t."""


def editions() -> Iterator[Ruleset]:
    """Every edition shipped that judges a proportion."""
    library = Library([RULESETS])
    for path in sorted(RULESETS.glob("*.toml")):
        rules = library.load(path.stem)
        if any(limit.ratio and limit.asked for limit in rules.edition.limits):
            yield rules


def placed(rules: Ruleset, size: float = 1.0, away: tuple[float, ...] = AWAY) -> Iterator[Placed]:
    """Dogs at and about each limit of each proportion, `size` times an ordinary one."""
    for limit in rules.edition.limits:
        if limit.ratio is None or limit.asked is None:
            continue
        above, below = limit.ratio
        ends = {
            end
            for part in (limit.asked, *limit.bands)
            for end in (part.low, part.high)
            if np.isfinite(end) and end > 0
        }
        for end in sorted(ends):
            base = _base(rules, below, size)
            lower = _value(below, base)
            about = end * np.hypot(
                _u(rules, above.measures[0], end * lower) / (end * lower),
                _u(rules, below.measures[0], base[below.measures[0]]) / lower,
            )
            for steps in away:
                wanted = end + steps * about
                lengths = base | {above.measures[0]: round(float(wanted * lower), 4)}
                p = told(rules, limit, lengths) if wanted > 0 else None
                if p is not None:
                    yield Placed(rules, limit, lengths, *p)


def _base(rules: Ruleset, value: Value, size: float) -> dict[str, float]:
    """Ordinary lengths of what a proportion is held against, in cm."""
    ordinary = {"height": 60.0, "head-length": 24.0, "chest-depth": 29.0, "elbow-height": 32.0}
    return {name: round(size * ordinary.get(name, 14.0), 2) for name in value.measures}


def _value(value: Value, lengths: Mapping[str, float]) -> float:
    if value.measure is not None:
        return lengths[value.measure]
    assert value.difference is not None
    first, second = value.difference
    return _value(first, lengths) - _value(second, lengths)


def _u(rules: Ruleset, name: str, length: float) -> float:
    point = rules.points[name]
    assert isinstance(point, MeasurePoint)
    a = convert(point.u.a, point.unit, canonical_unit(point.quantity))
    return float(np.hypot(a, point.u.b * length))


def told(rules: Ruleset, limit: Limit, lengths: Mapping[str, float]) -> tuple[float, float] | None:
    """The probability of being within, as the program computes it and with a normal distribution.

    None where such a length is not plausible.
    """
    takes = [{"point": name, "value": length, "unit": "cm"} for name, length in lengths.items()]
    session = Session.model_validate({"ruleset": {"id": rules.id}, "takes": takes})
    try:
        reading = readings(rules, measure(rules, session, {}), limit, limit.unit)[0]
    except Incomputable:
        return None
    asked, against = limit.asked, reading.against
    assert asked is not None
    assert against is not None

    def p(at: Against) -> float:
        low, high = (end if np.isfinite(end) else None for end in (asked.low, asked.high))
        return p_between(reading.value, reading.u, low, high, against=at)

    return p(against), p(lambda end: (against(end)[0], None))


CHUNK = 250_000
"""Draws at a time."""

DOUBT = 1.0 / math.sqrt(2.0 * PRIOR_DOF)
"""What the sizes of errors are good to, as a share of themselves: a quarter (JCGM 100:2008, formula G.3)."""


def shares(rules: Ruleset, dogs: Sequence[Placed], draws: int, *, doubtful: bool) -> np.ndarray:
    """The share of draws within the limit, by dog; all dogs are of one proportion, and share the draws.

    With `doubtful` the size of every part of an error is drawn too, about the assumed one (gamma).
    """
    inside = np.zeros(len(dogs))
    for start in range(0, draws, CHUNK):
        errors = _Errors(rules, np.random.default_rng((11, start)), min(CHUNK, draws - start), doubtful)
        inside += [errors.inside(dog) for dog in dogs]
    return inside / draws


class _Errors:
    """Errors drawn for all dogs of a proportion."""

    def __init__(self, rules: Ruleset, chance: np.random.Generator, draws: int, doubtful: bool) -> None:
        self._rules, self._chance, self._draws, self._doubtful = rules, chance, draws, doubtful
        self._axes: dict[str, np.ndarray] = {}
        self._found: dict[str, tuple[np.ndarray, float]] = {}
        self._own: dict[str, tuple[np.ndarray, np.ndarray]] = {}

    def inside(self, dog: Placed) -> int:
        """How many draws lie within the limit."""
        true = {name: length - self._error(name, length) for name, length in dog.lengths.items()}
        limit = dog.limit
        assert limit.ratio is not None
        assert limit.asked is not None
        ratio = _of(limit.ratio[0], true) / _of(limit.ratio[1], true)
        return int(np.count_nonzero((ratio >= limit.asked.low) & (ratio <= limit.asked.high)))

    def _error(self, name: str, length: float) -> np.ndarray:
        if name not in self._found:
            self._found[name] = self._from_landmarks(name)
            self._own[name] = self._part(), self._part()
        at_landmarks, variance_there = self._found[name]
        stays, anew = self._own[name]
        u = _u(self._rules, name, length)
        rest = LASTING_SHARE * math.sqrt(max(0.0, u * u - variance_there))
        return at_landmarks + rest * stays + (REPEATABLE_SHARE * u) * anew

    def _from_landmarks(self, name: str) -> tuple[np.ndarray, float]:
        """What finding its landmarks does to a length in all its takes; and the whole variance of it."""
        span = span_of(self._rules, self._rules.points[name])
        if span is None:
            return np.zeros(self._draws), 0.0
        total = np.zeros(self._draws)
        spreads = {place: spread_of(self._rules, place) for place in span.slopes}
        for place, way in span.slopes.items():
            spread = spreads[place]
            sizes = {"along": spread.along, "up": spread.up, "across": spread.across}
            for (axis, size), slope in zip(sizes.items(), way, strict=True):
                if slope * size:
                    if f"{place} {axis}" not in self._axes:
                        self._axes[f"{place} {axis}"] = self._part()
                    total += LASTING_SHARE * slope * size * self._axes[f"{place} {axis}"]
        return total, variance(span, spreads)

    def _part(self) -> np.ndarray:
        part = self._chance.normal(0.0, 1.0, self._draws)
        if self._doubtful:
            part *= self._chance.gamma(DOUBT**-2, DOUBT**2, self._draws)
        return part


def _of(value: Value, true: Mapping[str, np.ndarray]) -> np.ndarray:
    if value.measure is not None:
        return true[value.measure]
    assert value.difference is not None
    first, second = value.difference
    return _of(first, true) - _of(second, true)


def main() -> None:
    """Print the largest differences of each proportion."""
    draws = int(sys.argv[1]) if len(sys.argv) > 1 else 2_000_000
    noise = 0.5 / math.sqrt(draws)
    print(f"{draws} draws a dog, the same for all of a proportion; standard error of a share {noise:.4f}")
    print("largest difference of p:")
    print(f"{'':62}{'normal, errors':>15}{'told, errors':>15}{'told less':>11}")
    print(f"{'':62}{'as assumed':>15}{'as doubtful':>15}{'normal':>11}")
    worst = np.zeros(3)
    for rules in editions():
        by_limit: dict[str, list[Placed]] = {}
        for size in (1.0, 2 / 3):
            for dog in placed(rules, size):
                by_limit.setdefault(dog.limit.id, []).append(dog)
        for name, dogs in by_limit.items():
            told, normal = (np.array([getattr(dog, key) for dog in dogs]) for key in ("p_inside", "p_normal"))
            known, doubted = (shares(rules, dogs, draws, doubtful=kind) for kind in (False, True))
            row = np.array([np.abs(gap).max() for gap in (normal - known, told - doubted, told - normal)])
            worst = np.maximum(worst, row)
            _print(f"{rules.id:26}{name:36}", row)
    _print(f"{'largest of all':62}", worst)


def _print(name: str, row: np.ndarray) -> None:
    print(f"{name}{row[0]:15.4f}{row[1]:15.4f}{row[2]:11.4f}", flush=True)


if __name__ == "__main__":
    main()
