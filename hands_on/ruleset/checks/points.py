"""Points and faults: what they name exists, and each point lies in a region."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.points import ChoicePoint, Fault, GradePoint, MeasurePoint, Point, ScalePoint
from hands_on.ruleset.seen import Seen
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["check_faults", "check_points", "check_seen"]


def check_points(report: Report, points: Sequence[Point], region: str | None, known: Known) -> None:
    """The points of one file; `region` is the file's own region, if it has one."""
    for index, point in enumerate(points):
        path: Path = ("points", index)
        _check_region(report, path, point, region, known)
        if isinstance(point, GradePoint):
            _check_departures(report, path, point, known)
        elif isinstance(point, ScalePoint):
            report.unique(
                (((*path, "steps", n, "value"), str(step.value)) for n, step in enumerate(point.steps)),
                "step",
            )
            values = [step.value for step in point.steps]
            if values != sorted(values):
                report.error(
                    (*path, "steps"), f"the steps stand in the order {values}.", "the lowest value first."
                )
            for n, step in enumerate(point.steps):
                _check_fault(report, (*path, "steps", n), step.fault, step.degree, known)
        elif isinstance(point, ChoicePoint):
            report.unique(
                (((*path, "options", n, "id"), option.id) for n, option in enumerate(point.options)), "option"
            )
            if point.instead_of:
                report.expect((*path, "instead_of"), point.instead_of, known.points, "point")
            for n, option in enumerate(point.options):
                _check_fault(report, (*path, "options", n), option.fault, option.degree, known)
                if option.measure:
                    measures = [one.id for one in known.points.values() if isinstance(one, MeasurePoint)]
                    report.expect((*path, "options", n, "measure"), option.measure, measures, "measure")


def _check_region(report: Report, path: Path, point: Point, region: str | None, known: Known) -> None:
    if point.region:
        report.expect((*path, "region"), point.region, known.regions, "region")
    elif region is None:
        close = point.id.split(".")[0]
        example = close if close in known.regions else "head"
        report.error(path, f'no region holds the point "{point.id}".', f'a line region = "{example}".')


def _check_departures(report: Report, path: Path, point: GradePoint, known: Known) -> None:
    seen: set[str] = set()
    for key in ("less", "more", "other"):
        for n, fault in enumerate(getattr(point, key)):
            report.expect((*path, key, n), fault, known.faults, "fault")
            if fault in seen:
                what = f'the departure "{fault}" stands twice at this point.'
                report.error((*path, key, n), what, "each departure once, in less, more or other.")
            seen.add(fault)


def _check_fault(report: Report, path: Path, fault: str | None, degree: str | None, known: Known) -> None:
    if fault is not None:
        report.expect((*path, "fault"), fault, known.faults, "fault")
    elif degree is not None:
        report.error((*path, "degree"), "a degree without a fault.", 'fault = "...", or no degree.')


def check_seen(report: Report, seen: Mapping[str, Seen], known: Known) -> None:
    """What an edition makes of things that are only seen."""
    for name, entry in seen.items():
        path: Path = ("seen", name)
        points = {
            one.id: one for one in known.points.values() if isinstance(one, ChoicePoint) and one.instead_of
        }
        report.expect(path, name, points, "point that says what is seen")
        if name not in points:
            continue
        options = [option.id for option in points[name].options]
        for n, option in enumerate(entry.right):
            report.expect((*path, "right", n), option, options, "option")
            if option in entry.means:
                what = f'"{option}" is right and means "{entry.means[option].fault}" as well.'
                report.error((*path, "right", n), what, "in right or in means.")
        for option, means in entry.means.items():
            report.expect((*path, "means", option), option, options, "option")
            report.expect((*path, "means", option, "fault"), means.fault, known.faults, "fault")


def check_faults(report: Report, faults: Mapping[str, Fault], known: Known) -> None:
    """The fault vocabulary of one file."""
    for name, fault in faults.items():
        path: Path = ("faults", name)
        if name.split(".")[0] not in known.regions or "." not in name:
            report.expect(path, name.split(".")[0], known.regions, "region", "region.what-is-wrong.")
        for n, other in enumerate(fault.opposite):
            if other == name:
                report.error((*path, "opposite", n), "a fault is not its own opposite.", "another fault.")
            else:
                report.expect((*path, "opposite", n), other, known.faults, "fault")
        if fault.region:
            report.expect((*path, "region"), fault.region, known.regions, "region")
