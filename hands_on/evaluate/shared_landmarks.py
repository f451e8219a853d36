"""Which measurements of a dog err together, since they run from the same landmark."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache

from hands_on.measure.landmarks import Span, Spread, correlations, direction, lasting_errors
from hands_on.measure.takes import Measured
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["independent_parts", "shared_errors", "span_of", "spread_of"]


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


def independent_parts(
    ruleset: Ruleset, slopes: Mapping[str, float], measured: Mapping[str, Measured]
) -> Iterator[tuple[float, float]]:
    """What a computed value's uncertainty is made of: parts that do not depend on each other, with their
    freedom.

    `slopes` are its partial derivatives. Welch and Satterthwaite's formula holds for such parts only
    (JCGM 100:2008, G.4.1): what changes from take to take and what else stays, by measurement, and by
    landmark and axis what comes from finding it, whichever measurements run from there. Each figure is
    judged by itself.
    """
    found: dict[str, tuple[float, float]] = {}
    for name, one in measured.items():
        yield slopes[name] * one.u_repeat, one.dof_repeat
        span = span_of(ruleset, ruleset.points.get(name))
        at = {} if span is None else lasting_errors(span, _spreads(ruleset, span), one.harder)
        for axis, error in at.items():
            sum_so_far, dof = found.get(axis, (0.0, math.inf))
            found[axis] = sum_so_far + slopes[name] * error, min(dof, one.dof_lasting)
        rest = one.u_lasting**2 - math.fsum(error * error for error in at.values())
        yield slopes[name] * math.sqrt(max(0.0, rest)), one.dof_lasting
    yield from found.values()


def _spreads(ruleset: Ruleset, span: Span) -> dict[str, Spread]:
    return {name: spread_of(ruleset, name) for name in span.slopes}
