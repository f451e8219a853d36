"""Texts in another language: every id they name must be known."""

from __future__ import annotations

from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.files import EditionFile
from hands_on.ruleset.points import ChoicePoint
from hands_on.toml_text.report import Report

__all__ = ["check_languages"]


def check_languages(report: Report, own: EditionFile, edition: EditionFile, known: Known) -> None:
    """Labels of regions, points, their options, faults, classes and outcomes, and asked texts of points."""
    named = [
        *known.regions,
        *known.points,
        *(
            f"{point.id}.{option.id}"
            for point in known.points.values()
            if isinstance(point, ChoicePoint)
            for option in point.options
        ),
        *known.faults,
        *(one.id for one in edition.classes),
        *(one.id for one in edition.outcomes),
    ]
    for code, tongue in own.languages.items():
        for name in tongue.labels:
            what = "region, point, option, fault, class or outcome"
            report.expect(("languages", code, "labels", name), name, named, what)
        for name in tongue.asked:
            report.expect(
                ("languages", code, "asked", name), name, list(edition.asked), "asked point of this edition"
            )
