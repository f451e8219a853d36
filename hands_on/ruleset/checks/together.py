"""What is asked about when it stands together: faults, points and measurements that exist, units that fit."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.checks.values import check_value
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.together import StandTogether
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["check_together"]


def check_together(report: Report, entries: Sequence[StandTogether], known: Known) -> None:
    """The entries of one file."""
    report.unique(((("together", n, "id"), entry.id) for n, entry in enumerate(entries)), "question")
    judged = [name for name, point in known.points.items() if not isinstance(point, MeasurePoint)]
    for n, entry in enumerate(entries):
        for at, sign in enumerate(entry.signs):
            path: Path = ("together", n, "signs", at)
            for place, fault in enumerate(sign.fault):
                key: Path = (*path, "fault", place) if len(sign.fault) > 1 else (*path, "fault")
                report.expect(key, fault, known.faults, "fault")
            for place, point in enumerate(sign.right):
                key = (*path, "right", place) if len(sign.right) > 1 else (*path, "right")
                report.expect(key, point, judged, "point that is judged")
            if sign.value is not None:
                check_value(report, (*path, "value"), sign.value, known)
        if all(sign.right for sign in entry.signs):
            what = "everything here is as asked for: there is nothing to ask about."
            report.error(("together", n, "signs"), what, "a fault or a value among the signs.")
