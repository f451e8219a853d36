"""No wording may be claimed by two faults, or by two measurements of one kind: a note could not be read.

A length and an angle may share a wording (`blade 18 cm`, `blade 50 degrees`): the unit tells them apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hands_on.ruleset.checks.known import Known, folded
from hands_on.ruleset.points import Fault, MeasurePoint, Point
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["Wordings"]

Claims = dict[tuple[str, str], tuple[str, str]]
"""(`fault` or the kind of quantity, wording as compared) -> (who claims it, in which file)."""


_FAULT = "fault"


class Wordings:
    """Who claims which wording, over all files put in."""

    def __init__(self, known: Known | None = None, file: str = "") -> None:
        """`known` claims first, unchecked: that of other files, called `file` where they are named."""
        self._known, self._file = known.wordings if known else {}, file
        self._claims: Claims = {}

    def check_file(
        self,
        report: Report,
        points: Sequence[Point],
        faults: Mapping[str, Fault],
        extra: Mapping[str, tuple[str, ...]],
        known: Known,
    ) -> None:
        """Put in what one file claims, noting each wording that somebody else claims already."""
        for name, fault in faults.items():
            self._claim(report, name, _FAULT, _rows(("faults", name, "wording"), fault.wording))
        for index, point in enumerate(points):
            if isinstance(point, MeasurePoint):
                rows = _rows(("points", index, "wording"), point.wording)
                self._claim(report, point.id, point.quantity, rows)
        for name, wording in extra.items():
            rows = _rows(("wording", name), wording)
            if name in known.faults:
                self._claim(report, name, _FAULT, rows)
            elif name in known.measures:
                self._claim(report, name, known.measures[name].quantity, rows)
            else:
                report.expect(
                    ("wording", name), name, [*known.faults, *known.measures], "fault or measurement"
                )

    def _claim(self, report: Report, name: str, kind: str, rows: Iterator[tuple[Path, str]]) -> None:
        thing = _FAULT if kind == _FAULT else "measurement"
        for path, wording in rows:
            key = folded(wording)
            if not key:
                report.error(path, "an empty wording.", "words that people use, or nothing.")
                continue
            if (kind, key) in self._known:
                owner, file = self._known[kind, key], self._file
            else:
                owner, file = self._claims.setdefault((kind, key), (name, report.file))
            if owner != name:
                place = "" if file == report.file else f" in {file}"
                report.error(
                    path,
                    f'the wording "{wording}" is claimed by "{name}" here and by "{owner}"{place}.',
                    f"leave it to one of them: a note with these words must mean one {thing}.",
                )


def _rows(path: Path, wording: tuple[str, ...]) -> Iterator[tuple[Path, str]]:
    for position, words in enumerate(wording):
        yield ((*path, position) if len(wording) > 1 else path), words
