"""Which measurements of a dog err together, since they run from the same landmark."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.measure.landmarks import Span, Spread, correlations, direction
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["shared_errors"]


def shared_errors(
    ruleset: Ruleset, measured: Mapping[str, tuple[float, float]]
) -> dict[tuple[str, str], float]:
    """Correlation coefficients of measurements (value and u by point, canonical), by pairs.

    Pairs that share no landmark are left out, and measurements that run between none.
    """
    spans = {
        name: span for name in measured if (span := _span(ruleset, ruleset.points.get(name))) is not None
    }
    cm = canonical_unit("length")
    spreads = {
        place.id: Spread(*(convert(size, "mm", cm) for size in (place.along, place.up, place.across)))
        for place in ruleset.landmarks.values()
    }
    return correlations(spans, {name: u for name, (_, u) in measured.items()}, spreads)


def _span(ruleset: Ruleset, point: object) -> Span | None:
    if not isinstance(point, MeasurePoint) or point.between is None:
        return None
    first, second = (ruleset.landmarks[name] for name in point.between.points)
    return Span(first.id, second.id, direction(point.between.runs, first.at, second.at))
