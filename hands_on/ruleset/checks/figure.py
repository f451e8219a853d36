"""The figure's data: what it names exists, and an edition's proportions are within their ranges."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.figure import FigurePlan, Settings
from hands_on.ruleset.points import MeasurePoint
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["check_figure", "check_settings"]


def check_figure(report: Report, plan: FigurePlan, known: Known) -> None:
    """The plan of a common file: proportions, landmarks, measures and faults that it names."""
    regions = set(known.regions)
    for name, read in plan.reads.items():
        path: Path = ("figure", "reads", name)
        report.expect(path, name, known.measures, "measurement")
        for place in (*(read.slope or ()), *(read.lean or ()), *(read.angle or ()), *(read.below or ())):
            report.expect(path, place, known.landmarks, "landmark")
        for part in (read.proportion, read.round_, *(read.oval or ())):
            if part is not None:
                report.expect(path, part, plan.proportions, "proportion")
    for fault, seen in plan.seen.items():
        path = ("figure", "seen", fault)
        report.expect(path, fault, known.faults, "fault")
        for name in seen.moves:
            report.expect((*path, "moves", name), name, plan.proportions, "proportion")
    for n, entry in enumerate(plan.unseen):
        path = ("figure", "unseen", n)
        for k, name in enumerate(entry.regions):
            report.expect((*path, "regions", k), name, regions, "region")
        for k, name in enumerate(entry.faults):
            report.expect((*path, "faults", k), name, known.faults, "fault")
            if name in plan.seen:
                report.error((*path, "faults", k), f'"{name}" is drawn, above.', "one of the two.")
        for k, name in enumerate(entry.measures):
            report.expect((*path, "measures", k), name, known.measures, "measurement")
            if _is_read(plan, known, name):
                report.error((*path, "measures", k), f'"{name}" is read off the figure.', "one of the two.")


def _is_read(plan: FigurePlan, known: Known, measure: str) -> bool:
    point = known.measures.get(measure)
    return measure in plan.reads or (isinstance(point, MeasurePoint) and point.between is not None)


def check_settings(report: Report, figure: Sequence[Settings], plan: FigurePlan | None) -> None:
    """An edition's own proportions."""
    for n, entry in enumerate(figure):
        for name, value in entry.set.items():
            path: Path = ("figure", n, "set", name)
            if plan is None or not report.expect(path, name, plan.proportions, "proportion"):
                continue
            low, high = plan.proportions[name].range
            if not low <= value <= high:
                report.error(path, f"{value:g} is outside what can be drawn.", f"{low:g} to {high:g}.")
