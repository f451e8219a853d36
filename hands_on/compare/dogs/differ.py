"""Two answers at one point: do they differ by more than a hand errs, and does growth explain it?

Of measurements as `compare.dogs.two_answers` has it, of one dog at two ages as `compare.dogs.later`. Grades
follow `measure.change.grade_change` without retests: one step is within ordinary disagreement, two are
probably real.
"""

from __future__ import annotations

from dataclasses import replace

from hands_on.compare.answer import Answer
from hands_on.compare.dogs.earlier_ones import Before
from hands_on.compare.dogs.later import against_all_grades, grown, kept
from hands_on.compare.dogs.two_answers import (
    hand_correlation,
    measured_difference,
    scale_steps,
    too_young_to_judge,
    uncompared,
)
from hands_on.compare.dogs.verdicts import Difference, Verdict
from hands_on.compare.examined import Examined, same_dog, same_evaluator
from hands_on.measure.change import grade_change
from hands_on.measure.units import convert
from hands_on.ruleset.points import MeasurePoint, Point

__all__ = ["difference"]


def difference(
    sessions: tuple[Examined, Examined],
    points: tuple[Point, Point],
    answers: tuple[Answer, Answer],
    places: tuple[int, int] = (0, 1),
    before: Before = (),
) -> Difference:
    """Compare what two sessions say at a point; `points` is the point as each one's edition has it.

    Of one dog at two ages, growth is asked for, and whether it could be judged then; `before` are what still
    earlier examinations say, and all of them count.
    """
    first, second = sessions
    a, b = answers
    if not a.given or not b.given:
        return uncompared(places, "not-in-both")
    if points[0].kind != points[1].kind:
        return uncompared(places, "asked-differently", differs=True)
    again = same_dog(first, second) and first.order_key != second.order_key
    backwards = again and second.order_key < first.order_key
    if isinstance(points[0], MeasurePoint) and isinstance(points[1], MeasurePoint):
        found = _measured(sessions, points[0], answers, places)
        if again and found.verdict is not None:
            ordered = ((second, first), (b, a)) if backwards else (sessions, answers)
            return grown(*ordered, points[0], found, before)
        young = a.too_young or b.too_young
        return too_young_to_judge(found, young) if young is not None else found
    found = _judged(points, answers, places)
    if again and backwards:
        return kept((second, first), (b, a), found)
    if again:
        return kept((first, second), (a, b), against_all_grades(points[1], (a, b), found, before))
    young = a.too_young or b.too_young
    return too_young_to_judge(found, young) if young is not None else found


def _measured(
    sessions: tuple[Examined, Examined],
    point: MeasurePoint,
    answers: tuple[Answer, Answer],
    places: tuple[int, int],
) -> Difference:
    a, b = answers
    if a.unit != b.unit:
        try:
            value, u = (convert(x or 0.0, b.unit, a.unit) for x in (b.value, b.u))
        except ValueError:
            return uncompared(places, "different-units", differs=True, units=(a.unit, b.unit))
        b = replace(b, value=value, u=u)
    correlation = hand_correlation(*answers, same_evaluator(*sessions))
    return measured_difference(a, b, point.unit, correlation, places)


def _judged(
    points: tuple[Point, Point], answers: tuple[Answer, Answer], places: tuple[int, int]
) -> Difference:
    """Grades, steps, choices and charts."""
    a, b = answers
    differs = a.said != b.said
    unsure = a.unsure or b.unsure
    if a.position is None or b.position is None:
        if a.category == b.category:
            return Difference(*places, None, None, None, "within-hand-error", "same", differs)
        verdict: Verdict = "within-hand-error" if unsure else "real"
        return Difference(*places, None, None, None, verdict, "different", differs, unsure=unsure)
    same_scale = scale_steps(points[0]) == scale_steps(points[1])
    found = grade_change(a.position, b.position, same_scale=same_scale)
    if not same_scale:
        return uncompared(places, "different-scales", differs=differs)
    beyond = found.verdict in ("real", "probably-real")
    return Difference(
        *places,
        float(found.steps),
        None,
        None,
        "real" if beyond and not unsure else "within-hand-error",
        "steps" if found.steps else "same",
        differs,
        unsure=beyond and unsure,
    )
