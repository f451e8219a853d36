"""Landmarks: each is declared once, those a measurement runs between exist, and none explains too much."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hands_on.measure.landmarks import Span, Spread, direction, variance
from hands_on.measure.units import convert
from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.landmarks import Landmark
from hands_on.ruleset.points import MeasurePoint, Point
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["check_landmarks"]


def check_landmarks(
    report: Report, landmarks: Sequence[Landmark], points: Sequence[Point], known: Known
) -> None:
    """The landmarks of one file, and the measurements of that file that run between any."""
    report.unique(((("landmarks", n, "id"), entry.id) for n, entry in enumerate(landmarks)), "landmark")
    for index, point in enumerate(points):
        if not isinstance(point, MeasurePoint) or point.between is None:
            continue
        path: Path = ("points", index, "between")
        if point.quantity != "length":
            report.error(path, f"{point.quantity} runs between no landmarks.", "between only at a length.")
            continue
        for n, name in enumerate(point.between.points):
            report.expect((*path, "points", n), name, known.landmarks, "landmark")
        if all(name in known.landmarks for name in point.between.points):
            _check_share(report, path, point, known)


def _check_share(report: Report, path: Path, point: MeasurePoint, known: Known) -> None:
    """Finding the two landmarks cannot be less certain than the take that rests on them.

    Looked at for the smallest plausible reading: the uncertainty of a take grows with it, that of finding a
    landmark does not.
    """
    assert point.between is not None
    first, second = (known.landmarks[name] for name in point.between.points)
    try:
        towards = direction(point.between.runs, first.at, second.at)
    except ValueError as problem:
        report.error(path, f"{problem}.", "landmarks that lie apart, or another way to run.")
        return
    unit = point.unit
    spreads = {
        one.id: Spread(*(convert(size, "mm", unit) for size in (one.along, one.up, one.across)))
        for one in (first, second)
    }
    found = math.sqrt(variance(Span(first.id, second.id, towards), spreads))
    whole = math.hypot(point.u.a, point.u.b * max(0.0, point.plausible[0]))
    if found > whole:
        report.error(
            path,
            f"its landmarks are found to {found:.2g} {unit}, a take that rests on them to {whole:.2g}.",
            "a larger u, or landmarks found more closely.",
        )
