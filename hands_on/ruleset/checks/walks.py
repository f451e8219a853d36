"""Shorter walks: what they name exists, and none hides another."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.walks import Walk
from hands_on.toml_text.report import Report

__all__ = ["check_walks"]


def check_walks(report: Report, walks: Sequence[Walk], known: Known) -> None:
    """The walks of one file."""
    report.unique(((("walks", n, "id"), walk.id) for n, walk in enumerate(walks)), "walk")
    for n, walk in enumerate(walks):
        for index, region in enumerate(walk.regions):
            report.expect(("walks", n, "regions", index), region, known.regions, "region")
        for key in ("points", "leave_out"):
            for index, point in enumerate(getattr(walk, key)):
                report.expect(("walks", n, key, index), point, known.points, "point")
