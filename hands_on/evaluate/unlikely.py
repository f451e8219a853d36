"""One reading alone, far from what the edition asks of this dog: asked about before it counts."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.evaluate.alarms.recorded import FarFromAsked
from hands_on.evaluate.measures import Measures
from hands_on.evaluate.result import Alarm
from hands_on.exam.likely import likely_range
from hands_on.exam.session import Session
from hands_on.measure.units import convert
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["unlikely_readings"]


def unlikely_readings(ruleset: Ruleset, session: Session, measures: Measures) -> Iterator[Alarm]:
    """An alarm for each measurement that one take alone gives and that is far from what is asked for."""
    for name, one in measures.by_point.items():
        for side, found in one.sides.items():
            if found.n > 1 or not one.entered_units:
                continue
            likely = likely_range(ruleset, session, one.point)
            if likely is not None and not likely.within(found.value):
                value = convert(found.value, one.canonical, one.point.unit)
                about = FarFromAsked(name, side, value, one.point.unit, likely.asked, likely.young)
                yield Alarm("unlikely", (name,), about)
