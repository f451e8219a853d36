"""What was recorded, a row a point: for tables, and for whoever reads the whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import MeasureResult
from hands_on.frozen import dataclass
from hands_on.ruleset.base import Side
from hands_on.ruleset.points import Point
from hands_on.wording.answers import answer_words

__all__ = ["PointRow", "point_rows"]


@dataclass(frozen=True)
class PointRow:
    """One recorded point of one examination; numbers in the point's own unit."""

    session: str
    dog: str
    evaluator: str
    date: str
    edition: str
    region: str
    point: str
    label: str
    kind: str
    state: str
    """`answered` or `skipped`."""
    answer: str
    value: float | None = None
    u: float | None = None
    unit: str = ""
    takes: int | None = None
    faults: str = ""
    """Ids of the departures named, with blanks between."""
    degrees: str = ""
    """In the order of `faults`; `-` where none was said."""
    sides: str = ""
    unsure: bool = False
    too_young: bool = False


def point_rows(one: Examined) -> Iterator[PointRow]:
    """The points answered or skipped, in the order of the examination."""
    measures = {(found.id, found.side): found for found in one.evaluation.measures}
    asked = {point.id for point in one.ruleset.walk_points}
    for point in one.ruleset.points.values():
        answer = answer_at(one, point)
        if answer.state == "answered" or (answer.state == "skipped" and point.id in asked):
            yield _row(one, point, answer, measures)


def _row(
    one: Examined, point: Point, answer: Answer, measures: Mapping[tuple[str, Side | None], MeasureResult]
) -> PointRow:
    regions = {region.id: region.label for region in one.ruleset.regions}
    found = [
        finding
        for finding in (*one.evaluation.findings, *one.evaluation.allowed)
        if point.id in finding.points and finding.status != "absent" and finding.id in answer.faults
    ]
    taken = [measures[key].takes for key in measures if key[0] == point.id]
    return PointRow(
        session=one.name,
        dog=one.dog,
        evaluator=one.evaluator,
        date=one.day,
        edition=one.ruleset.id,
        region=regions.get(point.region, point.region),
        point=point.id,
        label=point.label,
        kind=point.kind,
        state=answer.state,
        answer=answer_words(answer, one.ruleset),
        value=answer.value,
        u=answer.u,
        unit=answer.unit if answer.value is not None else "",
        takes=max(taken) if taken else None,
        faults=" ".join(finding.id for finding in found),
        degrees=" ".join(finding.degree or "-" for finding in found),
        sides=" ".join(finding.side or "-" for finding in found),
        unsure=answer.unsure,
        too_young=bool(answer.too_young),
    )
