"""Are the probabilities of every proportion those of drawn landmarks?

    python -m tests.bench.ratios [DRAWS]

For each proportion that an edition judges, at each of its limits, a dog is made whose value lies at the
limit, near it and far from it, of ordinary size and of two thirds of it. Then landmarks are drawn: what an
evaluator thinks of where each one is, once for all measurements from there, and the rest of each
measurement by itself. Printed: the largest difference between the probability of being within that the
program tells and the share of draws; 0.01 is wanted. Errors are normal, of the size assumed; Student's t
for the doubt of that size must differ a little by itself, so beside it stands what is left with the normal
at the same distances.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from hands_on.evaluate.measures import measure
from hands_on.evaluate.shared_landmarks import span_of, spread_of
from hands_on.evaluate.values import Incomputable, readings
from hands_on.exam.session import Session
from hands_on.measure.conformity import Against, p_between
from hands_on.measure.landmarks import variance
from hands_on.measure.takes import LASTING_SHARE, REPEATABLE_SHARE
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


def drawn(dog: Placed, draws: int) -> float:
    """The share of drawn dogs that lie within the limit."""
    chance = np.random.default_rng(11)
    rules, limit = dog.edition, dog.limit
    assert limit.ratio is not None
    assert limit.asked is not None
    spans = {name: span_of(rules, rules.points[name]) for name in dog.lengths}
    names = sorted({place for span in spans.values() if span is not None for place in span.slopes})
    thought = {}
    for name in names:
        spread = spread_of(rules, name)
        sizes = [spread.along, spread.up, spread.across]
        thought[name] = LASTING_SHARE * chance.normal(0, 1, (draws, 3)) * sizes
    true = {}
    for name, length in dog.lengths.items():
        u, span = _u(rules, name, length), spans[name]
        found = 0.0 if span is None else variance(span, {place: spread_of(rules, place) for place in names})
        stays = LASTING_SHARE * np.sqrt(max(0.0, u * u - found)) * chance.normal(0, 1, draws)
        if span is not None:
            for place, way in span.slopes.items():
                stays = stays + thought[place] @ np.array(way)
        anew = REPEATABLE_SHARE * u * chance.normal(0, 1, draws)
        true[name] = length - stays - anew
    ratio = _of(limit.ratio[0], true) / _of(limit.ratio[1], true)
    return float(((ratio >= limit.asked.low) & (ratio <= limit.asked.high)).mean())


def _of(value: Value, true: Mapping[str, np.ndarray]) -> np.ndarray:
    if value.measure is not None:
        return true[value.measure]
    assert value.difference is not None
    first, second = value.difference
    return _of(first, true) - _of(second, true)


def main() -> None:
    """Print the largest difference of each proportion."""
    draws = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    print(f"{draws} draws a dog; the largest difference of p: as told | with the normal in place of t")
    worst = [0.0, 0.0]
    for rules in editions():
        rows: dict[str, list[float]] = {}
        for size in (1.0, 2 / 3):
            for dog in placed(rules, size):
                row, share = rows.setdefault(dog.limit.id, [0.0, 0.0]), drawn(dog, draws)
                for kind, p in enumerate((dog.p_inside, dog.p_normal)):
                    row[kind] = max(row[kind], abs(p - share))
                    worst[kind] = max(worst[kind], row[kind])
        for name, row in rows.items():
            print(f"{rules.id:26}{name:36}{row[0]:.4f} | {row[1]:.4f}", flush=True)
    print(f"{'largest of all':62}{worst[0]:.4f} | {worst[1]:.4f}")


if __name__ == "__main__":
    main()
