"""Which measurements of a dog err together, since they run from the same landmark."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from hands_on.measure.landmarks import Span, Spread, correlations, direction
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["shared_errors", "span_of", "spread_of"]


def shared_errors(
    ruleset: Ruleset,
    measured: Mapping[str, tuple[float, float]],
    harder: Mapping[str, float] | None = None,
) -> dict[tuple[str, str], float]:
    """Correlation coefficients of measurements (value and u by point, canonical), by pairs.

    `harder` tells how many times as far off its landmarks may be found. Pairs that share no landmark are left
    out, and measurements that run between none.
    """
    spans = {
        name: span for name in measured if (span := span_of(ruleset, ruleset.points.get(name))) is not None
    }
    used = {name for span in spans.values() for name in span.slopes}
    spreads = {name: spread_of(ruleset, name) for name in used}
    return correlations(spans, {name: u for name, (_, u) in measured.items()}, spreads, harder)


def spread_of(ruleset: Ruleset, landmark: str) -> Spread:
    """How well a landmark is found, in the canonical unit of lengths."""
    place = ruleset.landmarks[landmark]
    return _spread(place.along, place.up, place.across)


@lru_cache(maxsize=256)
def _spread(along: float, up: float, across: float) -> Spread:
    """Of millimetres, in the canonical unit."""
    return Spread(*(convert(size, "mm", canonical_unit("length")) for size in (along, up, across)))


def span_of(ruleset: Ruleset, point: object) -> Span | None:
    """Between which landmarks a measurement runs; None for what has none."""
    if not isinstance(point, MeasurePoint) or point.between is None:
        return None
    first, second = (ruleset.landmarks[name] for name in point.between.points)
    return Span(first.id, second.id, direction(point.between.runs, first.at, second.at))
